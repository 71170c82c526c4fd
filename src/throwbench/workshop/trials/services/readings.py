"""A thermometer read or typed wrongly: put right with a reason."""

from datetime import datetime

from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.trials.models import Temperature


@transaction.atomic
def put_reading_right(
    reading: Temperature, *, celsius: float, why: str, who: Person, now: datetime
) -> Correction:
    """A typing slip: the first figure stays, and a new reading of the same moment counts.

    Raises
    ------
    UnclearError
        No reason was given.
    """
    if not why.strip():
        raise UnclearError(
            "There is no reason.", "A slip is put right with one.", "Say why in a few words."
        )
    right = Temperature(
        pour=reading.pour,
        step=reading.step,
        celsius=celsius,
        instrument=reading.instrument,
        who=who,
        at=reading.at,
    )
    right.full_clean()
    right.save()
    return Correction.objects.create(
        table=reading._meta.label_lower,
        row=reading.pk,
        field="celsius",
        was=f"{reading.celsius:.10g}",
        became=f"{celsius:.10g}",
        why=why.strip(),
        who=who,
        at=now,
    )
