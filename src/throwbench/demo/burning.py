"""The burn log: each candle from its first burn to its end line, or as far as it was burned."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from math import ceil

import numpy as np

from throwbench.demo.events import planted
from throwbench.demo.looking import checks
from throwbench.demo.plan import CANDLES, EMPTY_CUP_G, EVENINGS, WAX_G, WAX_MM, TestCandle
from throwbench.demo.truths import OILS, ROOMS, WICKS
from throwbench.records import Burn

END_MM = 12
FIRST_BURN_SHARE = 0.87
"""The wick is not yet saturated in the first burn."""
RATE_SPREAD = 0.04
LAST_BURN_MM = 15
"""Wax that the last burn needs, to last the hours by which a full melt pool is looked for."""
WORKSHOP_C = 21.0
TRIMS_MM = (5, 5, 5.5, 6)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Slot:
    """When a candle may be lit: the day of May, and the room of a nose burn."""

    day: int
    room: str | None

    def lit_at(self, rng: np.random.Generator) -> datetime:
        hour = 9 if self.room is None else 18
        return datetime(2027, 5, self.day, hour, int(rng.integers(0, 20)))

    @property
    def room_c(self) -> float:
        return WORKSHOP_C if self.room is None else ROOMS[self.room].room_c


def burns(rng: np.random.Generator) -> tuple[Burn, ...]:
    """All burns, candle after candle."""
    return tuple(burn for candle in CANDLES for burn in _log(rng, candle))


def _slots(candle: TestCandle) -> list[_Slot]:
    nose = [
        _Slot(day=evening.day, room=room)
        for evening in EVENINGS
        for room, code in evening.seats()
        if code == candle.code
    ]
    return sorted(
        [*nose, *(_Slot(day=day, room=None) for day in candle.wick_days)], key=lambda s: s.day
    )


def _log(rng: np.random.Generator, candle: TestCandle) -> Iterator[Burn]:
    """Burn after burn, until the days or the wax are used up."""
    wax_g = float(WAX_G)
    for number, slot in enumerate(_slots(candle), start=1):
        if _depth_mm(wax_g) <= END_MM:
            return
        rate_g_h = _rate(rng, candle, number)
        hours = _hours(candle, slot, wax_g, rate_g_h)
        burn = planted(_burn(rng, candle, slot, number, hours))
        lit_h = (burn.out_at - burn.lit_at) / timedelta(hours=1)
        before_g, wax_g = wax_g, wax_g - rate_g_h * lit_h
        left_mm = _depth_mm(wax_g)
        yield replace(
            burn,
            mass_before_g=round(EMPTY_CUP_G + before_g),
            mass_after_g=round(EMPTY_CUP_G + wax_g),
            wax_left_mm=left_mm if number % 3 == 0 or left_mm <= END_MM else None,
        )


def _depth_mm(wax_g: float) -> int:
    """Wax left to the millimetre, as it is measured with a stick."""
    burnt_g = WAX_G - (round(EMPTY_CUP_G + wax_g) - EMPTY_CUP_G)
    return round(WAX_MM * (1 - burnt_g / WAX_G))


def _rate(rng: np.random.Generator, candle: TestCandle, number: int) -> float:
    first = FIRST_BURN_SHARE if number == 1 else 1.0
    return WICKS[candle.wick].rate_g_h * first * float(rng.normal(1.0, RATE_SPREAD))


def _hours(candle: TestCandle, slot: _Slot, wax_g: float, rate_g_h: float) -> float:
    """Three hours with noses, four without; the last burn ends at the check past the end line.

    A burn that would leave too little for the last one to tell of its melt pool is cut short.
    """
    if slot.room:
        return 3.0
    left_mm = (wax_g - 4.0 * rate_g_h) * WAX_MM / WAX_G
    to_the_end_h = (wax_g - END_MM * WAX_G / WAX_MM) / rate_g_h
    if candle.to_the_end and left_mm < LAST_BURN_MM:
        return max(3.0, min(4.0, ceil(to_the_end_h))) if left_mm < END_MM else 3.0
    return 4.0


def _burn(
    rng: np.random.Generator, candle: TestCandle, slot: _Slot, number: int, hours: float
) -> Burn:
    oil = OILS[candle.oil]
    lit_at = slot.lit_at(rng)
    room_c = round(slot.room_c + float(np.clip(rng.normal(0.0, 0.6), -1.4, 1.4)), 1)
    return Burn(
        candle=candle.code,
        burn=number,
        kind="wick" if slot.room is None else "nose",
        lit_at=lit_at,
        out_at=lit_at + timedelta(hours=hours, minutes=int(rng.integers(0, 6))),
        put_out="snuffed",
        room_c=room_c,
        trim_mm=TRIMS_MM[int(rng.integers(0, len(TRIMS_MM)))],
        scale_step_g=1,
        afterglow_s=int(rng.integers(3, 13)),
        relit=False,
        wick_moved=False,
        vessel_damage="none",
        frosting=True if oil.frosting and number > 1 else None,
        wet_spots=True if oil.wet_spots and number > 2 else None,
        checks=checks(rng, candle, number, hours=hours, room_c=room_c),
    )
