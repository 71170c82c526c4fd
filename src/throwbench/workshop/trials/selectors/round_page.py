"""The burn round: every candle that is lit, what was last seen of it, and what is out today."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from throwbench.verdict.words import number
from throwbench.workshop.house.selectors import counted, house_figure
from throwbench.workshop.trials.models import Burn, Check
from throwbench.workshop.trials.selectors.broken import put_out_words, to_be_put_out
from throwbench.workshop.trials.selectors.burns import Lit, lit_now
from throwbench.workshop.trials.times import clock, local_day

JUST_OUT = timedelta(hours=12)


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One lit candle on the round. No oil: the round may be walked by somebody who scores."""

    lit: Lit
    inside_mm: float | None
    last_pool: str
    over: tuple[str, ...]
    """What was seen over a limit: it is put out at once."""

    @property
    def put_out(self) -> str:
        """'Put K2G out now: ...', or nothing."""
        return put_out_words(self.lit.code, self.over) if self.over else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    candles: tuple[Waiting, ...]
    just_out: tuple[Burn, ...]
    now: datetime
    flame_mm: float

    @property
    def put_out(self) -> tuple[str, ...]:
        """What stands at the head until it is out: each candle that broke a limit."""
        return tuple(one.put_out for one in self.candles if one.over)

    @property
    def first_out(self) -> datetime:
        return self.candles[0].lit.burn.out_by_at

    @property
    def is_late(self) -> bool:
        return self.candles[0].lit.is_late

    @property
    def clock_is_behind(self) -> bool:
        return self.candles[0].lit.clock_is_behind

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
    over = to_be_put_out(burns, local_day(now))
    pools = _last_pools(burns)
    out = Burn.objects.filter(out_at__gt=now - JUST_OUT).select_related("candle", "room")
    return Round(
        candles=tuple(
            Waiting(
                lit=one,
                inside_mm=one.burn.candle.combination.vessel.inside_mm,
                last_pool=pools.get(one.burn.candle_id, ""),
                over=over.get(one.burn.pk, ()),
            )
            for one in lit
        ),
        just_out=tuple(out.order_by("-out_at")),
        now=now,
        flame_mm=house_figure("flame-height", local_day(now)),
    )


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
