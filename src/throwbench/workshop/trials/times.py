"""The workshop's own clock: days are local calendar days."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from throwbench.documents.words import day_words
from throwbench.science.errors import UnclearError
from throwbench.workshop.house.selectors import workshop

CLOCKS_DIFFER = timedelta(minutes=2)
"""A phone that pressed and this machine may show so different times."""


def clock_is_behind(noted: datetime, now: datetime) -> bool:
    """Whether the clock shows less than when that was noted, so that no time here holds."""
    return noted > now + CLOCKS_DIFFER


def zone() -> ZoneInfo:
    """The workshop's zone; UTC before it has begun."""
    here = workshop()
    return ZoneInfo(here.zone if here else "UTC")


def local_day(moment: datetime) -> date:
    """The local calendar day of an aware time."""
    return moment.astimezone(zone()).date()


def clock(moment: datetime) -> str:
    """The time on the workshop's wall: 11:05."""
    return f"{moment.astimezone(zone()):%H:%M}"


def pour_first(poured: date | None, decided: date | None) -> None:
    """Raises UnclearError where the day of the decision is before the day of the pour."""
    if poured is not None and decided is not None and decided < poured:
        raise UnclearError(
            f"The decision is on {day_words(decided)}, the pour on {day_words(poured)}.",
            "A decision is on the day of the pour or later.",
            "Check both days.",
        )
