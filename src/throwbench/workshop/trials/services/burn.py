"""A burn: lit, looked at, handed over, put out, and noted to its end."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime, timedelta
from typing import Any, TypeVar
from uuid import UUID

from django.db import transaction
from django.db.models import Max

from throwbench import records
from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.trials.asking import ask, figures_asked
from throwbench.workshop.trials.lighting import (
    can_be_lit,
    lighting_asked,
    limit_of,
    room_is_free,
    time_asked,
)
from throwbench.workshop.trials.looking import (
    can_be_out,
    end_asked,
    look_asked,
    nothing_twice,
    within,
)
from throwbench.workshop.trials.models import Burn, Check, TestCandle
from throwbench.workshop.trials.services.burn_slips import put_burn_right, put_check_right
from throwbench.workshop.trials.services.ending import follow_up
from throwbench.workshop.trials.sights import ENDS, LOOKS
from throwbench.workshop.trials.times import local_day

__all__ = [
    "all_out",
    "check",
    "hand_over",
    "light",
    "note_after",
    "put_burn_right",
    "put_check_right",
    "put_out",
]

Row = TypeVar("Row", Burn, Check)


@transaction.atomic
def light(
    candle: TestCandle,
    *,
    kind: str,
    room: Room | None = None,
    lit_at: datetime,
    room_c: float | None = None,
    trim_mm: float | None = None,
    mass_before_mg: int | None = None,
    scale_step_mg: int | None = None,
    limit_h: float | None = None,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Burn:
    """A candle is lit. It has to be out `limit_h` later [h], or after the house's burn limit.

    Raises
    ------
    UnclearError
        The candle is not lit (flaw, ended, lit already, not poured), or the room is not free.
    QuestionsError
        Something is unlikely (still curing, not cooled, a time far off) and `sure` is not said.
    """
    at = to_the_minute(lit_at)
    content = {
        "candle": candle.pk, "kind": kind, "room": room and room.pk, "lit_at": at,
        "room_c": room_c, "trim_mm": trim_mm, "mass_before_mg": mass_before_mg,
        "scale_step_mg": scale_step_mg, "limit_h": limit_h,
    }  # fmt: skip
    if seen_before(entry, what="light", content=content, who=who, now=now):
        return candle.burns.order_by("-number")[0]
    candle = TestCandle.objects.select_related("combination", "piece").get(pk=candle.pk)
    can_be_lit(candle, at)
    room_is_free(room, kind=kind, at=at)
    limit_h = limit_of(kind, limit_h, day=local_day(at))
    asked = [
        *time_asked(at, now=now, what="Lit at"),
        *lighting_asked(candle, kind=kind, room=room, at=at, mass_before_mg=mass_before_mg),
        *figures_asked(records.Burn, {"room_c": room_c, "trim_mm": trim_mm}),
    ]
    ask(asked, sure=sure)
    last = candle.burns.aggregate(last=Max("number"))["last"] or 0
    return _kept(
        Burn(
            candle=candle,
            number=last + 1,
            kind=kind,
            room=room,
            lit_at=at,
            lit_by=who,
            out_by_at=at + timedelta(hours=limit_h),
            room_c=room_c,
            trim_mm=trim_mm,
            mass_before_mg=mass_before_mg,
            scale_step_mg=scale_step_mg,
        )
    )


@transaction.atomic
def check(
    burn: Burn,
    *,
    at: datetime,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
    **seen: Any,
) -> Check:
    """One look at a candle. Only what was looked at is given; nothing is copied.

    Parameters
    ----------
    seen : some of `LOOKS`

    Raises
    ------
    UnclearError
        Nothing was seen, a time outside the burn, or a figure that is not possible.
    QuestionsError
        A figure is unusual and `sure` is not said.
    """
    seen = given(seen, allowed=LOOKS)
    at = to_the_minute(at)
    if seen_before(entry, what="check", content={"burn": burn.pk, **seen}, who=who, now=now):
        return burn.checks.order_by("-pk")[0]
    burn = fresh(burn)
    within(burn, at)
    if not seen:
        raise UnclearError(
            f"Nothing is noted of {burn.candle}.",
            "A check says at least that nothing changed.",
            "Tick what you see, or leave this candle on “Not seen”.",
        )
    ask([*time_asked(at, now=now, what="Seen at"), *look_asked(burn, at, seen)], sure=sure)
    return _kept(Check(burn=burn, at=at, noted_at=now, who=who, **seen))


@transaction.atomic
def put_out(
    burn: Burn,
    *,
    at: datetime,
    put_out: str = "snuffed",
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
    **seen: Any,
) -> Burn:
    """A candle is out. Over its limit it is kept as it was; the limits mark it.

    A moved wick ends the candle; damage ends it too, and its vessel is never lit again.

    Parameters
    ----------
    seen : some of `ENDS`

    Raises
    ------
    UnclearError
        It is out already, the time is not after the last look, or a figure is not possible.
    QuestionsError
        A figure is unusual and `sure` is not said.
    """
    seen = given(seen, allowed=ENDS)
    at = to_the_minute(at)
    content = {"burn": burn.pk, "put_out": put_out, **seen}
    if seen_before(entry, what="put out", content=content, who=who, now=now):
        return fresh(burn)
    burn = fresh(burn)
    can_be_out(burn, at)
    ask([*time_asked(at, now=now, what="Out at"), *end_asked(burn, at, seen)], sure=sure)
    burn.out_at, burn.put_out = at, put_out
    for name, value in seen.items():
        setattr(burn, name, value)
    _kept(burn)
    follow_up(burn, who=who, now=now)
    return burn


@transaction.atomic
def note_after(
    burn: Burn,
    *,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
    **seen: Any,
) -> Burn:
    """What is seen or weighed once a candle is out or cold. What is noted already stays.

    Raises
    ------
    UnclearError
        Nothing is told, the candle is still lit, or one of these was noted already otherwise.
    QuestionsError
        A figure is unusual and `sure` is not said.
    """
    seen = given(seen, allowed=ENDS)
    content = {"burn": burn.pk, **seen}
    if seen_before(entry, what="note after a burn", content=content, who=who, now=now):
        return fresh(burn)
    burn = fresh(burn)
    if not seen:
        raise UnclearError(
            f"Nothing is noted of {burn}.",
            "At least one thing was seen or weighed.",
            "Fill one box, or leave it as it is.",
        )
    nothing_twice(burn, seen)
    ask(end_asked(burn, burn.out_at, seen), sure=sure)
    for name, value in seen.items():
        setattr(burn, name, value)
    _kept(burn)
    follow_up(burn, who=who, now=now)
    return burn


@transaction.atomic
def hand_over(
    burns: Iterable[Burn],
    *,
    adult: Person,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> None:
    """From now on an adult who is in the room watches these candles."""
    found = list(burns)
    content = {"burns": [burn.pk for burn in found], "adult": adult.pk}
    if seen_before(entry, what="hand over", content=content, who=who, now=now):
        return
    for burn in map(fresh, found):
        burn.handed_to = adult
        _kept(burn)


@transaction.atomic
def all_out(
    burns: Sequence[Burn],
    *,
    at: datetime,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> None:
    """These candles are out; one noted as out stays. What nobody looked at stays unknown."""
    content = {"burns": [burn.pk for burn in burns]}
    if seen_before(entry, what="all out", content=content, who=who, now=now):
        return
    still_lit = [burn for burn in burns if fresh(burn).out_at is None]
    for burn in still_lit or burns:
        put_out(burn, at=at, who=who, now=now)


def to_the_minute(moment: datetime) -> datetime:
    """Burns are noted by the minute; in UTC, where an hour is an hour on any day."""
    return moment.astimezone(UTC).replace(second=0, microsecond=0)


def fresh(burn: Burn) -> Burn:
    """The burn as it is now, whatever a page showed."""
    return Burn.objects.select_related("candle__combination__vessel", "candle__piece").get(
        pk=burn.pk
    )


def given(seen: Mapping[str, Any], *, allowed: tuple[str, ...]) -> dict[str, Any]:
    """What was really told: neither empty nor unknown.

    Raises
    ------
    TypeError
        A name that is not one of `allowed`.
    """
    unknown = set(seen) - set(allowed)
    if unknown:
        raise TypeError(f"no such fields: {', '.join(sorted(unknown))}")
    return {name: value for name, value in seen.items() if value is not None and value != ""}


def _kept(row: Row) -> Row:
    row.full_clean()
    row.save()
    return row
