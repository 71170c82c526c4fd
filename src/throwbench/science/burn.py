"""Burn rate from two weighings, with its doubt, and how long the wax will last."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import inf, pi, sqrt
from statistics import fmean, stdev

from throwbench.science.errors import in_range

FIRST_JUDGED_BURN = 2
"""In the first burn the wick is not yet saturated: it is kept and shown, never judged."""

DEFINITION = "by definition"


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnRate:
    """The rate of one burn. `sd_g_h` is one standard deviation, `bound_g_h` the scale's worst."""

    rate_g_h: float
    sd_g_h: float
    bound_g_h: float

    def sentence(self) -> str:
        return f"{self.rate_g_h:.2f} ± {self.sd_g_h:.2g} g/h"


@dataclass(frozen=True, slots=True, kw_only=True)
class CandleRate:
    """The mean rate of a candle's judged burns. `spread_g_h` is None where one burn is all."""

    rate_g_h: float
    sd_g_h: float
    spread_g_h: float | None
    burns: int

    def sentence(self) -> str:
        rate = f"{self.rate_g_h:.2f} ± {self.sd_g_h:.2g} g/h"
        if self.spread_g_h is None:
            return f"{rate}; one burn: the spread between burns is not known"
        return f"{rate}; from burn to burn it varies by {self.spread_g_h:.2g} g/h"


def hours_between(start: datetime, end: datetime) -> float:
    """Elapsed hours; below zero if the end comes first [h].

    Checked against: definition.
    """
    return (end - start) / timedelta(hours=1)


def difference_sd(*, step: float, repeatability: float = 0.0) -> float:
    """Standard deviation of a difference of two readings of one instrument.

    Parameters
    ----------
    step : of the display [any unit]
    repeatability : standard deviation of one reading, beside the step [the same unit]

    Returns
    -------
    One standard deviation [the same unit].

    Raises
    ------
    OutOfRangeError
        A step that is not above zero, or a repeatability below zero.

    Notes
    -----
    A reading is off by a uniform error of half a step either way, d/√12; two readings give d/√6,
    never more than d. The repeatability r adds √2 r in quadrature.

    References
    ----------
    JCGM 100:2008, resolution of an indication (clause F.2.2.1, number from memory; the value
    follows from the uniform distribution).

    Checked against: definition (standard deviation of scipy's uniform distribution).
    """
    in_range(step, what="The step of the scale", unit="", limits=(1e-9, inf), source=DEFINITION)
    in_range(repeatability, what="The repeatability", unit="", limits=(0, inf), source=DEFINITION)
    return sqrt(step**2 / 6 + 2 * repeatability**2)


def burn_rate(
    *,
    mass_before_g: float,
    mass_after_g: float,
    hours: float,
    scale_step_g: float,
    repeatability_g: float = 0.0,
    hours_sd: float = 0.0,
) -> BurnRate:
    """Wax burnt per hour in one burn, with the doubt of the two weighings and of the clock.

    Parameters
    ----------
    mass_before_g, mass_after_g : the candle, on one scale [g]
    hours : lit [h]
    scale_step_g : step of the scale [g]
    repeatability_g : standard deviation of one weighing beside the step [g]
    hours_sd : one standard deviation of the time [h]

    Raises
    ------
    OutOfRangeError
        No time lit, a candle heavier after than before, or a step not above zero.

    Notes
    -----
    rate = (before - after) / hours; sd² = (d²/6 + 2 r²) / hours² + (rate sd(hours) / hours)².
    The bound is what the step alone can do at worst, d / hours.
    No wax burnt at all is a rate of zero with the scale's doubt.

    References
    ----------
    JCGM 100:2008, law of propagation of uncertainty.

    Checked against: definition (24 g in 4 h at 1 g and 0.1 g, 6 g in 1 h at 1 g; 540 g to 350 g
    in 40 h).
    """
    in_range(hours, what="The time lit", unit="h", limits=(1 / 3600, inf), source=DEFINITION)
    in_range(
        mass_after_g,
        what="The mass after the burn",
        unit="g",
        limits=(0, mass_before_g),
        source="a candle does not gain wax by burning",
    )
    rate = (mass_before_g - mass_after_g) / hours
    scale = difference_sd(step=scale_step_g, repeatability=repeatability_g) / hours
    clock = rate * hours_sd / hours
    return BurnRate(rate_g_h=rate, sd_g_h=sqrt(scale**2 + clock**2), bound_g_h=scale_step_g / hours)


