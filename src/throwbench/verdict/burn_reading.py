"""One candle's burn log in figures: rate, heat, melt pools and the hours that are left."""

from collections.abc import Sequence
from dataclasses import dataclass

from throwbench.records import Burn, Combination
from throwbench.rules.turn import Turn, in_turn, last_wax
from throwbench.science.burn import (
    BurnRate,
    CandleRate,
    burn_rate,
    candle_rate,
    difference_sd,
    hours_between,
    remaining_h,
)
from throwbench.science.heat import HEAT_DOUBT, heat_release_w
from throwbench.science.pool import NOT_KNOWN
from throwbench.science.words import counted, duration, plain
from throwbench.verdict.full_pool import BurnPool, pool_of

CLOCK_STEP_H = 1 / 60
"""Lighting and putting out are written down to the minute."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RateOfBurn:
    """The rate of one burn; the first is shown and not judged."""

    burn: int
    judged: bool
    hours: float
    rate: BurnRate


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnReading:
    """What the log of one candle says in figures. None is not known, and `notes` says why."""

    candle: str
    burns: int
    hours: float
    rates: tuple[RateOfBurn, ...]
    rate: CandleRate | None
    heat_w: float | None
    heat_sd_w: float | None
    """Doubt of the rate and of the published heat release together."""
    pools: tuple[BurnPool, ...]
    vessel_rise_c: float | None
    """Hottest outside of the vessel above its room."""
    wax_left_mm: float | None
    remaining_h: float | None
    notes: tuple[str, ...]

    def sentence(self) -> str:
        parts = [f"{self.candle}: {counted(self.burns, 'burn')}, {duration(self.hours)}"]
        if self.rate:
            parts.append(self.rate.sentence())
        if self.heat_w is not None and self.heat_sd_w is not None:
            parts.append(f"heat {self.heat_w:.0f} ± {self.heat_sd_w:.0f} W")
        if self.vessel_rise_c is not None:
            parts.append(f"vessel up to {plain(self.vessel_rise_c)} °C above the room")
        if self.remaining_h is not None:
            hours = f"about {self.remaining_h:.0f} h to the end line"
            parts.append(hours if self.remaining_h else "at its end line")
        return "; ".join((*parts, *self.notes)) + "."

    def pool_sentences(self) -> tuple[str, ...]:
        """The melt pool of each burn whose checks tell of it; burns that agree stand together."""
        told: dict[str, list[str]] = {}
        for pool in self.pools:
            if pool.share is not None or pool.to_full != NOT_KNOWN:
                told.setdefault(_pool_words(pool), []).append(str(pool.burn))
        return tuple(
            f"burn{'s' if len(burns) > 1 else ''} {', '.join(burns)}: {words}"
            for words, burns in told.items()
        )


def read_candle(
    candle: str,
    burns: Sequence[Burn],
    *,
    end_mm: float,
    combination: Combination | None = None,
    inside_mm: float | None = None,
) -> BurnReading:
    """The burn log of one candle in figures.

    Parameters
    ----------
    candle : its code
    burns : its burns, in any order; none gives a reading without figures
    end_mm : end line [mm]
    combination : what it is made of, where known
    inside_mm : inside diameter [mm]; the combination's own stands above it

    Notes
    -----
    A burn without both masses or without the step of the scale gives no rate; one that is
    heavier after than before is named and not counted. The remaining hours need the wax left and
    the wax when new (g and mm).

    Checked against: definition.
    """
    turns = in_turn(burns, combination) if burns else ()
    own_mm = combination.inside_mm if combination else None
    rates, notes = _rates(turns)
    rate = candle_rate([item.rate for item in rates if item.judged])
    heat_w = heat_release_w(rate_g_h=rate.rate_g_h) if rate else None
    wax = last_wax(turns)
    return BurnReading(
        candle=candle,
        burns=len(turns),
        hours=sum(_hours(turn.burn) for turn in turns),
        rates=rates,
        rate=rate,
        heat_w=heat_w,
        heat_sd_w=_heat_sd(rate),
        pools=tuple(pool_of(turn.burn, inside_mm=own_mm or inside_mm) for turn in turns),
        vessel_rise_c=_rise(turns),
        wax_left_mm=wax.mm if wax else None,
        remaining_h=_remaining(rate, wax.mm if wax else None, end_mm, combination),
        notes=notes,
    )


def _rates(turns: Sequence[Turn]) -> tuple[tuple[RateOfBurn, ...], tuple[str, ...]]:
    rates, notes = [], []
    for turn in turns:
        burn = turn.burn
        before, after, step = burn.mass_before_g, burn.mass_after_g, burn.scale_step_g
        if before is None or after is None:
            continue
        if after > before:
            notes.append(f"burn {burn.burn} is heavier after than before: not counted")
        elif step is None:
            notes.append(f"burn {burn.burn}: the step of the scale is not known: not counted")
        else:
            rate = burn_rate(
                mass_before_g=before,
                mass_after_g=after,
                hours=_hours(burn),
                scale_step_g=step,
                hours_sd=difference_sd(step=CLOCK_STEP_H),
            )
            found = RateOfBurn(burn=burn.burn, judged=turn.judged, hours=_hours(burn), rate=rate)
            rates.append(found)
    return tuple(rates), tuple(notes)


def _heat_sd(rate: CandleRate | None) -> float | None:
    if rate is None:
        return None
    of_rate = heat_release_w(rate_g_h=rate.sd_g_h)
    of_heat = HEAT_DOUBT * heat_release_w(rate_g_h=rate.rate_g_h)
    return float((of_rate**2 + of_heat**2) ** 0.5)


def _rise(turns: Sequence[Turn]) -> float | None:
    rises = [
        check.vessel_c - turn.burn.room_c
        for turn in turns
        if turn.burn.room_c is not None
        for check in turn.burn.checks
        if check.vessel_c is not None
    ]
    return max(rises, default=None)


def _remaining(
    rate: CandleRate | None, left_mm: float | None, end_mm: float, made_of: Combination | None
) -> float | None:
    if rate is None or left_mm is None or made_of is None:
        return None
    if made_of.wax_g is None or made_of.wax_mm is None:
        return None
    # Bore and density cancel: a millimetre of this candle weighs wax_g / wax_mm.
    drop_mm_h = rate.rate_g_h * made_of.wax_mm / made_of.wax_g
    return remaining_h(left_mm=left_mm, end_mm=end_mm, drop_mm_h=drop_mm_h)


def _hours(burn: Burn) -> float:
    return hours_between(burn.lit_at, burn.out_at)


def _pool_words(pool: BurnPool) -> str:
    share = "" if pool.share is None else f"{100 * pool.share:.0f} % of the inside diameter"
    full = "" if pool.to_full == NOT_KNOWN else f"full melt pool {pool.to_full.sentence()}"
    return ", ".join(words for words in (share, full) if words)
