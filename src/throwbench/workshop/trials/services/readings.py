"""A thermometer read or typed wrongly: put right with a reason."""

from datetime import datetime

from throwbench.workshop.house.corrections import put_anew
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.trials.models import Temperature


def put_reading_right(
    reading: Temperature, *, celsius: float, why: str, who: Person, now: datetime
) -> Correction:
    """A typing slip: the first figure stays, and a new reading of the same moment counts.

    Raises
    ------
    UnclearError
        No reason was given.
    """
    return put_anew(reading, field="celsius", value=celsius, why=why, who=who, now=now)
