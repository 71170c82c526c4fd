"""Whether anything at all was written to the database since a page asked last."""

import threading
from collections.abc import Callable
from typing import Any, TypeVar

from django.db import connection

T = TypeVar("T")
_kept = threading.local()
_MOST = 64


def until_something_is_written(key: Any, find: Callable[[], T]) -> T:
    """The answer found last for this key, as long as nobody has written anything since.

    SQLite counts the writes of this connection, and notices those of all others: the answer is
    kept for each connection, and any write by anyone drops it. Inside a transaction nothing is
    kept: what is read there may be taken back.
    """
    if _in_a_transaction():
        return find()
    state = _writes()
    if getattr(_kept, "state", None) != state:
        _kept.state, _kept.answers = state, {}
    answers: dict[Any, T] = _kept.answers
    if key not in answers:
        if len(answers) >= _MOST:
            answers.clear()
        answers[key] = find()
    return answers[key]


def _in_a_transaction() -> bool:
    return connection.in_atomic_block


def _writes() -> tuple[Any, int, int]:
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA data_version")
        (others,) = cursor.fetchone()
    here = connection.connection
    return here, others, here.total_changes
