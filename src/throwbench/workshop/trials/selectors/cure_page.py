"""What cures: day n of m for each candle, and what "ready" still needs to be known."""

from dataclasses import dataclass
from datetime import date, timedelta

from throwbench.documents.words import day_words
from throwbench.science.words import counted
from throwbench.workshop.trials.models import TestCandle, Trial
from throwbench.workshop.trials.selectors.made_of import candles_of

CURING, READY, UNKNOWN = "curing", "ready", "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """One candle in its cure. `ready_on` is the first day that counts as cured."""

    code: str
    oil: str
    """Empty while the trial is sealed."""
    trial: int
    poured_on: date
    day: int
    days: int | None
    ready_on: date | None
    shelf: str
    wax: str
    wax_pk: int

    @property
    def words(self) -> str:
        """Day 9 of 10."""
        return f"day {self.day}" if self.days is None else f"day {self.day} of {self.days}"

    @property
    def state(self) -> str:
        if self.days is None:
            return UNKNOWN
        return READY if self.day >= self.days else CURING


def cure_of(candle: TestCandle, today: date) -> Cure | None:
    """The cure of one candle; None before it is poured."""
    if candle.poured_on is None:
        return None
    wax = candle.combination.wax
    days = wax.cure_days
    candidate = candle.combination.candidate
    return Cure(
        code=candle.code,
        oil="" if candidate.trial.is_sealed else candidate.oil.name,
        trial=candidate.trial_id,
        poured_on=candle.poured_on,
        day=(today - candle.poured_on).days,
        days=days,
        ready_on=None if days is None else candle.poured_on + timedelta(days=days),
        shelf=candle.shelf,
        wax=wax.name,
        wax_pk=wax.pk,
    )


def cures(trial: Trial, today: date) -> tuple[Cure, ...]:
    """The cures of a trial; the first to be ready first, what cannot be told last."""
    found = [cure_of(candle, today) for candle in candles_of(trial).filter(ended_at=None)]
    poured = [one for one in found if one is not None]
    return tuple(sorted(poured, key=lambda one: (one.ready_on or date.max, one.code)))


@dataclass(frozen=True, slots=True, kw_only=True)
class CurePage:
    """The page of a trial's cure."""

    said: str
    parts: tuple[tuple[str, tuple[Cure, ...]], ...]
    not_poured: int
    unknown_waxes: tuple[tuple[str, int], ...]
    next_step: str
    """What comes next: "pour", "card", "wait" while it cures, or "burn"."""


def cure_page(trial: Trial, today: date) -> CurePage:
    """All cures, the sentence above them, and the waxes whose cure days are asked for."""
    shown = cures(trial, today)
    not_poured = candles_of(trial).filter(poured_on=None).count()
    return CurePage(
        said=_said(shown),
        parts=_parts(shown),
        not_poured=not_poured,
        next_step=_next_step(shown, not_poured),
        unknown_waxes=tuple(
            dict.fromkeys((one.wax, one.wax_pk) for one in shown if one.days is None)
        ),
    )


def _next_step(shown: tuple[Cure, ...], not_poured: int) -> str:
    states = {one.state for one in shown}
    if READY in states:
        return "burn"
    if not_poured or not shown:
        return "pour"
    return "card" if UNKNOWN in states else "wait"


def _parts(shown: tuple[Cure, ...]) -> tuple[tuple[str, tuple[Cure, ...]], ...]:
    """What still cures stands before what is cured."""
    cured = tuple(one for one in shown if one.state == READY)
    curing = tuple(one for one in shown if one.state != READY)
    return tuple((name, some) for name, some in (("Curing", curing), ("Cured", cured)) if some)


def _said(shown: tuple[Cure, ...]) -> str:
    if not shown:
        return "Nothing cures yet: a cure begins when a candle is poured."
    curing = [one for one in shown if one.state == CURING]
    unknown = sum(one.state == UNKNOWN for one in shown)
    if curing and curing[0].ready_on:
        first = day_words(curing[0].ready_on)
        many = counted(len(curing), "candle cures", "candles cure")
        return f"{many}; the first is ready on {first}."
    if unknown:
        return f"Of {counted(unknown, 'candle')} it is not known when the cure ends."
    return f"{counted(len(shown), 'candle is', 'candles are')} cured: sniffs count from now on."
