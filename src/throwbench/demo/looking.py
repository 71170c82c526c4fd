"""The hourly checks of one burn: some figures measured, most things seen, nothing copied."""

import numpy as np

from throwbench.demo.plan import INSIDE_MM, TestCandle
from throwbench.demo.truths import OILS, TAU_H, WICKS
from throwbench.records import Check
from throwbench.science.pool import free_pool_mm

FIRST_BURN_SHARE = 0.95
"""The melt pool of the first burn is smaller."""
POOL_SPREAD = 0.02
RULER_MM = 1.0
FULL_FROM_MM = 67.0
WARMER_C = 21.0
"""How much warmer than the room the vessel is early in its life."""


def checks(
    rng: np.random.Generator, candle: TestCandle, number: int, *, hours: float, room_c: float
) -> tuple[Check, ...]:
    """One check an hour on the hour, the last one just before the candle is put out."""
    at_h = list(range(1, round(hours) + 1))
    pools = _pools(rng, candle, number, at_h)
    soot = _soot(rng, candle)
    mushroom = "clear" if rng.random() < OILS[candle.oil].mushrooms else "none"
    found = []
    for place, (check_h, width_mm) in enumerate(zip(at_h, pools, strict=True)):
        first, last = place == 0, place == len(at_h) - 1
        full = width_mm >= INSIDE_MM
        was_full = not first and pools[place - 1] >= INSIDE_MM
        found.append(
            Check(
                check_h=check_h,
                no_change=None if first or last else True,
                pool_width_mm=None if was_full and not last else width_mm,
                pool_full=None if was_full and not last else full,
                pool_depth_mm=_depth(rng, candle) if last else None,
                flame="under" if first or last else None,
                flame_mm=_flame(rng, candle) if place == 1 else None,
                flare_up="none" if first or last else None,
                vessel_c=_vessel(rng, candle, number, room_c) if last else None,
                soot=soot if last else "none" if first else None,
                mushroom=mushroom if last else "none" if first else None,
            )
        )
    return tuple(found)


def _pools(rng: np.random.Generator, candle: TestCandle, number: int, at_h: list[int]) -> list[int]:
    """Widths to the millimetre; a pool only grows, and the wall stops it."""
    share = (FIRST_BURN_SHARE if number == 1 else 1.0) * float(rng.normal(1.0, POOL_SPREAD))
    widest_mm = WICKS[candle.wick].widest_mm * share
    widths: list[int] = []
    for check_h in at_h:
        free_mm = free_pool_mm(hours=check_h, widest_mm=widest_mm, tau_h=TAU_H)
        read_mm = free_mm + float(rng.normal(0.0, RULER_MM))
        full = free_mm >= FULL_FROM_MM
        width_mm = INSIDE_MM if full else min(round(read_mm), INSIDE_MM - 1)
        widths.append(max([width_mm, *widths[-1:]]))
    return widths


def _soot(rng: np.random.Generator, candle: TestCandle) -> str:
    heavy = OILS[candle.oil].soot_on.get(candle.wick, 0.0)
    chance = float(rng.random())
    if chance < heavy:
        return "heavy"
    return "trace" if chance > 0.9 else "none"


def _depth(rng: np.random.Generator, candle: TestCandle) -> int:
    return round(WICKS[candle.wick].depth_mm + float(rng.normal(0.0, 0.8)))


def _flame(rng: np.random.Generator, candle: TestCandle) -> int:
    return round(WICKS[candle.wick].flame_mm + float(rng.normal(0.0, 2.0)))


def _vessel(rng: np.random.Generator, candle: TestCandle, number: int, room_c: float) -> int:
    """It grows hotter towards the end of the candle, and with the burn rate."""
    rise_c = WARMER_C * WICKS[candle.wick].rate_g_h / 5.6 + 1.3 * number
    return round(room_c + rise_c + float(rng.normal(0.0, 1.5)))
