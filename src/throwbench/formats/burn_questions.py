"""What is asked about one burn and its checks. The figures are those of the burn log."""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from throwbench.formats.numbers import said
from throwbench.formats.problem import Note
from throwbench.formats.questions import moment, note
from throwbench.records import Burn, Check
from throwbench.rules import newest_figure
from throwbench.science.burn import hours_between
from throwbench.science.words import duration

SHORTEST_H = 1.0
USUAL_RATE_G_H = (2.0, 15.0)
OFF_THE_HOUR_H = 10 / 60
ONE_MINUTE_H = 1 / 60
POOL_SHRINKS_MM = 4.0
FULL_FROM = 0.9
"""A pool narrower than this share of the inside diameter is hardly full."""


def is_colder(vessel_c: float, room_c: float) -> bool:
    """Whether the outside of a lit vessel is said to be colder than its room."""
    return vessel_c < room_c


def is_too_wide(width_mm: float, inside_mm: float | None) -> bool:
    """Whether a melt pool is said to be wider than its vessel."""
    return inside_mm is not None and width_mm > inside_mm


def is_hardly_full(check: Check, inside_mm: float | None) -> bool:
    """Whether a melt pool is said to be full, and too narrow for that."""
    width = check.pool_width_mm
    return bool(check.pool_full and width and inside_mm and width < FULL_FROM * inside_mm)


def has_shrunk(before_mm: float, width_mm: float) -> bool:
    """Whether a melt pool is narrower than it was, by more than a reading may be off."""
    return before_mm - width_mm > POOL_SHRINKS_MM


def unusual_rate(before_g: float, after_g: float, hours: float) -> float | None:
    """The burn rate [g/h] where it is not usual, negative where the candle got heavier."""
    rate = (before_g - after_g) / hours
    low, high = USUAL_RATE_G_H
    return None if low <= rate <= high else rate


def questions_of_burn(
    burn: Burn, *, inside_mm: float | None = None, house: Mapping[str, float] | None = None
) -> list[Note]:
    """All that is asked about a burn; a burn with a refused note is to be left out.

    `inside_mm` is the inside diameter of the vessel, None if not known [mm]; `house` has the
    maker's own limits by rule id.
    """
    hours = hours_between(burn.lit_at, burn.out_at)
    if hours <= 0:
        return [_ends_before(burn)]
    return [
        *_length(burn, hours, newest_figure("burn-length", house or {})),
        *_went_out(burn),
        *_masses(burn, hours),
        *(item for check in burn.checks for item in _hour(check, hours)),
        *(item for check in burn.checks for item in _vessel(check, burn)),
        *(item for check in burn.checks for item in _width(check, inside_mm)),
        *_narrower(burn, inside_mm),
        *_no_longer_full(burn),
    ]


def _ends_before(burn: Burn) -> Note:
    return note(
        burn.line,
        "out_at",
        moment(burn.out_at),
        "refused",
        f"{moment(burn.out_at)} is refused and the burn left out, it was lit at "
        f"{moment(burn.lit_at)}; a burn ends after it began: correct the times, or the day.",
    )


def _length(burn: Burn, hours: float, longest_h: float) -> Iterator[Note]:
    if not SHORTEST_H <= hours <= longest_h:
        yield note(
            burn.line,
            "out_at",
            moment(burn.out_at),
            "asked",
            f"the burn of {duration(hours)} is asked about, usual is "
            f"{duration(SHORTEST_H)} to {duration(longest_h)}; it is used as written: check the "
            "times.",
        )


def _went_out(burn: Burn) -> Iterator[Note]:
    if burn.put_out == "went out":
        yield note(
            burn.line,
            "put_out",
            "went out",
            "asked",
            "went out is asked about, usual is snuffed; it is used as written and breaks a limit "
            "in a judged burn: check it, and how long the candle burned.",
        )


