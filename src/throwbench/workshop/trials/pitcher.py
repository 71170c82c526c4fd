"""The sums of one pitcher: the oil for the wax that is really in it, and the load that it makes."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from throwbench.records import Combination, columns
from throwbench.science.batch import Recorded, Weighed, recorded, weighed
from throwbench.science.load import Load, load_on_both_bases
from throwbench.science.units import grams_of
from throwbench.science.words import plain, to_the_mg
from throwbench.workshop.house.corrections import corrections_of
from throwbench.workshop.trials.models import Pour, Weighing
from throwbench.workshop.trials.scale import Steps, last_steps, shown_g
from throwbench.workshop.trials.windows import AskedError

DEPARTS_PERCENT = 0.25
"""A weighed load further than this from the planned one [points of % of wax] is another load."""
UNLIKELY_TIMES = 2
"""Wax that is this many times the plan, or that part of it, is asked about."""

UNLIKELY_DOSE_TIMES = 1.5
"""Oil that is this many times what was worked out, or that part of it, is asked about (common
practice: a dose is weighed to a few tenths of a gram)."""
USUAL_LOAD_PERCENT = next(
    column.usual for column in columns(Combination) if column.name == "load_percent"
) or (2, 15)
"""Loads that are usual [% of wax], as the records have them; used where no wax card is known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AtBench:
    """What all pitchers share: the steps of the scales, and the weighings that were put right."""

    steps: Steps
    slips: frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """What the scale showed of one pitcher, in the order of time [g]."""

    wax_g: tuple[float, ...]
    oil_g: tuple[float, ...]

    @classmethod
    def of(cls, weighings: Iterable[Weighing], *, slips: Collection[int] = ()) -> "Scale":
        """slips : ids of those that were put right since; they are no weighings"""
        stand = [each for each in weighings if each.pk not in slips]
        return cls(
            wax_g=tuple(grams_of(each.mg) for each in stand if each.what == "wax"),
            oil_g=tuple(grams_of(each.mg) for each in stand if each.what == "oil"),
        )

    @classmethod
    def at(cls, pour: Pour) -> "Scale":
        """Of one pitcher."""
        weighings = list(pour.weighings.all())
        return cls.of(weighings, slips=slips_in(weighings))


def slips_in(weighings: Iterable[Weighing]) -> frozenset[int]:
    """Ids of those that were typed wrongly and put right."""
    return frozenset(slip.row for slip in corrections_of(weighings))


def load_of(pour: Pour) -> Load:
    """The planned load on both bases."""
    return load_on_both_bases(percent=pour.load_percent, basis=pour.basis)  # type: ignore[arg-type]


def oil_for(pour: Pour, scale: Scale) -> Weighed | None:
    """The oil for the last weighing of the wax; None before the wax is weighed."""
    if not scale.wax_g:
        return None
    load = load_of(pour).of_wax_percent
    target_g = grams_of(pour.wax_mg)
    return weighed(weighings_g=scale.wax_g, load_percent=load, target_g=target_g)


def in_it(pour: Pour, scale: Scale) -> Recorded | None:
    """What was poured together, told against the wax card; None before both are weighed."""
    if not scale.wax_g or not scale.oil_g:
        return None
    return recorded(
        wax_g=scale.wax_g[-1],
        oil_g=scale.oil_g[-1],
        card_maximum_percent=pour.wax.max_load_percent,
    )


def weighed_load(pour: Pour) -> float | None:
    """Load as weighed [% of wax]; None where wax or oil was not weighed."""
    really = in_it(pour, Scale.at(pour))
    return None if really is None else really.mix.load_percent


def departed_load(weighed_percent: float | None, planned_percent: float) -> float | None:
    """The weighed load to one decimal, where it is another one than planned [% of wax]."""
    if weighed_percent is None or abs(weighed_percent - planned_percent) <= DEPARTS_PERCENT:
        return None
    return round(weighed_percent, 1)


