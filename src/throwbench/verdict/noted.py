"""What was noted of how candles burn: facts that are put together first and said afterwards."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from throwbench.science.pool import NOT_KNOWN
from throwbench.science.words import counted, duration, plain
from throwbench.verdict.full_pool import CHECK_LATE_H, BurnPool

TUNNELS = "tunnels"


@dataclass(frozen=True, slots=True, kw_only=True)
class Noted:
    """Of one candle, or of several on one wick: `pools` of the burns judged for their melt pool.

    `mushrooms` of `looked` burns had a clear or large one. `depths_mm` of the melt pools where a
    candle's mean is above the hint.
    """

    burns: int = 0
    tunnels: bool = False
    pools: tuple[BurnPool, ...] = ()
    mushrooms: int = 0
    looked: int = 0
    frosting: bool = False
    wet_spots: bool = False
    depths_mm: tuple[float, ...] = ()

    def words(self) -> tuple[str, ...]:
        """Each fact once; nothing for candles that were never burned."""
        if not self.burns:
            return ()
        grown = f"mushrooms in {self.mushrooms} of {counted(self.looked, 'burn')}"
        return (
            *((TUNNELS,) if self.tunnels else ()),
            *_pool_words([pool for pool in self.pools if pool.to_full != NOT_KNOWN]),
            *((grown,) if self.mushrooms else ()),
            *(("frosting",) if self.frosting else ()),
            *(("wet spots",) if self.wet_spots else ()),
            *((self._deep(),) if self.depths_mm else ()),
        )

    def _deep(self) -> str:
        burns = counted(len(self.depths_mm), "burn")
        mean = f"{plain(fmean(self.depths_mm))} mm, mean of {burns}"
        return f"melt pool depth {mean}: a hint that the wick is large"


def together(found: Sequence[Noted]) -> Noted:
    """The facts of several candles as one: burns are added up, and what one shows they show."""
    return Noted(
        burns=sum(one.burns for one in found),
        tunnels=any(one.tunnels for one in found),
        pools=tuple(pool for one in found for pool in one.pools),
        mushrooms=sum(one.mushrooms for one in found),
        looked=sum(one.looked for one in found),
        frosting=any(one.frosting for one in found),
        wet_spots=any(one.wet_spots for one in found),
        depths_mm=tuple(depth for one in found for depth in one.depths_mm),
    )


def _pool_words(pools: Sequence[BurnPool]) -> tuple[str, ...]:
    """One range for all burns whose pool was full, one word for those where it was not."""
    if not pools:
        return ("full melt pool not yet judged",)
    full = [pool for pool in pools if pool.to_full.by_h is not None]
    not_full = [pool for pool in pools if pool.to_full.by_h is None]
    said = [(_full(full), full)] if full else []
    if not_full:
        said.append((f"not full by {duration(min(map(_until_h, not_full)))}", not_full))
    if len(said) == 1:
        return (said[0][0],)
    return tuple(f"{words} in {len(those)} of {len(pools)} burns" for words, those in said)


def _full(pools: Sequence[BurnPool]) -> str:
    afters = [pool.to_full.after_h for pool in pools]
    by_h = max(pool.to_full.by_h or 0.0 for pool in pools)
    known = [after for after in afters if after is not None]
    if len(known) < len(afters):
        return f"full melt pool by {duration(by_h)}{_late(pools)}"
    return f"full melt pool after {plain(min(known))} to {plain(by_h)} h{_late(pools)}"


def _late(pools: Sequence[BurnPool]) -> str:
    late = [pool for pool in pools if pool.late]
    if not late:
        return ""
    rule = " or ".join(sorted({f"{pool.rule_h}" for pool in late}))
    some = "" if len(late) == len(pools) else f"{len(late)} of {len(pools)} times "
    return f", {some}later than the time rule ({rule} h)"


def _until_h(pool: BurnPool) -> float:
    """The hour of the time rule where it was looked at by then; else the last check."""
    after_h = pool.to_full.after_h or 0.0
    if pool.rule_h is not None and after_h >= pool.rule_h - CHECK_LATE_H:
        return pool.rule_h
    return after_h
