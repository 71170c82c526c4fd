"""The melt pool: its share of the vessel, and when it is full."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil, exp, inf, log

from throwbench.science.errors import in_range
from throwbench.science.words import duration, plain

MM_PER_RULE_HOUR = 25.4
LONGEST_RULE_H = 4
TIME_RULE = "common practice: an hour per inch, at most 4 h"
DEFINITION = "by definition"


@dataclass(frozen=True, slots=True, kw_only=True)
class FullPool:
    """When the melt pool was full: after the last check not full, by the first check full."""

    after_h: float | None
    by_h: float | None

    def sentence(self) -> str:
        """An interval, never a midpoint: 'between 2 and 3 h', 'by 1 h', 'more than 4 h'."""
        if self.by_h is None:
            return "not known" if self.after_h is None else f"more than {duration(self.after_h)}"
        if self.after_h is None:
            return f"by {duration(self.by_h)}"
        return f"between {plain(self.after_h)} and {plain(self.by_h)} h"


NOT_KNOWN = FullPool(after_h=None, by_h=None)


def time_to_full(checks: Iterable[tuple[float, bool]]) -> FullPool:
    """Hours to the full melt pool, as far as the checks tell.

    Parameters
    ----------
    checks : pairs of hours since lit [h] and whether the pool was full, in any order

    Returns
    -------
    Both ends None for no check. A check that is not full after one that was is left to the
    reader of the file to ask about; the first full one counts here.

    Checked against: definition.
    """
    in_order = sorted(checks)
    by_h = min((at for at, full in in_order if full), default=None)
    until = inf if by_h is None else by_h
    after_h = max((at for at, full in in_order if not full and at < until), default=None)
    return FullPool(after_h=after_h, by_h=by_h)


def pool_share(*, width_mm: float, inside_mm: float) -> float:
    """Share of the inside diameter that the melt pool spans, 0 to 1.

    Parameters
    ----------
    width_mm : mean of two directions at right angles [mm]
    inside_mm : inside diameter of the vessel [mm]

    Raises
    ------
    OutOfRangeError
        A pool wider than the vessel, or a vessel without width.

    Checked against: definition.
    """
    in_range(
        inside_mm, what="The inside diameter", unit="mm", limits=(1e-3, inf), source=DEFINITION
    )
    in_range(
        width_mm,
        what="The melt pool",
        unit="mm",
        limits=(0, inside_mm),
        source="the inside diameter of the vessel",
        advice="Measure it again, or check the vessel.",
    )
    return width_mm / inside_mm


def time_rule_h(*, inside_mm: float) -> int:
    """The hour by which a full melt pool is looked for [h].

    Parameters
    ----------
    inside_mm : inside diameter of the vessel [mm]

    Raises
    ------
    OutOfRangeError
        A vessel without width.

    Notes
    -----
    An hour per inch of diameter, rounded up to a check, at most 4 h. A rule of quality, not of
    limits, and contested: left-over wax can protect.

    References
    ----------
    common practice.

    Checked against: common practice (58 mm 3 h, 68 mm 3 h, 78 mm 4 h, 90 mm 4 h).
    """
    in_range(inside_mm, what="The inside diameter", unit="mm", limits=(1e-3, inf), source=TIME_RULE)
    return min(LONGEST_RULE_H, ceil(round(inside_mm / MM_PER_RULE_HOUR, 9)))


def free_pool_mm(*, hours: float, widest_mm: float, tau_h: float) -> float:
    """Width of a pool that no wall stops, after some hours [mm].

    Parameters
    ----------
    hours : since lit [h]
    widest_mm : the width it tends to [mm]
    tau_h : time constant [h]

    Raises
    ------
    OutOfRangeError
        A time before lighting, a width below zero, or a time constant not above zero.

    Notes
    -----
    D(t) = Dinf (1 - e^(-t/tau)): a summary of simulated pools (to 0.7 mm, median); no measured
    D(t) was found.

    Checked against: definition (row BU057).
    """
    in_range(hours, what="The time lit", unit="h", limits=(0, inf), source=DEFINITION)
    in_range(widest_mm, what="The widest pool", unit="mm", limits=(0, inf), source=DEFINITION)
    in_range(tau_h, what="The time constant", unit="h", limits=(1e-6, inf), source=DEFINITION)
    return widest_mm * (1 - exp(-hours / tau_h))


def free_pool_full_h(*, inside_mm: float, widest_mm: float, tau_h: float) -> float | None:
    """Hours until a free pool reaches the wall [h]; None where it never does.

    Parameters
    ----------
    inside_mm : inside diameter of the vessel [mm]
    widest_mm : the width the pool tends to [mm]
    tau_h : time constant [h]

    Raises
    ------
    OutOfRangeError
        A vessel without width, a width below zero, or a time constant not above zero.

    Notes
    -----
    t = -tau ln(1 - inside/Dinf). Near the wall it is a knife-edge: 3 % more burn rate can turn
    "never" into "2.2 h", so a clock time alone says too much.

    Checked against: definition (row BU056).
    """
    in_range(
        inside_mm, what="The inside diameter", unit="mm", limits=(1e-3, inf), source=DEFINITION
    )
    in_range(widest_mm, what="The widest pool", unit="mm", limits=(0, inf), source=DEFINITION)
    in_range(tau_h, what="The time constant", unit="h", limits=(1e-6, inf), source=DEFINITION)
    if widest_mm <= inside_mm:
        return None
    return -tau_h * log(1 - inside_mm / widest_mm)
