"""What a device sends: one entry, read from the bytes in which it was kept."""

import hashlib
import json
import uuid
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any
from urllib.parse import urlencode, urlsplit

from throwbench.science.errors import UnclearError

DOOR = "/entries/"
LONGEST_TURN = 2**53
LONGEST_MS = 253_402_300_799_000
"""The end of the year 9999."""


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
    def path(self) -> str:
        return urlsplit(self.address).path

    @property
    def query(self) -> str:
        return urlsplit(self.address).query

    def form(self) -> bytes:
        """The fields as a plain form would send them, under the entry's own id."""
        told = [(name, value) for name, value in self.fields if name != "entry"]
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
            fields=tuple((_text(name), _text(value)) for name, value in told["fields"]),
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

    A device whose clock was set back meanwhile cannot say; then it is now.
    """
    waited = timedelta(milliseconds=max(0, sent_ms - sent.pressed_ms))
    try:
        return now - waited
    except OverflowError:
        return datetime.min.replace(tzinfo=UTC)


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
    if header.isdecimal() and int(header) <= LONGEST_MS:
        return int(header)
    raise UnclearError(
        "The entry came without the device's clock.",
        "The page sends it along.",
        "Load the page anew.",
    )


def _own_address(value: Any) -> str:
    text = _text(value)
    if not text.startswith("/") or text.startswith(("//", "/\\", DOOR)):
        raise ValueError(text)
    return text


def _short(value: Any, longest: int) -> str:
    text = _text(value)
    if not 0 < len(text) <= longest:
        raise ValueError(text)
    return text


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value


def _whole(value: Any, largest: int) -> int:
    if type(value) is not int or not 0 <= value <= largest:
        raise ValueError(value)
    return value