def candle_rate(rates: Sequence[BurnRate]) -> CandleRate | None:
    """The mean rate of a candle's judged burns (the second and later), with its doubt.

    Returns
    -------
    None for no burn. For one burn the doubt is that of the scale alone, and is said to be so.

    Notes
    -----
    sd = √(s²/n + scale²/n), s the spread of the burns, scale² the mean of their variances. The
    spread holds the scale's share already; adding it again keeps two burns that agree by luck
    from looking exact.

    Checked against: definition.
    """
    if not rates:
        return None
    n = len(rates)
    scale_variance = fmean(rate.sd_g_h**2 for rate in rates)
    spread = stdev(rate.rate_g_h for rate in rates) if n > 1 else None
    return CandleRate(
        rate_g_h=fmean(rate.rate_g_h for rate in rates),
        sd_g_h=sqrt(((spread or 0.0) ** 2 + scale_variance) / n),
        spread_g_h=spread,
        burns=n,
    )


def level_drop_mm_h(*, rate_g_h: float, inside_mm: float, density_g_ml: float) -> float:
    """How fast the level of the wax falls in a straight vessel [mm/h].

    Parameters
    ----------
    rate_g_h : burn rate [g/h]
    inside_mm : inside diameter [mm]
    density_g_ml : of the wax, solid [g/ml]

    Raises
    ------
    OutOfRangeError
        A rate below zero, a diameter or a density not above zero.

    Notes
    -----
    rate / (density π d²/4). For a freestanding taper it is the regression of its top.

    Checked against: definition (6.30 g/h, 0.90 g/cm³, 21 mm: 20.2 mm/h).
    """
    in_range(rate_g_h, what="The burn rate", unit="g/h", limits=(0, inf), source=DEFINITION)
    in_range(inside_mm, what="The diameter", unit="mm", limits=(1e-3, inf), source=DEFINITION)
    in_range(density_g_ml, what="The density", unit="g/ml", limits=(1e-3, inf), source=DEFINITION)
    area_cm2 = pi * (inside_mm / 10) ** 2 / 4
    return rate_g_h / (density_g_ml * area_cm2) * 10


def wax_left_mm(*, burnt_g: float, wax_g: float, wax_mm: float) -> float:
    """Depth of wax left in a straight vessel, from the wax burnt so far [mm].

    Parameters
    ----------
    burnt_g : burnt since new [g]
    wax_g : wax and oil when new [g]
    wax_mm : depth of wax when new [mm]

    Raises
    ------
    OutOfRangeError
        More burnt than was poured, nothing poured, or a depth when new that is not above zero.

    Notes
    -----
    Bore and density cancel: one millimetre weighs wax_g / wax_mm. In a vessel that narrows
    downwards the true depth is greater.

    Checked against: definition.
    """
    in_range(wax_g, what="The wax poured", unit="g", limits=(1e-3, inf), source=DEFINITION)
    in_range(wax_mm, what="The wax when new", unit="mm", limits=(1e-3, inf), source=DEFINITION)
    in_range(
        burnt_g,
        what="The wax burnt",
        unit="g",
        limits=(0, wax_g),
        source="no more can burn than was poured",
    )
    return wax_mm * (1 - burnt_g / wax_g)


def remaining_h(*, left_mm: float, end_mm: float, drop_mm_h: float) -> float | None:
    """Hours to the end line at the present rate [h]; 0 at or below it, None if nothing burns.

    Parameters
    ----------
    left_mm : depth of wax left [mm]
    end_mm : depth at which the candle is put away [mm]
    drop_mm_h : fall of the level [mm/h]

    Raises
    ------
    OutOfRangeError
        A fall below zero.

    Notes
    -----
    A straight line. The trade warns against it: the rate rises near the bottom, so it says too
    much rather than too little.

    Checked against: common practice (8 oz candle, 0.6 oz in 3 h: 40 h).
    """
    in_range(drop_mm_h, what="The fall of the wax", unit="mm/h", limits=(0, inf), source=DEFINITION)
    if left_mm <= end_mm:
        return 0.0
    return (left_mm - end_mm) / drop_mm_h if drop_mm_h else None
