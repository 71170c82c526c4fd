"""What the scale showed wins over the plan: another load is another combination."""

from datetime import datetime
from typing import Any

from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.trials.models import Combination, Pour, Weighing
from throwbench.workshop.trials.pitcher import departed_load, weighed_load


@transaction.atomic
def put_weighing_right(
    weighing: Weighing, *, mg: int, why: str, who: Person, now: datetime
) -> Correction:
    """A typing slip: the first figure stays, and a new weighing of the same moment counts.

    Raises
    ------
    UnclearError
        No reason was given.
    """
    if not why.strip():
        raise UnclearError(
            "There is no reason.", "A slip is put right with one.", "Say why in a few words."
        )
    pour = weighing.pour
    right = Weighing(
        pour=pour,
        what=weighing.what,
        mg=mg,
        scale_step_mg=weighing.scale_step_mg,
        who=who,
        at=weighing.at,
    )
    right.full_clean()
    right.save()
    for candle in pour.candles.select_related("combination__candidate"):
        candle.combination = as_weighed(candle.combination, pour)
        candle.save(update_fields=["combination"])
    return Correction.objects.create(
        table=weighing._meta.label_lower,
        row=weighing.pk,
        field="mg",
        was=str(weighing.mg),
        became=str(mg),
        why=why.strip(),
        who=who,
        at=now,
    )


def as_weighed(planned: Combination, pour: Pour) -> Combination:
    """The combination itself, or one that differs in the load alone."""
    load = departed_load(weighed_load(pour), planned.load_percent)
    if load is None:
        return planned
    same: dict[str, Any] = {
        "candidate": planned.candidate,
        "wax": planned.wax,
        "wick": planned.wick,
        "vessel": planned.vessel,
        "fixing": planned.fixing,
        "load_percent": load,
    }
    there = Combination.objects.filter(**same).first()
    return there or _new(same | {"fill_mg": planned.fill_mg, "fill_mm": planned.fill_mm})


def _new(fields: dict[str, Any]) -> Combination:
    made = Combination(**fields)
    made.full_clean()
    made.save()
    return made
