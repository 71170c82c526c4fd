"""An entry that a device kept and sends now: when it was pressed, and what became of it.

The door of the entries sets it for one request; services find it where they write.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from datetime import datetime


@dataclass(slots=True, kw_only=True)
class Press:
    """One entry on its way in. `pressed_at` is by the device's clock, put right by its skew."""

    id: str
    key: str
    """Whose entry it is: of a person, a handed phone or a personal link."""
    panel: int | None = None
    """The panel at which the phone went round on which it was pressed."""
    device: str
    turn: int
    digest: str
    """SHA-256 of the bytes in which it came."""
    pressed_at: datetime
    arrived_at: datetime
    """When it reached the workshop; in a demo by the demo's clock, as `pressed_at`."""
    skew_ms: int
    said: list[str] = field(default_factory=list)
    """Sentences of what is wrong or asked."""
    refused: str = ""
    """Why nothing behind the door looked at it: whose it is, or the key of forms."""
    seen: bool = False
    """A service found the same content under the same id."""
    conflict: str = ""
    """Why the entry is not kept: its id was used for something else."""


_CURRENT: ContextVar[Press | None] = ContextVar("press", default=None)


def current_press() -> Press | None:
    """The entry that this request brings; None for a plain form."""
    return _CURRENT.get()


def say_to_the_device(*sentences: str) -> None:
    """What is wrong or asked, for an entry that came without its page; said once each."""
    press = current_press()
    if press is not None:
        press.said += [one for one in dict.fromkeys(sentences) if one not in press.said]


@contextmanager
def pressing(press: Press) -> Iterator[Press]:
    """Everything inside is done for this entry."""
    token = _CURRENT.set(press)
    try:
        yield press
    finally:
        _CURRENT.reset(token)
