"""Temperatures of a pitcher: those that were typing slips, and those that were too hot."""

from dataclasses import dataclass

from throwbench.workshop.house.corrections import corrections_of
from throwbench.workshop.house.models import Correction
from throwbench.workshop.trials.models import Pour, Temperature
from throwbench.workshop.trials.times import clock
from throwbench.workshop.trials.windows import too_hot_said


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingRow:
    """One reading; `wrong` is the correction that came after it."""

    reading: Temperature
    wrong: Correction | None


def readings_of(pour: Pour) -> tuple[ReadingRow, ...]:
    """Every reading, in the order of time."""
    found = list(pour.temperatures.select_related("who"))
    slips = {slip.row: slip for slip in corrections_of(found)}
    return tuple(ReadingRow(reading=each, wrong=slips.get(each.pk)) for each in found)


def standing(rows: tuple[ReadingRow, ...]) -> tuple[Temperature, ...]:
    """The readings that nobody put right."""
    return tuple(row.reading for row in rows if row.wrong is None)


def too_hot(readings: tuple[Temperature, ...], pour: Pour) -> str:
    """Looked at with the wax card of today, so that a card filled in later still speaks."""
    told = [(each, too_hot_said(each.celsius, pour.wax)) for each in readings]
    hot = [(each, said) for each, said in told if said]
    if not hot:
        return ""
    last, said = hot[-1]
    if last == readings[-1]:
        return f"Last reading {said}"
    return f"The reading at {clock(last.at)}: {said}"
