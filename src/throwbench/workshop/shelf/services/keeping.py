"""How every row of the shelf is kept: checked first, so that a refusal is a sentence."""

from collections.abc import Iterable
from typing import Any, TypeVar

from django.db.models import Model

Row = TypeVar("Row", bound=Model)
NEW_PAPER = "new paper"
"""Why a fact changed, where the maker gives no other reason."""


def kept(row: Row) -> Row:
    """Check and save one row.

    Raises
    ------
    ValidationError
        With the sentences of the constraints that it breaks.
    """
    row.full_clean()
    row.save()
    return row


def only(facts: dict[str, Any], allowed: Iterable[str]) -> dict[str, Any]:
    """The facts themselves, if all are known by name.

    Raises
    ------
    TypeError
        One is not: a slip in the program, not of the maker.
    """
    unknown = facts.keys() - set(allowed)
    if unknown:
        raise TypeError(f"not a fact of this row: {', '.join(sorted(unknown))}")
    return facts
