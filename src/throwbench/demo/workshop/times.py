"""The demo's own clock: local times on Torvøya."""

from datetime import date, datetime, time
from zoneinfo import ZoneInfo

from throwbench.demo.plan import DEMO_DAY

ZONE = "Europe/Oslo"


def at(day: date, hour: int = 10, minute: int = 0) -> datetime:
    """A local time of the demo, with its zone."""
    return datetime.combine(day, time(hour, minute), ZoneInfo(ZONE))


def local(moment: datetime) -> datetime:
    """A local time without a zone, as the burn log writes it, with the zone."""
    return moment.replace(tzinfo=ZoneInfo(ZONE))


MORNING = at(DEMO_DAY, 11, 5)
"""When the demo opens."""
