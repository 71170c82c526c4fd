"""Today's page put together, and the sentence on top of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.utils import timezone

from throwbench.verdict.words import listed, number
from throwbench.web.alarm.missed import missed
from throwbench.web.templatetags.house import clock_by
from throwbench.web.today.checks import checks
from throwbench.web.today.cures import Ending, cures_soon
from throwbench.web.today.finding import Finding
from throwbench.web.today.lanes import Lane, Lanes, lanes
from throwbench.web.today.sittings import OpenPanel, noses_to_come, open_panels
from throwbench.web.today.steps import Step, steps
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.selectors.burns import lit_now
from throwbench.workshop.trials.selectors.photos import unread_count

NAMED = 3
"""So many candles are named in a sentence; of more it says how many."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """What the page shows, in its order."""

    sentence: str
    missed: tuple[str, ...]
    decided: tuple[str, ...]
    lanes: Lanes
    panels: tuple[OpenPanel, ...]
    cures: tuple[Ending, ...]
    photos: int
    """So many wait for their numbers."""
    findings: tuple[Finding, ...]
    steps: tuple[Step, ...]

    @property
    def is_late(self) -> bool:
        return any(lane.is_late for lane in self.lanes.rows)


def today(now: datetime) -> Today:
    """Everything due at a moment, in the workshop's zone."""
    day = timezone.localdate(now)
    lit, panels, cures = lanes(lit_now(now), now=now), open_panels(now), cures_soon(day)
    return Today(
        sentence=sentence(lit.rows, panels, cures, now=now),
        missed=missed(now).sentences,
        decided=tuple(_decided(day)),
        lanes=lit,
        panels=panels,
        cures=cures,
        photos=unread_count(),
        findings=checks(now=now, today=day),
        steps=steps(),
    )


def sentence(
    rows: Sequence[Lane], panels: tuple[OpenPanel, ...], cures: Sequence[Ending], *, now: datetime
) -> str:
    """What wants a hand first: late candles, then lit ones, noses to come, cures that end."""
    late = [lane for lane in rows if lane.is_late]
    if late:
        return _late(late, now)
    if rows:
        return _lit(rows, now)
    if noses := noses_to_come(panels):
        return f"Nothing is lit. {noses[:1].upper()}{noses[1:]}."
    if ending := sum(len(cure.codes) for cure in cures if not cure.in_days):
        told = "One cure ends" if ending == 1 else f"{number(ending).capitalize()} cures end"
        return f"Nothing is lit. {told} today."
    return "Nothing is lit, nothing is due."


def _late(late: Sequence[Lane], now: datetime) -> str:
    codes = [code for lane in late for code in lane.codes]
    them = "it" if len(codes) == 1 else "them"
    by = clock_by(min(lane.out_by for lane in late), now)
    return f"{_named(codes)} should have been out by {by}. Put {them} out now."


def _lit(rows: Sequence[Lane], now: datetime) -> str:
    count = sum(len(lane.codes) for lane in rows)
    first = min(lane.out_by for lane in rows)
    codes = [code for lane in rows if lane.out_by == first for code in lane.codes]
    if count == 1:
        return f"{codes[0]} is lit. Put it out by {clock_by(first, now)}."
    what = "them out" if len(codes) == count else f"out {_named(codes, begins=False)}"
    return f"{number(count).capitalize()} candles are lit. Put {what} by {clock_by(first, now)}."


def _named(codes: Sequence[str], *, begins: bool = True) -> str:
    if len(codes) <= NAMED:
        return listed(codes)
    many = f"{number(len(codes))} candles"
    return many.capitalize() if begins else f"the first {number(len(codes))}"


def _decided(day: date) -> list[str]:
    """'Long Light is decided today, sealed until its sittings are closed'."""
    found = Trial.objects.filter(decide_on=day).order_by("name")
    return [
        f"{trial.name} is decided today"
        + (", sealed until its sittings are closed" if trial.is_sealed else "")
        for trial in found
    ]
