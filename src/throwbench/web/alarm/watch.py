"""The watch: looks at the deadlines every few seconds, and lets this machine ring."""

from collections.abc import Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.utils import timezone

from throwbench.web.alarm.calling import now_due, soon_due
from throwbench.web.alarm.deadlines import Deadline, open_deadlines
from throwbench.web.alarm.gaps import Gaps
from throwbench.web.alarm.players import Player
from throwbench.workshop.house.alarms import note_ring, note_watch
from throwbench.workshop.house.models import Ring, Rung
from throwbench.workshop.trials.times import zone

EVERY = timedelta(minutes=1)
"""So often the sound is repeated."""
FOR = timedelta(minutes=15)
"""So long it is repeated; then it is for the other steps of the ladder."""
KEEP_EVERY = timedelta(seconds=20)
"""So often it is written down that somebody watches, while something is open."""
Key = tuple[str, datetime]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    """What a program of this machine does now, and for which deadlines."""

    rung: str
    deadlines: tuple[Deadline, ...]
    at: datetime
    trouble: "Future[str]"


class Watcher:
    """One watch over one folder. `tick` is called by one thread only; programs run in another."""

    def __init__(self, player: Player) -> None:
        self._player = player
        self.is_open = False
        """Whether the last look found something lit or timed."""
        self._beside = ThreadPoolExecutor(max_workers=1, thread_name_prefix="alarm")
        self._jobs: list[_Job] = []
        self._gaps = Gaps()
        self._found: tuple[Deadline, ...] = ()
        self._kept_at: datetime | None = None
        self._began: dict[Key, datetime] = {}
        self._rang: dict[Key, datetime] = {}
        self._told: set[Key] = set()

    def tick(self, now: datetime, *, elapsed_s: float) -> None:
        """Look once. `elapsed_s` is of a clock that nobody sets and that runs during sleep."""
        self.look(now)
        self.write_down(now, elapsed_s=elapsed_s)

    def look(self, now: datetime) -> None:
        """Ring for what is due. Nothing is written: a disk that is full must not end the sound."""
        self._found = open_deadlines(now)
        self.is_open = bool(self._found)
        if self._found:
            with timezone.override(zone()):
                self._say_soon(self._found, now)
                self._ring(self._found, now)

    def write_down(self, now: datetime, *, elapsed_s: float) -> None:
        """Note what rang, that somebody watches, and when nobody did, after a `look`."""
        self._gaps.look(self._found, now, elapsed_s=elapsed_s)
        self.note_what_rang()
        if self._found:
            self._keep(now)

    def note_what_rang(self, *, wait: bool = False) -> None:
        """Write down what became of the programs that ended; `wait` for those that run."""
        ended = [job for job in self._jobs if wait or job.trouble.done()]
        for job in ended:
            _note(job)
            self._jobs.remove(job)

    def end(self) -> None:
        """Nothing rings any more, and no program is left behind."""
        self._player.end()
        self._beside.shutdown(wait=True, cancel_futures=True)

    def _ring(self, found: Sequence[Deadline], now: datetime) -> None:
        due = tuple(one for one in found if self._rings_now(one, now))
        if not due:
            return
        fresh = tuple(one for one in due if _key(one) not in self._rang)
        self._rang |= {_key(one): now for one in due}
        if fresh:
            title, words = now_due(fresh)
            told = self._beside.submit(self._player.notice, title, words)
            self._jobs.append(_Job(rung=Rung.NOTICE, deadlines=fresh, at=now, trouble=told))
        sound = self._beside.submit(self._player.sound)
        self._jobs.append(_Job(rung=Rung.MACHINE, deadlines=due, at=now, trouble=sound))

    def _rings_now(self, one: Deadline, now: datetime) -> bool:
        """It is due, not for too long, and the last sound of it was a minute ago."""
        if now < one.rings_from:
            return False
        key = _key(one)
        if key not in self._began:
            self._began[key] = _first_rang(one, now)
        last = self._rang.get(key)
        return now - self._began[key] < FOR and (last is None or now - last >= EVERY or last > now)

    def _say_soon(self, found: Sequence[Deadline], now: datetime) -> None:
        soon = [
            one
            for one in found
            if one.first_word and one.first_word <= now < one.due and _key(one) not in self._told
        ]
        if soon:
            self._told |= {_key(one) for one in soon}
            self._beside.submit(self._player.notice, *soon_due(soon))

    def _keep(self, now: datetime) -> None:
        if self._kept_at is None or not timedelta(0) <= now - self._kept_at < KEEP_EVERY:
            note_watch(at=now)
            self._kept_at = now


def _note(job: _Job) -> None:
    if job.trouble.cancelled():
        return
    error = job.trouble.exception()
    trouble = job.trouble.result() if error is None else f"{type(error).__name__}: {error}"
    for one in job.deadlines:
        note_ring(deadline=one.id, due_at=one.due, rung=job.rung, at=job.at, trouble=trouble)


def _key(one: Deadline) -> Key:
    return one.id, one.rings_from


def _first_rang(one: Deadline, now: datetime) -> datetime:
    """When this deadline rang first, perhaps before a restart; now, where it did not."""
    if one.rings_from != one.due:
        return now
    rings = Ring.objects.filter(deadline=one.id, due_at=one.due, rung=Rung.MACHINE, at__lte=now)
    return rings.values_list("at", flat=True).first() or now
