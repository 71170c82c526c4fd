"""Which candles could be lit, and what stands on their tags."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Max, Q

from throwbench.rules.limit import figure_of, limits_on
from throwbench.rules.turn import by_candle, in_turn, last_wax
from throwbench.workshop.house.selectors import house_limits
from throwbench.workshop.shelf.models import Flaw
from throwbench.workshop.trials.models import Burn, TestCandle
from throwbench.workshop.trials.selectors.burns import as_records
from throwbench.workshop.trials.selectors.made_of import MADE_OF, combination_of

AT_MOST = 40
"""So many are listed; any other is named by its code."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A candle that could be lit. No oil: whoever lights it may score it."""

    candle: TestCandle
    burns: int
    cure_day: int
    cure_days: int | None
    is_at_the_end: bool

    @property
    def is_curing(self) -> bool:
        return self.cure_days is not None and self.cure_day < self.cure_days

    @property
    def words(self) -> str:
        """'burn 4 next, flat cotton 4, cured'."""
        return f"burn {self.burns + 1} next, {self.candle.combination.wick}"


def candles_named(codes: Iterable[str]) -> list[TestCandle]:
    """The candles of these codes, in this order; one that is not there is left out."""
    wanted = list(codes)
    found = TestCandle.objects.filter(code__in=wanted).select_related(
        "combination__wax", "combination__wick", "combination__candidate__trial"
    )
    by_code = {candle.code: candle for candle in found}
    return [by_code[code] for code in wanted if code in by_code]


def ready(today: date, *, trial: int | None = None) -> list[Ready]:
    """Candles that are poured, whole and not lit, of trials that are not decided yet."""
    lit = Burn.objects.filter(out_at=None).values_list("candle_id", flat=True)
    open_trial = Q(combination__candidate__trial__decide_on=None) | Q(
        combination__candidate__trial__decide_on__gte=today
    )
    found = TestCandle.objects.filter(poured_on__isnull=False, ended_at=None)
    found = found.exclude(pk__in=list(lit)).filter(Q(piece=None) | ~Q(piece__flaw=Flaw.STRUCTURAL))
    found = found.filter(combination__candidate__trial=trial) if trial else found.filter(open_trial)
    candles = list(found.select_related(*MADE_OF).order_by("-poured_on", "code")[:AT_MOST])
    burned = _burned(candles)
    at_the_end = _at_the_end(candles, today)
    listed = [
        Ready(
            candle=candle,
            burns=burned.get(candle.pk, 0),
            cure_day=(today - candle.poured_on).days if candle.poured_on else 0,
            cure_days=candle.combination.wax.cure_days,
            is_at_the_end=candle.code in at_the_end,
        )
        for candle in candles
    ]
    return sorted(listed, key=lambda one: (one.is_at_the_end, one.is_curing))


def _burned(candles: Sequence[TestCandle]) -> dict[int, int]:
    """How often each candle was lit."""
    rows = Burn.objects.filter(candle__in=candles).values("candle").annotate(last=Max("number"))
    return dict(rows.values_list("candle", "last"))


def _at_the_end(candles: Sequence[TestCandle], today: date) -> set[str]:
    """Codes of candles that have no more wax than the end line."""
    end_mm = figure_of("end-line", limits_on(today, house=house_limits()))
    made_of = {candle.code: combination_of(candle) for candle in candles}
    logs = by_candle(as_records(Burn.objects.filter(candle__in=candles)))
    left = {code: last_wax(in_turn(log, made_of[code])) for code, log in logs.items()}
    return {code for code, wax in left.items() if wax is not None and wax.mm <= end_mm}
