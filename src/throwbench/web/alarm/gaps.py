"""Times in which nobody watched: between two looks, or between a stop and a start."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from throwbench.web.alarm.deadlines import Deadline
from throwbench.workshop.house.alarms import note_unwatched
from throwbench.workshop.house.models import Watch

LONGEST = timedelta(seconds=60)
"""Looks further apart than this leave a time without a watch."""


class Gaps:
    """Notes a time without a watch when the next look finds something lit or timed."""

    def __init__(self) -> None:
        self._last: tuple[datetime, float] | None = None

    def look(self, found: Sequence[Deadline], now: datetime, *, elapsed_s: float) -> None:
        """One look at what is open now."""
        since = self._watched_until(now, elapsed_s)
        self._last = (now, elapsed_s)
        if since is None or not found:
            return
        begins = max(since, min(one.since for one in found))
        if now - begins > LONGEST:
            note_unwatched(from_at=begins, to_at=now)

    def _watched_until(self, now: datetime, elapsed_s: float) -> datetime | None:
        """The look before this one; None where it was just now.

        A clock that was set forward is no sleep: the time that passed says so.
        """
        if self._last is None:
            kept = Watch.objects.filter(id=1).values_list("last_at", flat=True).first()
            return kept
        last, last_s = self._last
        slept = timedelta(seconds=elapsed_s - last_s) > LONGEST
        return last if slept else None
