"""The sums of one pitcher: the oil for the wax that is really in it, and the load that it makes."""

from dataclasses import dataclass

from throwbench.science.batch import Recorded, Weighed, recorded, weighed
from throwbench.science.load import Load, load_on_both_bases
from throwbench.science.words import plain
from throwbench.workshop.trials.models import Pour, Weighing
from throwbench.workshop.trials.windows import AskedError

DEPARTS_PERCENT = 0.25
"""A weighed load further than this from the planned one [points of % of wax] is another load."""
UNLIKELY_TIMES = 2
"""Wax that is this many times the plan, or that part of it, is asked about."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """What the scale showed of one pitcher, in the order of time [g]."""

    wax_g: tuple[float, ...]
    oil_g: tuple[float, ...]

    @classmethod
    def of(cls, weighings: list[Weighing]) -> "Scale":
        return cls(
            wax_g=tuple(each.mg / 1000 for each in weighings if each.what == "wax"),
            oil_g=tuple(each.mg / 1000 for each in weighings if each.what == "oil"),
        )


def load_of(pour: Pour) -> Load:
    """The planned load on both bases."""
    return load_on_both_bases(percent=pour.load_percent, basis=pour.basis)  # type: ignore[arg-type]


def oil_for(pour: Pour, scale: Scale) -> Weighed | None:
    """The oil for the last weighing of the wax; None before the wax is weighed."""
    if not scale.wax_g:
        return None
    target = None if pour.wax_mg is None else pour.wax_mg / 1000
    load = load_of(pour).of_wax_percent
    return weighed(weighings_g=scale.wax_g, load_percent=load, target_g=target)


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
    really = in_it(pour, Scale.of(list(pour.weighings.all())))
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
        f"Wax in the pitcher is {plain(mg / 1000)} g; {plain(pour.wax_mg / 1000)} g was planned. "
        "Check the point and the unit, or note it as it is."
    )


def ask_about_dose(pour: Pour, mg: int) -> None:
    """Raises AskedError where this oil would be above the wax card's maximum."""
    scale = Scale.of(list(pour.weighings.filter(what="wax")))
    really = in_it(pour, Scale(wax_g=scale.wax_g, oil_g=(mg / 1000,)))
    if really is not None and really.above_card:
        raise AskedError(really.sentence())
