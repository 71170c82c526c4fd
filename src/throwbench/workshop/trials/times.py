"""The workshop's own clock: days are local calendar days."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from throwbench.workshop.house.selectors import workshop


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
