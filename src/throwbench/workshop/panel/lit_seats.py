"""Whether candles may be sniffed lit in these rooms: what a panel refuses when it is opened."""

from collections.abc import Sequence
from datetime import date, datetime

from django.db.models import Q

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Room
from throwbench.workshop.panel.models import Asks, Seat
from throwbench.workshop.trials.models import Burn, TestCandle
from throwbench.workshop.trials.selectors.broken import judged, why_not_again
from throwbench.workshop.trials.selectors.made_of import MADE_OF
from throwbench.workshop.trials.times import local_day

ONE_A_ROOM = "For the nose, one candle burns in one room."


def may_be_sniffed_lit(
    seats: Sequence[tuple[TestCandle, Room]], *, day: date, now: datetime
) -> None:
    """What burns now says nothing of a panel of another day: its slips are typed in later.

    Raises
    ------
    UnclearError
        Two lit candles share a room, here or with another panel or a burn of now; or a candle that
        is not lit is not to be lit again.
    """
    _each_a_room([room for _, room in seats])
    if day != local_day(now):
        return
    _may_still_burn([candle.pk for candle, _ in seats], now)
    for candle, room in seats:
        _no_other_burns(candle, room, now)
        _none_is_awaited(candle, room, day)


def _each_a_room(rooms: Sequence[Room]) -> None:
    twice = next((room for room in rooms if rooms.count(room) > 1), None)
    if twice is not None:
        raise UnclearError(
            f"Two lit candles stand in the {twice}.",
            ONE_A_ROOM,
            "Take another room, or open a second panel later.",
        )


def _may_still_burn(candles: Sequence[int], now: datetime) -> None:
    """One that burns was asked about when it was lit."""
    lit = Burn.objects.filter(candle__in=candles, lit_at__lte=now, out_at=None)
    found = TestCandle.objects.filter(pk__in=candles).exclude(pk__in=lit.values("candle"))
    rest = list(found.select_related(*MADE_OF))
    limits = judged(rest, local_day(now), until=now)
    for candle in rest:
        why = why_not_again(limits.get(candle.code))
        if candle.ended_at is not None and candle.ended_at <= now:
            why = f"was ended: {candle.ended_because}"
        if why:
            raise UnclearError(
                f"{candle} {why}.",
                "Such a candle is not lit again, so no nose can sniff it lit.",
                "Take another test candle, or ask unlit.",
            )


def _no_other_burns(candle: TestCandle, room: Room, now: datetime) -> None:
    there = Burn.objects.filter(Q(out_at=None) | Q(out_at__gt=now), room=room, lit_at__lte=now)
    other = there.exclude(candle=candle).select_related("candle").first()
    if other is not None:
        raise UnclearError(
            f"{other.candle} is lit in the {room}.",
            ONE_A_ROOM,
            "Put that one out first, or take another room.",
        )


def _none_is_awaited(candle: TestCandle, room: Room, day: date) -> None:
    """Another candle stands there at an open panel, and a nose is still to come to it."""
    there = Seat.objects.filter(
        room=room, panel__day=day, panel__asks=Asks.LIT, panel__closed_at=None
    )
    for seat in there.exclude(candle=candle).select_related("candle", "panel"):
        awaited = seat.panel.sittings.filter(sits_out=False).exclude(sniffs__seat=seat)
        if awaited.exists():
            raise UnclearError(
                f"{seat.candle} stands in the {room} at a panel that is open.",
                ONE_A_ROOM,
                "Close that panel first, or take another room.",
            )
