"""The table of burns: one line per test candle."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from throwbench.documents.widths import printable

_HEAD = ["Candle", "Oil", "Wick", "Burn rate, g/h", "Full melt pool after", "Flame, mm", "Soot"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnLine:
    """What the burns of one test candle came to. None: not measured, and said so."""

    candle: str
    oil: str
    wick: str | None
    rate_g_h: float | None
    rate_sd_g_h: float | None
    full_pool_h: float | None
    flame_mm: float | None
    soot: str


def burns_table(lines: Sequence[BurnLine]) -> dict[str, Any] | None:
    """Return the table for the report, or None where there is no candle to tell of."""
    if not lines:
        return None
    return {"head": _HEAD, "rows": [_row(line) for line in lines], "note": ""}


def _row(line: BurnLine) -> list[str]:
    return [
        printable(line.candle),
        printable(line.oil),
        printable(line.wick or "unknown"),
        _rate(line),
        "not reached" if line.full_pool_h is None else hours(line.full_pool_h),
        "not measured" if line.flame_mm is None else f"{line.flame_mm:.0f}",
        printable(line.soot),
    ]


def _rate(line: BurnLine) -> str:
    if line.rate_g_h is None:
        return "not measured"
    doubt = "" if line.rate_sd_g_h is None else f" ± {line.rate_sd_g_h:.1f}"
    return f"{line.rate_g_h:.1f}{doubt}"


def hours(duration_h: float) -> str:
    """'2 h 05': a duration in hours and minutes."""
    minutes = round(duration_h * 60)
    return f"{minutes // 60} h {minutes % 60:02d}"
