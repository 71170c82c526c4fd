"""A button pressed twice on a slow phone does it once: every write carries an id its page made."""

import hashlib
import json
import uuid
from collections.abc import Mapping
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils import timezone

from throwbench.science.errors import SaidError
from throwbench.workshop.house.models import Entry, Person
from throwbench.workshop.house.press import current_press
from throwbench.workshop.house.selectors import workshop


class EntryConflictError(SaidError):
    """The same id came with other content; the first is kept."""


def new_entry_id() -> uuid.UUID:
    return uuid.uuid4()


def seen_before(
    entry: uuid.UUID | None,
    *,
    what: str,
    content: Mapping[str, Any],
    who: Person | None,
    now: datetime,
) -> bool:
    """Whether this entry was written already; if not, it is now, in the caller's transaction.

    Without an id (the demo, a file read in) an entry is always new.

    Raises
    ------
    EntryConflictError
        The id was used for something else.
    TransactionManagementError
        The caller holds no transaction: the entry could be kept without what it notes.
    """
    if entry is None:
        return False
    if not transaction.get_connection().in_atomic_block:
        raise transaction.TransactionManagementError(f"“{what}” is noted outside a transaction")
    text = json.dumps([what, dict(content)], sort_keys=True, default=str)
    digest = hashlib.sha256(text.encode()).hexdigest()
    told = {"what": what, "digest": digest, "who": who, "at": now, **_of_the_device()}
    kept, is_new = Entry.objects.get_or_create(id=entry, defaults=told)
    if not is_new and (kept.digest != digest or sent_otherwise(kept)):
        raise _conflict(kept)
    return _seen(not is_new)


def _seen(is_there: bool) -> bool:
    press = current_press()
    if press is not None:
        press.seen = is_there
    return is_there


def _of_the_device() -> dict[str, Any]:
    """What a device says of its entry, and when that came; nothing for a plain form."""
    press = current_press()
    if press is None:
        return {}
    return {
        "at": press.arrived_at,
        "sent_digest": press.digest,
        "device": press.device,
        "turn": press.turn,
        "pressed_at": press.pressed_at,
        "skew_ms": press.skew_ms,
    }


def _conflict(kept: Entry) -> EntryConflictError:
    error = EntryConflictError(sent_already(kept))
    press = current_press()
    if press is not None:
        press.conflict = str(error)
    return error


def sent_otherwise(kept: Entry) -> bool:
    """Whether a device sends other bytes now than came under this id; a plain form has none."""
    press = current_press()
    return press is not None and kept.sent_digest not in ("", press.digest)


def sent_already(kept: Entry) -> str:
    """What is said of an id that came with other content than the first, which is kept."""
    here = workshop()
    at = timezone.localtime(kept.pressed_at or kept.at, ZoneInfo(here.zone) if here else None)
    return (
        f"This page was sent already at {at:%H:%M} with other answers. "
        "The first ones are kept. Open the page anew to note something else."
    )
