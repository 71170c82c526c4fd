"""What the scale showed wins over the plan: another load is another combination."""

from datetime import datetime
from typing import Any

from django.db import transaction
from django.db.models import QuerySet

from throwbench.workshop.house.corrections import put_anew
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.trials.models import Combination, Pour, Weighing
from throwbench.workshop.trials.pitcher import departed_load, load_of, weighed_load


@transaction.atomic
def put_weighing_right(
    weighing: Weighing, *, mg: int, why: str, who: Person, now: datetime
) -> Correction:
    """A typing slip: the first figure stays, and a new weighing of the same moment counts.

    Each candle of the pitcher gets the combination that it would have had without the slip.

    Raises
    ------
    UnclearError
        No reason was given.
    """
    told = put_anew(weighing, field="mg", value=mg, why=why, who=who, now=now)
    pour = weighing.pour
    for candle in pour.candles.select_related("combination__candidate"):
        made = candle.combination
        candle.combination = _as_planned(made, pour) or as_weighed(made, pour)
        candle.save(update_fields=["combination"])
    return told


def as_weighed(planned: Combination, pour: Pour) -> Combination:
    """The combination itself, or one that differs in the load alone."""
    load = departed_load(weighed_load(pour), planned.load_percent)
    if load is None:
        return planned
    there = _alike(planned).filter(load_percent=load).first()
    if there is not None:
        return there
    same = {"fill_mg": planned.fill_mg, "fill_mm": planned.fill_mm, "load_percent": load}
    return _new(_apart_from_the_load(planned) | same)


def _as_planned(made: Combination, pour: Pour) -> Combination | None:
    """Of the combinations from which the weighed load does not depart, that of the plan."""
    weighed = weighed_load(pour)
    near = [one for one in _alike(made) if departed_load(weighed, one.load_percent) is None]
    planned = load_of(pour).of_wax_percent
    return min(near, key=lambda one: (abs(one.load_percent - planned), one.pk), default=None)


def _alike(made: Combination) -> QuerySet[Combination]:
    return Combination.objects.filter(**_apart_from_the_load(made))


def _apart_from_the_load(made: Combination) -> dict[str, Any]:
    return {
        "candidate": made.candidate,
        "wax": made.wax,
        "wick": made.wick,
        "vessel": made.vessel,
        "fixing": made.fixing,
    }


def _new(fields: dict[str, Any]) -> Combination:
    made = Combination(**fields)
    made.full_clean()
    made.save()
    return made
