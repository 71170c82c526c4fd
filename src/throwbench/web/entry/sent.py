"""What a device sends: one entry, read from the bytes in which it was kept."""

import hashlib
import json
import uuid
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any
from urllib.parse import unquote_to_bytes, urlencode, urlsplit

from throwbench.science.errors import UnclearError

DOOR = "/entries/"
LONGEST_TURN = 2**53
LONGEST_MS = 253_402_300_799_000
"""The end of the year 9999."""
MOST_FIELDS = 1500
NOT_THE_FORMS = ("entry", "csrfmiddlewaretoken")
"""Names that a form's fields are not kept under: the entry's own id and the key of forms."""
KEPT_AT_MOST = timedelta(days=400)
"""An entry that says it waited longer was pressed by a clock that nobody had set."""
PUT_BACK = timedelta(minutes=2)
"""A clock that is corrected goes back by seconds; by more, it does not say when it was."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sent:
    """One entry as it came."""

    id: uuid.UUID
    key: str
    device: str
    turn: int
    address: str
    pressed_ms: int
    fields: tuple[tuple[str, str], ...]
    digest: str

    @property
    def path_info(self) -> str:
        """The path as a server hands it on: unquoted, each byte a character."""
        return unquote_to_bytes(urlsplit(self.address).path).decode("latin1")

    @property
    def query(self) -> str:
        """As a server hands it on: each byte a character."""
        return urlsplit(self.address).query.encode().decode("latin1")

    def form(self) -> bytes:
        """The fields as a plain form would send them, under the entry's own id."""
        told = [(name, value) for name, value in self.fields if name not in NOT_THE_FORMS]
        return urlencode([*told, ("entry", str(self.id))]).encode()


def read(body: bytes) -> Sent:
    """An entry from its bytes.

    Raises
    ------
    UnclearError
        It is not one.
    """
    try:
        told = json.loads(body)
        return Sent(
            id=uuid.UUID(told["id"]),
            key=_short(told["key"], 40),
            device=_short(told["device"], 36),
            turn=_whole(told["turn"], LONGEST_TURN),
            address=_own_address(told["address"]),
            pressed_ms=_whole(told["pressed_at"], LONGEST_MS),
            fields=_fields(told["fields"]),
            digest=hashlib.sha256(body).hexdigest(),
        )
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise UnclearError(
            "What came is not an entry.",
            "An entry is what a page of this workshop kept.",
            "Load the page anew.",
        ) from error


def pressed_at(sent: Sent, *, sent_ms: int, now: datetime) -> datetime:
    """When it was pressed, by the clock of `now`: as long ago as the device says.

    Raises
    ------
    UnclearError
        The device's clock was put back or set meanwhile, so that it cannot say.
    """
    waited = timedelta(milliseconds=sent_ms - sent.pressed_ms)
    if -PUT_BACK <= waited <= KEPT_AT_MOST:
        return now - max(waited, timedelta(0))
    way = "back" if waited < timedelta(0) else "forward"
    raise UnclearError(
        f"This device's clock went {way} by {_days_or_minutes(abs(waited))} between the press and "
        "now, so it cannot say when it was pressed.",
        f"An entry waits for up to {KEPT_AT_MOST.days} days.",
        "Note it anew, with its time.",
    )


def _days_or_minutes(lasted: timedelta) -> str:
    return f"{lasted.days} days" if lasted.days > 1 else f"{lasted // timedelta(minutes=1)} min"


def skew_ms(sent_ms: int, *, real_now: datetime) -> int:
    """How far the device's clock is behind the server's [ms]; the way here counts too."""
    return round(real_now.timestamp() * 1000) - sent_ms


def clock_of(header: str) -> int:
    """The device's clock when it sent [ms since 1970 UTC].

    Raises
    ------
    UnclearError
        The header is missing or no such number.
    """
    is_short = len(header) <= len(str(LONGEST_MS))
    if header.isascii() and header.isdecimal() and is_short and int(header) <= LONGEST_MS:
        return int(header)
    raise UnclearError(
        "The entry came without the device's clock.",
        "The page sends it along.",
        "Load the page anew.",
    )


def _own_address(value: Any) -> str:
    text = _text(value)
    is_own = text.startswith("/") and not text.startswith(("//", "/\\"))
    if not is_own or urlsplit(text).path.startswith(DOOR):
        raise ValueError(text)
    return text


def _fields(told: Any) -> tuple[tuple[str, str], ...]:
    found = tuple((_text(name), _text(value)) for name, value in told)
    if len(found) > MOST_FIELDS:
        raise ValueError(len(found))
    return found


def _short(value: Any, longest: int) -> str:
    text = _text(value)
    if not 0 < len(text) <= longest:
        raise ValueError(text)
    return text


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    value.encode()  # half a character is none
    return value


def _whole(value: Any, largest: int) -> int:
    if type(value) is not int or not 0 <= value <= largest:
        raise ValueError(value)
    return value
