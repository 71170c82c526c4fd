"""One pitcher at the bench: the verb, the figure, the window, and how far it may be trusted."""

from dataclasses import dataclass, field
from typing import Any

from throwbench.science.units import grams_of
from throwbench.science.words import FIRE_LINE, plain, to_the_mg
from throwbench.workshop.trials.models import Pour, Temperature
from throwbench.workshop.trials.models.pour import Step
from throwbench.workshop.trials.pitcher import is_too_much, too_much_advice, too_much_said
from throwbench.workshop.trials.selectors.pour_page import (
    POUR,
    POURED,
    WEIGH_OIL,
    WEIGH_WAX,
    Pitcher,
    pitchers,
)
from throwbench.workshop.trials.selectors.readings import (
    ReadingRow,
    readings_of,
    standing,
    too_hot,
)
from throwbench.workshop.trials.selectors.silent_cards import CARD
from throwbench.workshop.trials.times import clock
from throwbench.workshop.trials.windows import window_of

READ_AT = {WEIGH_WAX: Step.MELTED, WEIGH_OIL: Step.ADDED, POUR: Step.POURED, POURED: Step.POURED}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What stands on the page of one pitcher."""

    pitcher: Pitcher
    lanes: tuple[Pitcher, ...]
    """This pitcher and the others at work; empty where it is the only one."""
    verb: str
    figure: str
    basis: str
    window: str
    shows: tuple[str, ...]
    """Readings at hand for one press [°C]: where the window of this step opens and closes."""
    card_is_full: bool
    care: tuple[str, ...]
    readings: tuple[ReadingRow, ...]
    too_hot: str
    last: str
    weigh: str
    too_much: tuple[str, str] | None
    """What is said of a pitcher that holds more oil than its wax takes, and what to do."""
    weigh_initial: dict[str, Any] = field(default_factory=dict)
    temperature_initial: dict[str, Any] = field(default_factory=dict)


def bench_of(pour: Pour) -> Bench:
    """The bench of one pitcher, with the others beside it."""
    trial = pour.candidate.trial
    every = pitchers(trial)
    mine = next(one for one in every if one.pour.pk == pour.pk)
    rows = readings_of(mine.pour)
    readings = standing(rows)
    target = mine.target_g
    return Bench(
        pitcher=mine,
        lanes=_lanes(mine, every),
        verb=_verb(mine),
        figure="" if target is None or mine.step in (POUR, POURED) else to_the_mg(target),
        basis=_basis(mine),
        window=_whole(_window(mine)),
        shows=_shows(mine),
        card_is_full=all(getattr(mine.pour.wax, name) is not None for name in CARD),
        care=tuple(_whole(said) for said in _care(mine)),
        readings=rows,
        too_hot="" if mine.is_hidden else too_hot(readings, mine.pour),
        last=_last(readings),
        weigh={WEIGH_WAX: "wax", WEIGH_OIL: "oil"}.get(mine.step, ""),
        too_much=_too_much(mine),
        weigh_initial={"grams": target, "step_g": grams_of(mine.steps.of(mine.step))},
        temperature_initial={
            "step": READ_AT[mine.step].value,
            "instrument": _last_instrument(readings),
        },
    )


def _lanes(mine: Pitcher, every: tuple[Pitcher, ...]) -> tuple[Pitcher, ...]:
    others = tuple(one for one in every if one is not mine and one.step != POURED)
    return (mine, *others) if others else ()


def _shows(one: Pitcher) -> tuple[str, ...]:
    """Wax cools: the window opens at its high end and closes at its low one."""
    if one.step not in (WEIGH_OIL, POUR):
        return ()
    window = window_of(one.pour.wax, READ_AT[one.step])
    ends = dict.fromkeys(end for end in (window.high, window.low) if end is not None)
    return tuple(plain(end) for end in ends)


def _whole(said: str) -> str:
    """No figure is parted from its unit at the end of a line."""
    return said.replace(" °C", "\N{NO-BREAK SPACE}°C").replace(" min", "\N{NO-BREAK SPACE}min")


def _too_much(one: Pitcher) -> tuple[str, str] | None:
    if one.step != POUR or one.really is None or not is_too_much(one.really):
        return None
    return too_much_said(one.really), too_much_advice(one.really)


def _verb(one: Pitcher) -> str:
    if _too_much(one):
        return f"Do not pour pitcher {one.letter}"
    return {
        WEIGH_WAX: f"Weigh the wax into pitcher {one.letter}",
        WEIGH_OIL: f"Weigh the oil into pitcher {one.letter}",
        POUR: f"Stir, let it cool, pour pitcher {one.letter}",
        POURED: f"Pitcher {one.letter} is poured",
    }[one.step]


def _basis(one: Pitcher) -> str:
    of_wax, of_total = one.load.of_wax_percent, one.load.of_total_percent
    both = f"{plain(of_wax)} % of wax, which is {plain(of_total)} % of the total"
    if one.step == WEIGH_WAX:
        return f"to be mixed at {both}"
    if one.step == WEIGH_OIL and one.wax is not None:
        really = to_the_mg(one.wax.weighings_g[-1])
        return f"for the {really} g of wax really in it: {both}"
    return "" if one.really is None else one.really.sentence()


def _window(one: Pitcher) -> str:
    """What the wax card says of this step; where it is silent, that is said."""
    wax = one.pour.wax
    if one.step == WEIGH_WAX:
        return f"Melt it: {_c('melts at', wax.melts_at_c)}, {_c('never above', wax.never_above_c)}"
    if one.step == WEIGH_OIL:
        return f"Add at: {window_of(wax, Step.ADDED).words() or 'not known'}"
    stir = "not known" if wax.stir_min is None else f"{plain(wax.stir_min)} min"
    return f"Stir: {stir}. Pour at: {window_of(wax, Step.POURED).words() or 'not known'}"


def _c(what: str, value: float | None) -> str:
    return f"{what}: not known" if value is None else f"{what} {plain(value)} °C"


def _care(one: Pitcher) -> tuple[str, ...]:
    limit = one.pour.wax.never_above_c
    hot = (
        "How hot this wax may be is not known: ask its supplier. Never leave it alone."
        if limit is None
        else f"Never above {plain(limit)} °C, never alone."
    )
    flash = (
        "Flash point of this oil: not known; its safety data sheet names it. Keep flames away."
        if one.flash_c is None
        else f"Flash point of this oil {plain(one.flash_c)} °C: keep flames away."
    )
    return (hot, flash, FIRE_LINE)


def _last(readings: tuple[Temperature, ...]) -> str:
    """'Last 66.5 °C at 10:50'; empty before the first reading."""
    if not readings:
        return ""
    return f"Last {plain(round(readings[-1].celsius, 1))} °C at {clock(readings[-1].at)}"


def _last_instrument(readings: tuple[Temperature, ...]) -> str:
    """What was read with last, at this pitcher or at any."""
    if readings:
        return readings[-1].instrument
    last = Temperature.objects.order_by("-pk").values_list("instrument", flat=True).first()
    return last or ""
