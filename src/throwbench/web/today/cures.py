"""Cures that end today or soon, by trial and day."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby

from throwbench.workshop.trials.models import TestCandle

AHEAD_DAYS = 7
SHOWN_CODES = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """Candles of one trial whose cure ends on one day."""

    ends: date
    trial_pk: int
    trial: str
    codes: tuple[str, ...]
    day: int
    days: int
    shelves: tuple[str, ...]
    in_days: int

    @property
    def when(self) -> str:
        """'today', 'tomorrow', 'in 5 days'."""
        return {0: "today", 1: "tomorrow"}.get(self.in_days, f"in {self.in_days} days")

    @property
    def chip(self) -> str:
        """'day 9 of 10'."""
        return f"day {self.day} of {self.days}"

    @property
    def shown(self) -> str:
        """The codes; of many the first ones and how many there are."""
        some = " ".join(self.codes[:SHOWN_CODES])
        return some if len(self.codes) <= SHOWN_CODES else f"{some} … {len(self.codes)} in all"


def cures_ending(today: date) -> tuple[Cure, ...]:
    """Cures from today to a week ahead. Whose wax card gives no days is not foretold."""
    found = (
        TestCandle.objects.filter(
            poured_on__isnull=False,
            poured_on__gte=today - timedelta(days=365),
            ended_at=None,
            combination__wax__cure_days__isnull=False,
        )
        .select_related("combination__wax", "combination__candidate__trial")
        .order_by("code")
    )
    rows = sorted((row for row in found if _is_near(row, today)), key=_key)
    return tuple(_cure(list(group), today) for _, group in groupby(rows, key=_key))


def _ends(candle: TestCandle) -> date:
    assert candle.poured_on is not None
    return candle.poured_on + timedelta(days=candle.combination.wax.cure_days or 0)


def _is_near(candle: TestCandle, today: date) -> bool:
    return today <= _ends(candle) <= today + timedelta(days=AHEAD_DAYS)


def _key(candle: TestCandle) -> tuple[date, int, int]:
    return _ends(candle), candle.combination.candidate.trial_id, candle.combination.wax_id


def _cure(candles: list[TestCandle], today: date) -> Cure:
    first = candles[0]
    assert first.poured_on is not None
    trial = first.combination.candidate.trial
    return Cure(
        ends=_ends(first),
        trial_pk=trial.pk,
        trial=trial.name,
        codes=tuple(candle.code for candle in candles),
        day=(today - first.poured_on).days,
        days=first.combination.wax.cure_days or 0,
        shelves=tuple(_shelves(candles)),
        in_days=(_ends(first) - today).days,
    )


def _shelves(candles: Iterable[TestCandle]) -> dict[str, None]:
    return dict.fromkeys(candle.shelf for candle in candles if candle.shelf)
