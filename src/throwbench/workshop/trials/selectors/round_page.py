"""The burn round: every candle that is lit, what was last seen of it, and what is out today."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from throwbench.rules.limit import figure_of, limits_on
from throwbench.verdict.words import number
from throwbench.workshop.house.selectors import counted, house_limits
from throwbench.workshop.trials.models import Burn, Check
from throwbench.workshop.trials.selectors.burns import Lit, lit_now
from throwbench.workshop.trials.times import clock, local_day

JUST_OUT = timedelta(hours=12)
WARNINGS = {
    "flame": ("over", "flame over the mark"),
    "flare_up": ("long", "flare-up longer than 10 s"),
    "soot": ("heavy", "heavy soot"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One lit candle on the round. No oil: the round may be walked by somebody who scores."""

    lit: Lit
    inside_mm: float | None
    last_pool: str
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    candles: tuple[Waiting, ...]
    just_out: tuple[Burn, ...]
    now: datetime
    flame_mm: float

    @property
    def first_out(self) -> datetime:
        return self.candles[0].lit.burn.out_by_at

    @property
    def is_late(self) -> bool:
        return self.candles[0].lit.is_late

    @property
    def verb(self) -> str:
        """'Loft: three candles out by'; those that are due first, where not all are."""
        first = [one for one in self.candles if one.lit.burn.out_by_at == self.first_out]
        rooms = {str(one.lit.burn.room) for one in first if one.lit.burn.room}
        where = f"{rooms.pop().capitalize()}: " if len(rooms) == 1 else ""
        many = counted(len(self.candles), "candle", "candles")
        if len(first) < len(self.candles):
            many = f"{number(len(first))} of {many}"
        word = "were to be out by" if self.is_late else "out by"
        return f"{where}{many} {word}" if where else f"{many.capitalize()} {word}"

    @property
    def how_many(self) -> str:
        """'six', for the button that says: all six."""
        return number(len(self.candles))

    @property
    def due(self) -> str:
        """When to look again."""
        at = min(one.lit.check_due_at for one in self.candles)
        if at <= self.now:
            return f"this check is due now, the next at {clock(self.now + timedelta(hours=1))}"
        return f"the next check is due at {clock(at)}"


def round_of(now: datetime) -> Round:
    """What burns now, and what went out in the last hours."""
    lit = lit_now(now)
    burns = [one.burn for one in lit]
    checks = _last_checks(burns)
    pools = _last_pools(burns)
    out = Burn.objects.filter(out_at__gt=now - JUST_OUT).select_related("candle", "room")
    return Round(
        candles=tuple(
            Waiting(
                lit=one,
                inside_mm=one.burn.candle.combination.vessel.inside_mm,
                last_pool=pools.get(one.burn.candle_id, ""),
                warnings=warnings_of(checks.get(one.burn.pk)),
            )
            for one in lit
        ),
        just_out=tuple(out.order_by("-out_at")),
        now=now,
        flame_mm=figure_of("flame-height", limits_on(local_day(now), house=house_limits())),
    )


def warnings_of(check: Check | None) -> tuple[str, ...]:
    """What the last look says a candle is put out for at once."""
    if check is None:
        return ()
    found = [words for name, (bad, words) in WARNINGS.items() if getattr(check, name) == bad]
    return (*found, *(["the whole pool took fire"] if check.flare_up == "pool" else []))


def _last_checks(burns: Iterable[Burn]) -> Mapping[int, Check]:
    """The last look at each burn that told more than that nothing changed."""
    told = Check.objects.filter(burn__in=list(burns)).exclude(no_change=True).order_by("at", "pk")
    return {check.burn_id: check for check in told}


def _last_pools(burns: Iterable[Burn]) -> Mapping[int, str]:
    """The last measured melt pool of each candle, in words."""
    candles = [burn.candle_id for burn in burns]
    rows = (
        Check.objects.filter(burn__candle__in=candles, pool_width_mm__isnull=False)
        .order_by("at")
        .values_list("burn__candle_id", "pool_width_mm", "burn__number")
    )
    return {
        candle: f"{width:.10g}\N{NO-BREAK SPACE}mm, burn {number}" for candle, width, number in rows
    }
