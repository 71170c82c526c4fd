"""The table of burns: one line per test candle whose log was read."""

from collections.abc import Mapping, Sequence
from typing import Any

from throwbench.documents.widths import printable
from throwbench.rules.result import CandleLimits
from throwbench.science.pool import NOT_KNOWN
from throwbench.verdict.burn_reading import BurnReading
from throwbench.verdict.result import Verdict

_HEAD = ["Candle", "Oil", "Wick", "Burns", "Hours", "Burn rate, g/h", "Full melt pool", "Limits"]


def burns_table(readings: Sequence[BurnReading], *, verdict: Verdict) -> dict[str, Any] | None:
    """Return the table for the report, or None where no log was read."""
    if not readings:
        return None
    candles = {
        candle.candle: (one.candidate, candle)
        for one in verdict.candidates
        for limits in one.limits
        for candle in limits.candles
    }
    return {"head": _HEAD, "rows": [_row(reading, candles=candles) for reading in readings]}


def _row(reading: BurnReading, *, candles: Mapping[str, tuple[str, CandleLimits]]) -> list[str]:
    """The oil is known from the scores, too, where no file says what the candle is made of."""
    oil, candle = candles.get(reading.candle, ("unknown", None))
    made_of = candle.combination if candle else None
    cells = (
        reading.candle,
        oil,
        (made_of.wick if made_of else None) or "unknown",
        str(reading.burns),
        f"{reading.hours:.1f}",
        _rate(reading),
        _full_pool(reading),
        candle.state if candle else "not yet known",
    )
    return [printable(cell) for cell in cells]


def _rate(reading: BurnReading) -> str:
    rate = reading.rate
    return "not measured" if rate is None else f"{rate.rate_g_h:.2f} ± {rate.sd_g_h:.2f}"


def _full_pool(reading: BurnReading) -> str:
    """Say when the pool was full in the last burn whose checks tell."""
    known = [pool.to_full for pool in reading.pools if pool.to_full != NOT_KNOWN]
    return known[-1].sentence() if known else "not seen"
