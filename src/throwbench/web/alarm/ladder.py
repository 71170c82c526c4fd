"""The ladder: by which steps the alarm reaches an ear, and which of them are live now."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.utils import timezone

from throwbench.documents.words import day_words
from throwbench.verdict.words import listed
from throwbench.web.alarm.deadlines import Deadline, open_deadlines
from throwbench.web.alarm.here import WatchHere, watch_here
from throwbench.web.alarm.missed import Missed, missed
from throwbench.web.alarm.players import NO_NOTICES, NO_PLAYER
from throwbench.web.alarm.rungs import RungNow
from throwbench.workshop.house.models import Heard, Ring, Rung

NOT_GUARANTEED = "Alarm not guaranteed: this machine can sleep."
NO_WATCH = "off: no watch runs here"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """Everything that is said of the alarm."""

    deadlines: tuple[Deadline, ...]
    page: RungNow
    machine: RungNow
    notice: RungNow
    calendar: RungNow
    missed: Missed
    is_asked_to_stay_awake: bool
    not_guaranteed: str = NOT_GUARANTEED

    @property
    def rungs(self) -> tuple[RungNow, ...]:
        return self.page, self.machine, self.notice, self.calendar

    @property
    def machine_can_ring(self) -> bool:
        return NO_PLAYER not in self.machine.words

    @property
    def notice_can_ring(self) -> bool:
        return NO_NOTICES not in self.notice.words


def ladder(now: datetime, *, here: WatchHere = watch_here) -> Ladder:
    """How the alarm stands at a moment."""
    deadlines = open_deadlines(now)
    rang = _troubles(deadlines)
    return Ladder(
        deadlines=deadlines,
        page=RungNow(rung=Rung.PAGE, live=False, words="off until you turn it on"),
        machine=_own(Rung.MACHINE, here, rang, now),
        notice=_own(Rung.NOTICE, here, rang, now),
        calendar=_calendar(deadlines, now),
        missed=missed(now),
        is_asked_to_stay_awake=here.awake.is_held,
    )


def _own(rung: Rung, here: WatchHere, rang: dict[str, str], now: datetime) -> RungNow:
    """A step of this machine: it has a program, a watch runs, and somebody heard or saw it."""
    has, none, word = (
        (here.player.has_sound, NO_PLAYER, "heard")
        if rung == Rung.MACHINE
        else (here.player.has_notices, NO_NOTICES, "seen")
    )
    trouble = rang.get(rung, "")
    if not has():
        return RungNow(rung=rung, live=False, words=f"off: {none}", trouble=trouble)
    if not here.is_awake():
        return RungNow(rung=rung, live=False, words=NO_WATCH, trouble=trouble)
    last = Heard.objects.filter(rung=rung).order_by("-at", "-id").first()
    if last is None:
        return RungNow(rung=rung, live=False, words="not tried", trouble=trouble)
    when = when_words(last.at, now)
    if not last.heard:
        return RungNow(rung=rung, live=False, words=f"not {word} {when}", trouble=trouble)
    return RungNow(rung=rung, live=not trouble, words=f"on, {word} {when}", trouble=trouble)


def _troubles(deadlines: Sequence[Deadline]) -> dict[str, str]:
    """Why a step could not ring for what is due now, by the step."""
    found = Ring.objects.filter(deadline__in=[one.id for one in deadlines]).exclude(trouble="")
    dues = {(one.id, one.due) for one in deadlines}
    return {ring.rung: ring.trouble for ring in found if (ring.deadline, ring.due_at) in dues}


def _calendar(deadlines: Sequence[Deadline], now: datetime) -> RungNow:
    """Whether every lit candle's time stands in a file that was made."""
    burns = [one for one in deadlines if one.is_burn]
    rings = Ring.objects.filter(rung=Rung.CALENDAR, deadline__in=[one.id for one in burns])
    made = {(ring.deadline, ring.due_at): ring.at for ring in rings}
    there = [made[one.id, one.due] for one in burns if (one.id, one.due) in made]
    if not there:
        return RungNow(rung=Rung.CALENDAR, live=False, words="not made")
    words = f"made {when_words(max(there), now)}"
    left = [one.name for one in burns if (one.id, one.due) not in made]
    if left:
        verb = "is" if len(left) == 1 else "are"
        return RungNow(
            rung=Rung.CALENDAR, live=False, words=f"{words}; {listed(left)} {verb} not in it"
        )
    return RungNow(rung=Rung.CALENDAR, live=True, words=words)


def when_words(moment: datetime, now: datetime) -> str:
    """'at 10:58' of today, else with its day."""
    local = timezone.localtime(moment)
    if local.date() == timezone.localdate(now):
        return f"at {local:%H:%M}"
    return f"on {day_words(local.date())} at {local:%H:%M}"


def as_json(here: Ladder) -> Iterator[dict[str, object]]:
    """The steps as a page's script reads them."""
    for one in here.rungs:
        yield {"rung": one.rung, "live": one.live, "words": one.words, "trouble": one.trouble}
