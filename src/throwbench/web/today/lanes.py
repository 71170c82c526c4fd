"""Lit candles along one axis of hours: how long they have burned, and when they have to be out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import groupby

from django.utils import timezone

from throwbench.verdict.words import number
from throwbench.workshop.trials.selectors.burns import Lit

HOUR = timedelta(hours=1)
LAST_MINUTES = timedelta(minutes=15)
"""This near to its end a candle wants a hand."""
SHORT_WORDS = 10
"""Up to here a number as a word fits where a code stands."""
NOW_EDGE = 18
"""So near to an end [% of the axis] "now" leans inwards."""
NOW_WIDE, HOUR_WIDE = 25, 7
"""How much of the axis of a small phone "now 11:05" takes, and an hour with its gaps [%]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    x: str
    word: str
    anchor: str
    is_now: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """Candles of one room that were lit and have to be out together; places in per cent."""

    codes: tuple[str, ...]
    room: str
    kind: str
    handed_to: str
    lit_at: datetime
    lit_for: timedelta
    clock_is_behind: bool
    """Whether it was lit later than this machine's clock shows: no time of it holds."""
    out_by: datetime
    left: timedelta
    lit_x: str
    lit_width: str
    wait_width: str
    limit_x: str
    now_x: str
    wait_x: str

    @property
    def name(self) -> str:
        """The code, or how many: "Six", "14"."""
        many = len(self.codes)
        if many == 1:
            return self.codes[0]
        return number(many).capitalize() if many <= SHORT_WORDS else str(many)

    @property
    def is_many(self) -> bool:
        return len(self.codes) > 1

    @property
    def is_late(self) -> bool:
        return self.left <= timedelta(0)

    @property
    def wants_a_hand(self) -> bool:
        return self.clock_is_behind or self.left <= LAST_MINUTES

    @property
    def late_for(self) -> timedelta:
        return -self.left


@dataclass(frozen=True, slots=True, kw_only=True)
class Lanes:
    rows: tuple[Lane, ...]
    ticks: tuple[Tick, ...]


@dataclass(frozen=True, slots=True)
class _Axis:
    begins: datetime
    ends: datetime

    def place(self, moment: datetime) -> float:
        """Where a time lies on the axis [%]."""
        return 100 * ((moment - self.begins) / (self.ends - self.begins))


def lanes(lit: Sequence[Lit], *, now: datetime) -> Lanes:
    """Every lit candle in its lane, the first to be put out on top; none lit, no lane."""
    if not lit:
        return Lanes(rows=(), ticks=())
    axis = _axis(lit, now)
    rows = tuple(_lane(group, axis, now) for group in _together(lit))
    return Lanes(rows=rows, ticks=tuple(_ticks(axis, now)))


def _together(lit: Iterable[Lit]) -> list[list[Lit]]:
    def key(one: Lit) -> tuple[datetime, str, datetime, str, int]:
        burn = one.burn
        room = burn.room.name if burn.room else ""
        return burn.out_by_at, room, burn.lit_at, burn.kind, burn.handed_to_id or 0

    return [list(group) for _, group in groupby(sorted(lit, key=key), key=key)]


def _axis(lit: Iterable[Lit], now: datetime) -> _Axis:
    moments = [moment for one in lit for moment in (one.burn.lit_at, one.burn.out_by_at)]
    first = timezone.localtime(min([*moments, now])).replace(minute=0, second=0, microsecond=0)
    last = timezone.localtime(max([*moments, now + HOUR]))
    return _Axis(first, last.replace(minute=0, second=0, microsecond=0) + HOUR)


def _lane(group: Sequence[Lit], axis: _Axis, now: datetime) -> Lane:
    burn = group[0].burn
    lit, limit, here = (axis.place(moment) for moment in (burn.lit_at, burn.out_by_at, now))
    return Lane(
        codes=tuple(one.code for one in group),
        room=burn.room.name if burn.room else "room not noted",
        kind=burn.get_kind_display(),
        handed_to=burn.handed_to.name if burn.handed_to else "",
        lit_at=burn.lit_at,
        lit_for=group[0].lit_for,
        clock_is_behind=group[0].clock_is_behind,
        out_by=burn.out_by_at,
        left=burn.out_by_at - now,
        lit_x=_percent(lit),
        lit_width=_percent(max(here - lit, 0)),
        wait_width=_percent(max(limit - max(here, lit), 0)),
        limit_x=_percent(limit),
        now_x=_percent(here),
        wait_x=_percent(max(here, lit)),
    )


def _ticks(axis: _Axis, now: datetime) -> Iterable[Tick]:
    """Hours under the lanes, at most about six, none under "now"."""
    here = axis.place(now)
    hours = round((axis.ends - axis.begins) / HOUR)
    every = -(-hours // 6)
    for hour in range(0, hours + 1, every):
        moment = axis.begins + hour * HOUR
        place = axis.place(moment)
        if not _is_under_now(place, here):
            word = f"{timezone.localtime(moment):%H}".lstrip("0") or "0"
            yield Tick(x=_percent(place), word=word, anchor=_anchor(place))
    word = f"now {timezone.localtime(now):%H:%M}"
    yield Tick(x=_percent(here), word=word, anchor=_anchor(here, edge=NOW_EDGE), is_now=True)


def _is_under_now(place: float, here: float) -> bool:
    """Whether an hour would be written into "now", which leans inwards at both ends."""
    begins = {"start": here, "middle": here - NOW_WIDE / 2, "end": here - NOW_WIDE}[
        _anchor(here, edge=NOW_EDGE)
    ]
    return begins - HOUR_WIDE / 2 < place < begins + NOW_WIDE + HOUR_WIDE / 2


def _anchor(place: float, *, edge: float = 2) -> str:
    if place < edge:
        return "start"
    return "end" if place > 100 - edge else "middle"


def _percent(value: float) -> str:
    return f"{value:.2f}%"
