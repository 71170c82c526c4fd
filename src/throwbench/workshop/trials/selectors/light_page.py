"""Which candles could be lit, and what stands on their tags."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from django.db.models import Count, Exists, OuterRef, Q

from throwbench.workshop.shelf.models import Flaw
from throwbench.workshop.trials.models import Burn, TestCandle

AT_MOST = 60
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
    lit = Burn.objects.filter(candle=OuterRef("pk"), out_at=None)
    open_trial = Q(combination__candidate__trial__decide_on=None) | Q(
        combination__candidate__trial__decide_on__gte=today
    )
    found = TestCandle.objects.filter(poured_on__isnull=False, ended_at=None)
    found = found.exclude(piece__flaw=Flaw.STRUCTURAL).filter(~Exists(lit))
    found = found.filter(combination__candidate__trial=trial) if trial else found.filter(open_trial)
    rows = (
        found.select_related("combination__wax", "combination__wick")
        .annotate(burned=Count("burns"))
        .order_by("poured_on", "code")[:AT_MOST]
    )
    return [_ready(candle, today) for candle in rows]


def _ready(candle: TestCandle, today: date) -> Ready:
    assert candle.poured_on is not None
    age: timedelta = today - candle.poured_on
    return Ready(
        candle=candle,
        burns=candle.burned,  # type: ignore[attr-defined]
        cure_day=age.days,
        cure_days=candle.combination.wax.cure_days,
    )
