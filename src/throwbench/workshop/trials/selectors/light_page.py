"""Which candles could be lit, and what stands on their tags."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import Q

from throwbench.workshop.shelf.models import Flaw
from throwbench.workshop.trials.models import Burn, TestCandle
from throwbench.workshop.trials.selectors.broken import judged, why_not_again
from throwbench.workshop.trials.selectors.made_of import MADE_OF

AT_MOST = 40
"""So many are listed; any other is named by its code."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A candle that could be lit. No oil: whoever lights it may score it."""

    candle: TestCandle
    burns: int
    cure_day: int
    cure_days: int | None

    @property
    def is_curing(self) -> bool:
        return self.cure_days is not None and self.cure_day < self.cure_days

    @property
    def words(self) -> str:
        """'burn 4 next, flat cotton 4'; of a sealed trial without the wick, which tells the oil."""
        made = self.candle.combination
        said = f"burn {self.burns + 1} next"
        return said if made.candidate.trial.is_sealed else f"{said}, {made.wick}"


@dataclass(frozen=True, slots=True, kw_only=True)
class ToLight:
    """The candles that could be lit, and beside each that could not be why."""

    ready: tuple[Ready, ...]
    spent: tuple[tuple[TestCandle, str], ...]


def candles_named(codes: Iterable[str]) -> list[TestCandle]:
    """The candles of these codes, in this order; one that is not there is left out."""
    wanted = list(codes)
    found = TestCandle.objects.filter(code__in=wanted).select_related(
        "combination__wax", "combination__wick", "combination__candidate__trial"
    )
    by_code = {candle.code: candle for candle in found}
    return [by_code[code] for code in wanted if code in by_code]


def to_light(today: date, *, trial: int | None = None) -> ToLight:
    """Candles that are poured, whole and not lit, of trials that are not decided yet."""
    lit = Burn.objects.filter(out_at=None).values_list("candle_id", flat=True)
    open_trial = Q(combination__candidate__trial__decide_on=None) | Q(
        combination__candidate__trial__decide_on__gte=today
    )
    found = TestCandle.objects.filter(poured_on__isnull=False, ended_at=None)
    found = found.exclude(pk__in=list(lit)).filter(Q(piece=None) | ~Q(piece__flaw=Flaw.STRUCTURAL))
    found = found.filter(combination__candidate__trial=trial) if trial else found.filter(open_trial)
    candles = list(found.select_related(*MADE_OF).order_by("-poured_on", "code")[:AT_MOST])
    limits = judged(candles, today)
    why = {candle.code: why_not_again(limits.get(candle.code)) for candle in candles}
    ready = (
        _ready(candle, today, burns=limits[candle.code].burns if candle.code in limits else 0)
        for candle in candles
        if not why[candle.code]
    )
    return ToLight(
        ready=tuple(sorted(ready, key=lambda one: one.is_curing)),
        spent=tuple((candle, why[candle.code]) for candle in candles if why[candle.code]),
    )


def _ready(candle: TestCandle, today: date, *, burns: int) -> Ready:
    return Ready(
        candle=candle,
        burns=burns,
        cure_day=(today - candle.poured_on).days if candle.poured_on else 0,
        cure_days=candle.combination.wax.cure_days,
    )
