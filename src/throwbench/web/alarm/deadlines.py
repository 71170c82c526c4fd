"""What will be due: every lit candle, every running timer."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from django.db.models import Max

from throwbench.web.alarm.behind import behind_words
from throwbench.workshop.house.models import There
from throwbench.workshop.house.timers import running_timers
from throwbench.workshop.trials.models import Burn
from throwbench.workshop.trials.times import clock_is_behind

FIRST_WORD = timedelta(minutes=10)
"""So long before it is due a first word is said, without a sound."""
THERE_FOR = timedelta(minutes=2)
"""Who says "I'm there" has so long; what is still due then rings again."""
LONG_AGO = datetime(1971, 1, 1, tzinfo=UTC)
NO_ROOM = "room not noted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Deadline:
    """One thing that is due at a time, in the folder's own clock."""

    id: str
    """'burn 12', 'timer 3'."""
    what: str
    name: str
    """The candle's code, or the timer's words."""
    where: str
    handed_to: str
    since: datetime
    due: datetime
    there_at: datetime | None
    """When somebody last said "I'm there"."""
    address: str
    seen_at: datetime
    """This machine's clock when it was looked at."""

    @property
    def is_burn(self) -> bool:
        return self.id.startswith("burn ")

    @property
    def rings_from(self) -> datetime:
        """When it is due; or later, where somebody is there. At once, where no clock can tell."""
        if self.clock_is_behind:
            return LONG_AGO if self.there_at is None else self.there_at + THERE_FOR
        if self.there_at is None or self.there_at < self.due:
            return self.due
        return self.there_at + THERE_FOR

    @property
    def clock_is_behind(self) -> bool:
        """Whether it began later than this machine's clock shows."""
        return clock_is_behind(self.since, self.seen_at)

    @property
    def behind(self) -> str:
        """What to say of a clock that is behind; empty where it is not."""
        if not self.clock_is_behind:
            return ""
        what = f"{self.name} was lit on" if self.is_burn else f"“{self.name}” was set on"
        return behind_words(what, self.since, now=self.seen_at)

    @property
    def first_word(self) -> datetime | None:
        """When to say that it comes; None where it began too short a time before."""
        at = self.due - FIRST_WORD
        return at if at - self.since >= FIRST_WORD else None


def open_deadlines(now: datetime) -> tuple[Deadline, ...]:
    """What is lit or timed and not done, the first due first."""
    burns, timers = _lit(), tuple(running_timers())
    if not burns and not timers:
        return ()
    there_at = There.objects.filter(at__lte=now).aggregate(last=Max("at"))["last"]
    found = [_of_burn(burn, there_at, now) for burn in burns]
    found += [
        Deadline(
            id=f"timer {timer.pk}",
            what=timer.what,
            name=timer.what,
            where="",
            handed_to="",
            since=timer.set_at,
            due=timer.due_at,
            there_at=there_at,
            address="/timers/",
            seen_at=now,
        )
        for timer in timers
    ]
    return tuple(sorted(found, key=lambda one: (one.due, one.name)))


def _lit() -> tuple[Burn, ...]:
    """No oil is read: an alarm may be seen by somebody who scores."""
    found = Burn.objects.filter(out_at=None).select_related("candle", "room", "handed_to")
    return tuple(found)


def _of_burn(burn: Burn, there_at: datetime | None, now: datetime) -> Deadline:
    return Deadline(
        id=f"burn {burn.pk}",
        what=f"Put out {burn.candle.code}",
        name=burn.candle.code,
        where=str(burn.room).capitalize() if burn.room else NO_ROOM,
        handed_to=burn.handed_to.name if burn.handed_to else "",
        since=burn.lit_at,
        due=burn.out_by_at,
        there_at=there_at,
        address="/round/",
        seen_at=now,
    )