def ask_about_wax(pour: Pour, mg: int) -> None:
    """Raises AskedError where the wax is far from what was planned."""
    if pour.wax_mg is None:
        return
    if pour.wax_mg / UNLIKELY_TIMES < mg < pour.wax_mg * UNLIKELY_TIMES:
        return
    raise AskedError(
        f"Wax in the pitcher is {to_the_mg(grams_of(mg))} g; "
        f"{to_the_mg(grams_of(pour.wax_mg))} g was planned. "
        "Check the point and the unit, or note it as it is."
    )


def ask_about_dose(pour: Pour, mg: int) -> None:
    """Raises AskedError where this oil is far from the dose, or more than the wax takes."""
    wax = Scale.at(pour).wax_g
    really = in_it(pour, Scale(wax_g=wax, oil_g=(grams_of(mg),)))
    dose = oil_for(pour, Scale(wax_g=wax, oil_g=()))
    if really is None or dose is None:
        return
    oil_g, dose_g = grams_of(mg), dose.mix.oil_g
    if not is_too_much(really) and _is_near(oil_g, dose_g):
        return
    moved = (oil_g / 10, oil_g * 10)  # a decimal point that was lost, or set too early
    guess = next((round(likely, 3) for likely in moved if _is_near(likely, dose_g)), None)
    if guess is None and really.above_card:
        raise AskedError(really.sentence())
    raise AskedError(f"{_dose_said(really, dose_g)} {_dose_advice(really, guess)}", guess=guess)


def is_too_much(really: Recorded | None) -> bool:
    """Whether there is more oil than the wax card allows, or without a card than is usual."""
    if really is None:
        return False
    if really.card_maximum_percent is not None:
        return really.above_card
    return really.mix.load_percent > USUAL_LOAD_PERCENT[1]


def too_much_said(really: Recorded) -> str:
    """'It holds 80.02 % of wax; the wax card allows 9 % of wax at most.'"""
    return f"It holds {plain(really.mix.load_percent)} % of wax; {_most(really)}."


def too_much_advice(really: Recorded) -> str:
    """What to do with a pitcher that holds too much oil."""
    misread = "If the scale was misread, weigh the oil again."
    if really.card_maximum_percent is None:
        return f"Ask the supplier of the wax how much it takes. {misread}"
    more_g = 100 * really.mix.oil_g / really.card_maximum_percent - really.mix.wax_g
    return f"{plain(more_g)} g more wax would bring it down to that: weigh the wax again. {misread}"


def ask_about_pouring(pour: Pour) -> None:
    """Raises AskedError where what is in the pitcher is not to be poured."""
    really = in_it(pour, Scale.at(pour))
    if really is not None and is_too_much(really):
        raise AskedError(f"{too_much_said(really)} Do not pour it. {too_much_advice(really)}")


def _is_near(oil_g: float, dose_g: float) -> bool:
    return dose_g / UNLIKELY_DOSE_TIMES <= oil_g <= dose_g * UNLIKELY_DOSE_TIMES


def _most(really: Recorded) -> str:
    if really.card_maximum_percent is not None:
        return f"the wax card allows {plain(really.card_maximum_percent)} % of wax at most"
    low, high = USUAL_LOAD_PERCENT
    return f"its wax card names no most, and usual is {plain(low)} to {plain(high)} % of wax"


def _dose_said(really: Recorded, dose_g: float) -> str:
    mix = really.mix
    most = f" {_most(really).capitalize()}." if is_too_much(really) else ""
    return (
        f"{plain(mix.oil_g)} g of oil in {plain(mix.wax_g)} g of wax is "
        f"{plain(mix.load_percent)} % of wax; {_shown(dose_g)} g was worked out.{most}"
    )


def _shown(weight_g: float) -> str:
    return to_the_mg(shown_g(weight_g, step_mg=last_steps().oil_mg))


def _dose_advice(really: Recorded, guess: float | None) -> str:
    if guess is not None:
        return f"Did you mean {plain(guess)} g?"
    if is_too_much(really):
        return "Weigh it again; if it is really in, do not pour it."
    return "Weigh it again, or note it as it is."
