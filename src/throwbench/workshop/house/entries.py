"""A button pressed twice on a slow phone does it once: every write carries an id its page made."""

import hashlib
import json
import uuid
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.utils import timezone

from throwbench.science.errors import SaidError
from throwbench.workshop.house.models import Entry, Person
from throwbench.workshop.house.press import current_press


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
    """
    if entry is None:
        return False
    text = json.dumps([what, dict(content)], sort_keys=True, default=str)
    digest = hashlib.sha256(text.encode()).hexdigest()
    told = {"what": what, "digest": digest, "who": who, "at": now, **_of_the_device()}
    kept, is_new = Entry.objects.get_or_create(id=entry, defaults=told)
    if not is_new and kept.digest != digest:
        raise _conflict(kept)
    return not is_new


def _of_the_device() -> dict[str, Any]:
    """What a device says of its entry; nothing for a plain form."""
    press = current_press()
    if press is None:
        return {}
    return {
        "sent_digest": press.digest,
        "device": press.device,
        "turn": press.turn,
        "pressed_at": press.pressed_at,
        "skew_ms": press.skew_ms,
    }


def _conflict(kept: Entry) -> EntryConflictError:
    error = EntryConflictError(
        f"This page was sent already at {timezone.localtime(kept.at):%H:%M} with other answers. "
        "The first ones are kept. Open the page anew to note something else."
    )
    press = current_press()
    if press is not None:
        press.conflict = str(error)
    return error
