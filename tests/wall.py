"""Times on the wall in Oslo, on the day of the tests."""

from datetime import UTC, datetime


def at(clock: str) -> datetime:
    """A time on the wall in Oslo on Monday 24 May 2027: two hours before UTC."""
    hour, minute = (int(part) for part in clock.split(":"))
    return datetime(2027, 5, 24, hour - 2, minute, tzinfo=UTC)
