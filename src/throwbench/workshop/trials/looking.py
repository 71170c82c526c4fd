"""What was seen of a lit candle, and of one that is out: what is refused and what is asked."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from django.db.models import Max

from throwbench import records
from throwbench.formats.burn_questions import (
    USUAL_RATE_G_H,
    has_shrunk,
    is_colder,
    is_hardly_full,
    is_too_wide,
    unusual_rate,
)
from throwbench.formats.slips import likely_meant
from throwbench.rules.limit import Limit, limits_on
from throwbench.rules.look import undecided_words
from throwbench.science.burn import hours_between
from throwbench.science.errors import UnclearError
from throwbench.science.units import grams_of
from throwbench.science.words import plain
from throwbench.workshop.house.selectors import house_limits
from throwbench.workshop.shelf.models import Vessel
from throwbench.workshop.trials.asking import Question, figures_asked
from throwbench.workshop.trials.models import Burn
from throwbench.workshop.trials.selectors.broken import over_limit
from throwbench.workshop.trials.sights import COLUMNS
from throwbench.workshop.trials.times import clock, local_day

CUPS = ("cup", "glass", "bowl", "tin", "mug")


def look_asked(burn: Burn, at: datetime, seen: Mapping[str, Any]) -> Iterator[Question]:
    """What is asked about a check.

    Raises
    ------
    UnclearError
        A figure that is not possible, or a melt pool wider than its vessel.
    """
    asked = figures_asked(records.Check, seen)
    flame = _flame_asked(burn, at, seen)
    yield from [*flame, *(one for one in asked if not flame or one.field != "flame_mm")]
    yield from _flare_up_asked(burn, at, seen)
    yield from _pool_asked(burn, at, seen)
    yield from _colder(seen.get("vessel_c"), burn.room_c, field="vessel_c")


def _colder(vessel_c: float | None, room_c: float | None, *, field: str) -> Iterator[Question]:
    if vessel_c is not None and room_c is not None and is_colder(vessel_c, room_c):
        yield Question(
            field,
            f"Outside of the vessel is {plain(vessel_c)} °C; the room had {plain(room_c)} °C. "
            "A lit candle is no colder than its room: check both readings, or note it as it is.",
        )


def room_asked(burn: Burn, room_c: float | None) -> Iterator[Question]:
    """What is asked about a room's temperature beside what was read in it [°C]."""
    read = burn.checks.exclude(vessel_c=None)
    coldest = read.order_by("vessel_c").values_list("vessel_c", flat=True).first()
    yield from _colder(coldest, room_c, field="room_c")


def _flame_asked(burn: Burn, at: datetime, seen: Mapping[str, Any]) -> list[Question]:
    """A flame over its limit on a lit candle: it is put out, or the figure is a slip."""
    flame_mm = seen.get("flame_mm")
    limit = _limit("flame-height", at)
    if flame_mm is None or burn.out_at is not None or limit.allows(flame_mm):
        return []
    said = (
        f"{over_limit(flame_mm, limit)}. If that is what you see: put {burn.candle} out now, "
        "lid on, and do not light it again."
    )
    guess = likely_meant(flame_mm, COLUMNS["flame_mm"])
    return [Question("flame_mm", said, guess, COLUMNS["flame_mm"].unit, puts_out=True)]


def _flare_up_asked(burn: Burn, at: datetime, seen: Mapping[str, Any]) -> Iterator[Question]:
    """A grade whose words do not tell whether the maker's own limit holds: the seconds do."""
    grade, limit = seen.get("flare_up"), _limit("secondary-ignition", at)
    said = undecided_words(grade, limit) if grade else ""
    if said and seen.get("flare_up_s") is None:
        yield Question(
            "flare_up_s",
            f"{burn.candle} has a flare-up of {said}; the limit is {limit.sentence()}. How long "
            "was it? Write the seconds, or note it as it is: that limit is then not yet known.",
        )


def _limit(rule: str, at: datetime) -> Limit:
    limits = limits_on(local_day(at), house=house_limits())
    return next(one for one in limits if one.rule.id == rule)