def _masses(burn: Burn, hours: float) -> Iterator[Note]:
    before, after = burn.mass_before_g, burn.mass_after_g
    if before is None or after is None:
        return
    if after > before:
        yield note(
            burn.line,
            "mass_after_g",
            said(after),
            "held back",
            f"{said(after)} g is held back, before the burn it was {said(before)} g; a candle "
            "gets no heavier in a burn: correct one of the two, they may be swapped.",
        )
        return
    rate = unusual_rate(before, after, hours)
    if rate is not None:
        low, high = USUAL_RATE_G_H
        yield note(
            burn.line,
            "mass_after_g",
            said(after),
            "asked",
            f"{said(before)} g to {said(after)} g in {duration(hours)} is "
            f"{said(round(rate, 2))} g/h and is asked about, usual is {said(low)} to "
            f"{said(high)} g/h; it is used as written: check the masses and the times.",
        )


def _hour(check: Check, hours: float) -> Iterator[Note]:
    at = check.check_h
    if at is None:
        return
    if not 0 < at <= hours + ONE_MINUTE_H:
        yield note(
            check.line,
            "check_h",
            said(at),
            "held back",
            f"{said(at)} h is held back, the burn lasted {duration(hours)}; a check lies "
            "within its burn: correct the hour, or the times of the burn.",
        )
    elif abs(at - round(at)) > OFF_THE_HOUR_H + 1e-9:
        yield note(
            check.line,
            "check_h",
            said(at),
            "asked",
            f"{said(at)} h is asked about, usual is within 10 min of a whole hour; it is used as "
            "written: check that it is hours since lit, not the time of day.",
        )


def _vessel(check: Check, burn: Burn) -> Iterator[Note]:
    if check.vessel_c is None or burn.room_c is None or check.sure:
        return
    if is_colder(check.vessel_c, burn.room_c):
        yield note(
            check.line,
            "vessel_c",
            said(check.vessel_c),
            "held back",
            f"{said(check.vessel_c)} °C is held back, the room had {said(burn.room_c)} °C; the "
            "vessel of a lit candle is no colder than the room: check both readings, and the "
            "unit; if it is so, write yes under sure.",
        )


def _width(check: Check, inside_mm: float | None) -> Iterator[Note]:
    width = check.pool_width_mm
    if width is None or inside_mm is None:
        return
    if is_too_wide(width, inside_mm):
        yield note(
            check.line,
            "pool_width_mm",
            said(width),
            "held back",
            f"{said(width)} mm is held back, the vessel is {said(inside_mm)} mm wide inside; a "
            "melt pool is no wider than its vessel: measure again, or check the vessel's width.",
        )
    elif is_hardly_full(check, inside_mm):
        yield note(
            check.line,
            "pool_full",
            "yes",
            "asked",
            f"yes is asked about, the melt pool is {said(width)} mm wide in a vessel of "
            f"{said(inside_mm)} mm; a full melt pool reaches the wall all round: correct one of "
            "the two, they are used as written.",
        )


def _narrower(burn: Burn, inside_mm: float | None) -> Iterator[Note]:
    """A melt pool only grows while the candle is lit. A width held back is not compared."""
    widths = [
        (check.line, check.pool_width_mm)
        for check in burn.checks
        if check.check_h is not None
        and check.pool_width_mm is not None
        and not is_too_wide(check.pool_width_mm, inside_mm)
    ]
    for (_, before), (line, width) in pairwise(widths):
        if has_shrunk(before, width):
            yield note(
                line,
                "pool_width_mm",
                said(width),
                "asked",
                f"{said(width)} mm is asked about, at the check before it was {said(before)} mm; "
                f"a melt pool shrinks by no more than {said(POOL_SHRINKS_MM)} mm: check both, "
                "they are used as written.",
            )


def _no_longer_full(burn: Burn) -> Iterator[Note]:
    seen = [
        (check.line, check.check_h, check.pool_full)
        for check in burn.checks
        if check.check_h is not None and check.pool_full is not None
    ]
    for (_, hour, was_full), (line, _, is_full) in pairwise(seen):
        if was_full and not is_full:
            yield note(
                line,
                "pool_full",
                "no",
                "asked",
                f"no is asked about, at {said(hour)} h the melt pool was full; a full melt pool "
                "stays full while the candle is lit: check both, they are used as written.",
            )
