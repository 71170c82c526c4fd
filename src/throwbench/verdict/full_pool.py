"""The melt pool of one burn against the vessel and the time rule."""

from dataclasses import dataclass

from throwbench.records import Burn, Check
from throwbench.science.pool import FullPool, pool_share, time_rule_h, time_to_full

CHECK_LATE_H = 1 / 6
"""A check ten minutes off its hour still stands for that hour (setting)."""

TUNNEL_SHARE = 0.85
"""A pool narrower than this by the time rule leaves a wall of wax (setting, common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnPool:
    """One burn's melt pool: `share` at the last check, `rule_h` by the time rule.

    `narrow`: less than 85 % of the inside diameter by the time rule. None is not known.
    """

    burn: int
    to_full: FullPool
    share: float | None
    rule_h: int | None
    narrow: bool | None

    @property
    def late(self) -> bool:
        """Full, but only after the hour of the time rule."""
        after_h, by_h = self.to_full.after_h, self.to_full.by_h
        if after_h is None or by_h is None or self.rule_h is None:
            return False
        return after_h >= self.rule_h - CHECK_LATE_H


def pool_of(burn: Burn, *, inside_mm: float | None) -> BurnPool:
    """What the checks of one burn say of its melt pool.

    Parameters
    ----------
    burn : with its checks
    inside_mm : inside diameter of the vessel [mm]; None where it is not known

    Notes
    -----
    A check says "full" by its own word, else by a width that is the vessel's. A width beyond the
    vessel's says nothing, nor does a check without its hour.
    """
    timed = [(check.check_h, check) for check in burn.checks if check.check_h is not None]
    full = [(at, _full(check, inside_mm)) for at, check in timed]
    shares = sorted(
        (at, share) for at, check in timed if (share := _share(check, inside_mm)) is not None
    )
    rule_h = None if inside_mm is None else time_rule_h(inside_mm=inside_mm)
    return BurnPool(
        burn=burn.burn,
        to_full=time_to_full((at, said) for at, said in full if said is not None),
        share=shares[-1][1] if shares else None,
        rule_h=rule_h,
        narrow=None if rule_h is None else _narrow(shares, rule_h),
    )


def _share(check: Check, inside_mm: float | None) -> float | None:
    if check.pool_full:
        return 1.0
    width_mm = check.pool_width_mm
    if width_mm is None or inside_mm is None or width_mm > inside_mm:
        return None
    return pool_share(width_mm=width_mm, inside_mm=inside_mm)


def _full(check: Check, inside_mm: float | None) -> bool | None:
    if check.pool_full is not None:
        return check.pool_full
    share = _share(check, inside_mm)
    return None if share is None else share == 1


def _narrow(shares: list[tuple[float, float]], rule_h: int) -> bool | None:
    by_then = [share for at, share in shares if at <= rule_h + CHECK_LATE_H]
    if any(share >= TUNNEL_SHARE for share in by_then):
        return False
    # A pool only grows: one still narrow after the hour was narrow at it.
    narrow_since = any(at >= rule_h - CHECK_LATE_H and share < TUNNEL_SHARE for at, share in shares)
    return True if narrow_since else None
