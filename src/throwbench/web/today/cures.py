"""Cures that end today or within a week, by day and trial."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from throwbench.workshop.trials.models import TestCandle
from throwbench.workshop.trials.selectors.cure_page import Cure, cure_of

AHEAD = timedelta(days=7)
LONGEST_CURE = timedelta(days=180)
"""Whatever was poured longer ago than this is not looked at."""
SHOWN_CODES = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """Candles of one trial whose cure ends on one day."""

    ends: date
    in_days: int
    trial_pk: int
    trial: str
    codes: tuple[str, ...]
    chip: str
    shelves: tuple[str, ...]

    @property
    def when(self) -> str:
        """'today', 'tomorrow', 'in 5 days'."""
        return {0: "today", 1: "tomorrow"}.get(self.in_days, f"in {self.in_days} days")

    @property
    def shown(self) -> str:
        """The codes; of many the first ones and how many there are."""
        some = " ".join(self.codes[:SHOWN_CODES])
        return some if len(self.codes) <= SHOWN_CODES else f"{some} … {len(self.codes)} in all"


def cures_soon(today: date) -> tuple[Ending, ...]:
    """Cures from today to a week ahead. Whose wax card gives no days is not foretold."""
    rows = sorted(_curing(today), key=lambda row: (*_key(row), row[0].code))
    return tuple(_ending(list(group), today) for _, group in groupby(rows, key=_key))


Row = tuple[Cure, str]
"""A cure and the name of its trial."""


def _curing(today: date) -> Iterator[Row]:
    found = TestCandle.objects.filter(poured_on__gte=today - LONGEST_CURE, ended_at=None)
    candidate = "combination__candidate"
    known = found.select_related("combination__wax", f"{candidate}__trial", f"{candidate}__oil")
    for candle in known:
        cure = cure_of(candle, today)
        if cure and cure.ready_on and today <= cure.ready_on <= today + AHEAD:
            yield cure, candle.combination.candidate.trial.name


def _key(row: Row) -> tuple[date, int, str]:
    cure, _ = row
    assert cure.ready_on is not None
    return cure.ready_on, cure.trial, cure.words


def _ending(rows: list[Row], today: date) -> Ending:
    first, trial = rows[0]
    assert first.ready_on is not None
    return Ending(
        ends=first.ready_on,
        in_days=(first.ready_on - today).days,
        trial_pk=first.trial,
        trial=trial,
        codes=tuple(cure.code for cure, _ in rows),
        chip=first.words,
        shelves=tuple(dict.fromkeys(cure.shelf for cure, _ in rows if cure.shelf)),
    )
