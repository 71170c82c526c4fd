"""Whether a candle may be lit: what is refused, and what is asked about."""

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta

from django.db.models import Q

from throwbench.rules.rule import rules
from throwbench.science.burn import hours_between
from throwbench.science.errors import UnclearError
from throwbench.science.words import duration, plain
from throwbench.verdict.words import listed
from throwbench.workshop.house.models import Room
from throwbench.workshop.house.selectors import house_figure
from throwbench.workshop.trials.asking import Question
from throwbench.workshop.trials.models import Burn, BurnKind, TestCandle
from throwbench.workshop.trials.selectors.broken import judged
from throwbench.workshop.trials.services.candles import may_be_lit
from throwbench.workshop.trials.times import clock, local_day

AHEAD = timedelta(minutes=2)
"""Two clocks may differ by this much."""
LONG_AGO = timedelta(hours=48)
BETWEEN_BURNS_MG = 2000
"""A candle that weighs this much more or less than after its last burn is asked about."""


AT_ONCE = frozenset(rule.id for rule in rules() if rule.decides == "any burn")
"""Limits that one burn breaks for good."""


def can_be_lit(candle: TestCandle, at: datetime) -> None:
    """Raises UnclearError for a candle that is not lit, or not at that time."""
    if candle.poured_on is None:
        raise UnclearError(
            f"{candle} is not poured yet.", "A candle is lit once it has cured.", "Check its code."
        )
    if local_day(at) < candle.poured_on:
        raise UnclearError(
            f"{candle} was poured on {_day(candle.poured_on)}.",
            "A candle is lit after that.",
            "Check the day.",
        )
    if candle.ended_at is not None:
        raise UnclearError(
            f"{candle} was ended: {candle.ended_because}.",
            "A candle that was ended is not lit again.",
            "Take another test candle, or check the code.",
        )
    if candle.piece is not None:
        may_be_lit(candle.piece, candle.combination)
    _not_lit_already(candle, at)
    _no_limit_broken(candle, at)


def _not_lit_already(candle: TestCandle, at: datetime) -> None:
    last = candle.burns.order_by("-number").first()
    if last is None:
        return
    if last.out_at is None:
        raise UnclearError(
            f"{candle} is lit, since {clock(last.lit_at)}.",
            "A candle is put out before it is lit again.",
            "Put it out on the burn round, or check the code.",
        )
    if last.out_at > at:
        raise UnclearError(
            f"{candle} was out at {clock(last.out_at)} after burn {last.number}; "
            f"{clock(at)} is before that.",
            "A candle is lit after its last burn was out.",
            "Check the time and the code.",
        )


def _no_limit_broken(candle: TestCandle, at: datetime) -> None:
    """One burn is enough for most limits; one that several decide is final once all are burned."""
    found = judged([candle], local_day(at)).get(candle.code)
    if found is None or not found.broken:
        return
    decided = [one for one in found.broken if found.to_the_end or one.rule in AT_ONCE]
    for one in decided[:1]:
        raise UnclearError(
            f"{candle} broke a limit: {one.words}, {one.value} ({one.where}).",
            "A candle that did is not lit again.",
            "Take another test candle; a slip of the pen is put right on the page of its burn.",
        )


def one_for_the_nose(codes: Sequence[str], room: Room | None) -> None:
    """Raises UnclearError where several candles are to be one nose burn."""
    if len(codes) > 1:
        where = f"the {room}" if room else "one room"
        raise UnclearError(
            f"{listed(codes)} are chosen for {where}. Nothing is noted.",
            "A nose burn is one candle in one room.",
            "Light one of them alone and each other in a room of its own, or make it a wick burn.",
        )


def room_is_free(room: Room | None, *, kind: str, at: datetime) -> None:
    """Raises UnclearError where a nose burn would not be one candle in one room."""
    if room is None:
        if kind == BurnKind.NOSE:
            raise UnclearError(
                "No room is named.", "A nose burn is one candle in one room.", "Name the room."
            )
        return
    there = Burn.objects.filter(room=room, lit_at__lte=at).filter(Q(out_at=None) | Q(out_at__gt=at))
    for other in there.select_related("candle"):
        if BurnKind.NOSE in (kind, other.kind):
            raise UnclearError(
                f"{other.candle} is lit in the {room}, as a {other.get_kind_display()}.",
                "A nose burn is one candle in one room.",
                "Put that one out first, or take another room.",
            )