def _pool_asked(burn: Burn, at: datetime, seen: Mapping[str, Any]) -> Iterator[Question]:
    width = seen.get("pool_width_mm")
    if width is None:
        return
    inside = burn.candle.combination.vessel.inside_mm
    if inside is not None:
        _fits(width, burn.candle.combination.vessel)
        if is_hardly_full(records.Check(**seen), inside):
            yield Question(
                "pool_width_mm",
                f"Melt pool is {plain(width)} mm and full; the vessel is {plain(inside)} mm inside."
                " A full melt pool reaches the wall: measure again, or note it as it is.",
            )
    earlier = burn.checks.filter(at__lt=at).exclude(pool_width_mm=None).order_by("-at")
    before = earlier.values_list("pool_width_mm", flat=True).first()
    if before is not None and has_shrunk(before, width):
        yield Question(
            "pool_width_mm",
            f"Melt pool is {plain(width)} mm; at the check before it was "
            f"{plain(before)} mm. A pool grows while it burns: "
            "measure again, or note it as it is.",
        )


def _fits(width: float, vessel: Vessel) -> None:
    assert vessel.inside_mm is not None
    if is_too_wide(width, vessel.inside_mm):
        last = vessel.name.lower().split()[-1]
        what = last if last in CUPS else "vessel"
        raise UnclearError(
            f"Melt pool is {plain(width)} mm;",
            f"this {what} is {plain(vessel.inside_mm)} mm inside.",
            f"Measure again, or check the code on the {what}.",
        )


def end_asked(burn: Burn, at: datetime | None, told: Mapping[str, Any]) -> Iterator[Question]:
    """What is asked about how a burn ended; `at` is when it was out.

    Raises
    ------
    UnclearError
        A figure that is not possible, or a candle that gained wax by burning.
    """
    yield from figures_asked(records.Burn, {name: told[name] for name in _FIGURES if name in told})
    noted = burn.mass_after_mg if "mass_before_mg" in told else None
    before = grams_of(told.get("mass_before_mg", burn.mass_before_mg))
    after = grams_of(told.get("mass_after_mg", noted))
    if before is None or after is None or at is None:
        return
    if after > before:
        raise UnclearError(
            f"Mass after is {plain(after)} g; before the burn it was {plain(before)} g.",
            "A candle gets no heavier by burning.",
            "Weigh again, or check the code on the vessel.",
        )
    rate = unusual_rate(before, after, hours_between(burn.lit_at, at))
    if rate is not None:
        low, high = USUAL_RATE_G_H
        yield Question(
            "mass_after_mg",
            f"Mass after is {plain(after)} g; that is {plain(rate)} g/h, and usual is "
            f"{plain(low)} to {plain(high)} g/h. Weigh again, or note it as it is.",
        )


_FIGURES = ("wax_left_mm", "afterglow_s")


def within(burn: Burn, at: datetime) -> None:
    """Raises UnclearError for a check at a time at which the candle was not lit."""
    if at <= burn.lit_at:
        raise UnclearError(
            f"{burn.candle} was lit at {clock(burn.lit_at)}.",
            "A check is at least a minute later.",
            "Look again in an hour, or check the time.",
        )
    if burn.out_at is not None and at > burn.out_at:
        raise UnclearError(
            f"{burn.candle} was out at {clock(burn.out_at)}.",
            "A check lies within its burn.",
            "Check the time and the code.",
        )


def can_be_out(burn: Burn, at: datetime) -> None:
    """Raises UnclearError for a burn that ended already, or not at that time."""
    if burn.out_at is not None:
        raise UnclearError(
            f"{burn.candle} was put out at {clock(burn.out_at)} already.",
            "A burn ends once.",
            "Note what you see now on the page of its burn.",
        )
    last = burn.checks.aggregate(last=Max("at"))["last"] or burn.lit_at
    if at < last or at <= burn.lit_at:
        raise UnclearError(
            f"{burn.candle} was still lit at {clock(last)}; {clock(at)} is not after that.",
            "A candle is put out after it was lit and seen.",
            "Check the time.",
        )


def nothing_twice(burn: Burn, seen: Mapping[str, Any]) -> None:
    """Raises UnclearError where a burn is not over, or says something else already."""
    if burn.out_at is None:
        raise UnclearError(
            f"{burn.candle} is still lit.", "This is noted once it is out.", "Put it out first."
        )
    for name, value in seen.items():
        there = getattr(burn, name)
        if name != "note" and there not in (None, "", value):
            raise UnclearError(
                f"{name.replace('_', ' ').capitalize()} of {burn} was noted already.",
                "What was noted stays.",
                "A slip is put right on the page of the burn, with its reason.",
            )
