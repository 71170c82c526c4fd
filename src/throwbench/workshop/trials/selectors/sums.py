"""The sums of a plan: what goes into each pitcher, what to melt, and the two meanings of a load."""

from collections.abc import Sequence
from dataclasses import dataclass

from throwbench.science.batch import batch
from throwbench.science.dose import Dose, dose
from throwbench.science.errors import OutOfRangeError
from throwbench.science.load import (
    Load,
    Mix,
    load_of_wax_percent,
    load_on_both_bases,
    mix_for_wax,
)
from throwbench.science.units import grams_of
from throwbench.science.words import plain, to_the_mg
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.scale import Steps, shown_g, weighable

CLOSE_PERCENT = 0.5
"""A load this near to the wax card's maximum is called close to it [points of % of wax]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sums:
    """Of one trial. None is not known."""

    load: Load
    pitcher: Mix | None
    dose: Dose | None
    wax_to_melt_g: float | None
    pot_g: float
    residue_g: float | None
    caution: str
    because: str


def pitcher_of(
    trial: Trial, *, vessels: int, load_percent: float | None, steps: Steps
) -> Mix | None:
    """Wax and oil for so many test candles and what stays in the pitcher; None: not known.

    Both are what scales with these steps show, the same figures that stand at the bench.
    """
    if trial.fill_mg is None or not load_percent or not vessels:
        return None
    mix = batch(
        vessels=vessels,
        fill_g=grams_of(trial.fill_mg),
        load_percent=load_percent,
        residue_g=grams_of(trial.residue_mg or 0),
    ).pitcher
    return weighable(mix, steps=steps)


def sums_of(trial: Trial, pitchers: Sequence[Mix | None], *, steps: Steps) -> Sums | None:
    """The sums for these pitchers; None before a load is set."""
    if not trial.load_percent:
        return None
    known = [one for one in pitchers if one is not None]
    first = known[0] if known else None
    pot_g = grams_of(trial.pot_residue_mg or 0)
    caution, because = _two_meanings(trial, trial.load_percent, first, steps.oil_mg)
    return Sums(
        load=load_on_both_bases(percent=trial.load_percent, basis="wax"),
        pitcher=first,
        dose=_dose(first, steps.oil_mg),
        wax_to_melt_g=sum(one.wax_g for one in known) + pot_g if known else None,
        pot_g=pot_g,
        residue_g=grams_of(trial.residue_mg),
        caution=caution,
        because=because,
    )


def _dose(pitcher: Mix | None, step_mg: int) -> Dose | None:
    if pitcher is None:
        return None
    try:
        return dose(wax_g=pitcher.wax_g, oil_g=pitcher.oil_g, step_g=grams_of(step_mg))
    except OutOfRangeError:  # the oil is less than half a step: the pitcher's own figure stands
        return None


def _two_meanings(trial: Trial, load: float, pitcher: Mix | None, step_mg: int) -> tuple[str, str]:
    """What "8 %" would be if it were weighed of the total."""
    if load > 100 * 40 / 140:
        return "", ""
    other = load_of_wax_percent(share_percent=load)
    weighs = ""
    if pitcher is not None:
        oil_g = mix_for_wax(wax_g=pitcher.wax_g, load_percent=min(other, 40)).oil_g
        weighs = f"it would be {to_the_mg(shown_g(oil_g, step_mg=step_mg))} g, that is "
    said = f"Weighed as {plain(load)} % of the total {weighs or 'it would be '}"
    return (
        f"{plain(load)} % of the total is not {plain(load)} % of wax.",
        f"{said}{plain(other)} % of wax{_against_card(trial, other)}.",
    )


def _against_card(trial: Trial, other: float) -> str:
    card = None if trial.wax is None else trial.wax.max_load_percent
    if card is None:
        return ""
    if other > card:
        return f": above the {plain(card)} % at which this wax card stops"
    if other > card - CLOSE_PERCENT:
        return f": close to the {plain(card)} % at which this wax card stops"
    return ""