def limit_of(kind: str, limit_h: float | None, *, day: date) -> float:
    """How long this burn may last [h]: the house's limit, or less; a long burn may be longer."""
    house_h = house_figure("burn-length", day)
    if limit_h is None:
        return house_h
    if kind != BurnKind.LONG and limit_h > house_h:
        raise UnclearError(
            f"A burn of {duration(limit_h)} is longer than the house allows.",
            f"A {BurnKind(kind).label} ends after {duration(house_h)} (house limit).",
            "Make it shorter, or a watched long burn.",
        )
    return limit_h


def time_asked(at: datetime, *, now: datetime, what: str) -> Iterator[Question]:
    """A time that has not come yet, or that is long past."""
    if at > now + AHEAD:
        yield Question("at", f"{what} {clock(at)} has not come yet; it is {clock(now)}. "
                             "Check the day and the time, or note it as it is.")  # fmt: skip
    elif at < now - LONG_AGO:
        yield Question("at", f"{what} {clock(at)} on {_day(local_day(at))} is long past. "
                             "Check the day and the time, or note it as it is.")  # fmt: skip


def lighting_asked(
    candle: TestCandle,
    *,
    kind: str,
    room: Room | None,
    at: datetime,
    mass_before_mg: int | None,
) -> Iterator[Question]:
    """What is asked before this candle is lit at that time."""
    yield from _cure_asked(candle, at)
    yield from _room_asked(room, kind=kind, at=at)
    last = candle.burns.exclude(out_at=None).order_by("-number").first()
    if last is not None:
        yield from _last_burn_asked(candle, last, at, mass_before_mg)
        yield from _limits_asked(candle, at)


def _cure_asked(candle: TestCandle, at: datetime) -> Iterator[Question]:
    cure_days = candle.combination.wax.cure_days
    if cure_days is None or candle.poured_on is None:
        return
    day = (local_day(at) - candle.poured_on).days
    if day < cure_days:
        ends = candle.poured_on + timedelta(days=cure_days)
        yield Question(
            "candle",
            f"{candle} is on day {day} of its cure; the wax card says {cure_days}. Scores from "
            f"such a burn are shown and not counted. Wait until {_day(ends)}, or light it all the "
            "same.",
        )


def _room_asked(room: Room | None, *, kind: str, at: datetime) -> Iterator[Question]:
    if room is None or kind != BurnKind.NOSE or not room.airing_h:
        return
    before = Burn.objects.filter(room=room, out_at__lte=at).order_by("-out_at").first()
    if before is None or before.out_at is None:
        return
    free_at = before.out_at + timedelta(hours=room.airing_h)
    if free_at > at:
        yield Question(
            "room",
            f"{before.candle} burned in the {room} until {clock(before.out_at)}; this room airs "
            f"for {duration(room.airing_h)}. Wait until {clock(free_at)}, or light it all the "
            "same.",
        )


def _last_burn_asked(
    candle: TestCandle, last: Burn, at: datetime, mass_before_mg: int | None
) -> Iterator[Question]:
    assert last.out_at is not None
    rest_h = hours_between(last.out_at, at)
    usual_h = house_figure("cooling", local_day(at))
    if rest_h < usual_h:
        yield Question(
            "candle",
            f"{candle} was put out {duration(rest_h)} before; usual is {duration(usual_h)} "
            "to cool (house limit). Wait, or light it all the same.",
        )
    if last.put_out == "went out":
        yield Question(
            "candle",
            f"{candle} went out by itself in burn {last.number}; such a candle is not lit again. "
            "See whether its wick still stands, and take another one, or light it all the same.",
        )
    was_mg = last.mass_after_mg
    if None not in (was_mg, mass_before_mg) and abs(was_mg - mass_before_mg) > BETWEEN_BURNS_MG:  # type: ignore[operator]
        yield Question(
            "mass_before_mg",
            f"Mass before is {plain(mass_before_mg / 1000)} g; "  # type: ignore[operator]
            f"after burn {last.number} it was {plain(was_mg / 1000)} g. "  # type: ignore[operator]
            "Check the code and the scale, or note it as it is.",
        )


def _limits_asked(candle: TestCandle, at: datetime) -> Iterator[Question]:
    """A candle that is down to the end line, or that breaks a limit if its burns go on so."""
    found = judged([candle], local_day(at))[candle.code]
    end_mm = house_figure("end-line", local_day(at))
    if found.to_the_end:
        yield Question(
            "candle",
            f"{candle} has {found.wax_left}; the end line is {plain(end_mm)} mm (house limit). "
            "It is burned to the end: take another one, or light it all the same.",
        )
    for one in found.broken[:1]:
        yield Question(
            "candle",
            f"{candle} broke a limit so far: {one.words}, {one.value}. Several burns decide that: "
            "take another one, or light it all the same.",
        )


def _day(day: object) -> str:
    return f"{day.day} {day:%B}"  # type: ignore[attr-defined]
