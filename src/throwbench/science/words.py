"""Figures, counts and wicks as they stand in a sentence."""

from decimal import Decimal

FIRE_LINE = "Wax on fire: lid on, no water."
"""The short fire line, always the same, wherever wax is melted or a candle lit."""


def plain(value: float) -> str:
    """Two decimals, or three digits below one, never a power of ten: 505.56, 90, 0.55, 0.00005."""
    if abs(value) < 1:
        return f"{Decimal(f'{value:.3g}'):f}"
    return f"{value:.2f}".rstrip("0").rstrip(".")


def duration(hours: float) -> str:
    """A time that passed, to the minute: '1 min', '4 h', '4 h 50'."""
    minutes = round(hours * 60)
    if minutes == 0 and hours > 0:
        return "less than 1 min"
    whole, rest = divmod(minutes, 60)
    if not whole:
        return f"{rest} min"
    return f"{whole} h {rest:02d}" if rest else f"{whole} h"


def measured(value: float, unit: str) -> str:
    """'75 mm'; hours as the time that passed, to the minute."""
    return duration(value) if unit == "h" else f"{plain(value)} {unit}".rstrip()


def to_the_mg(grams: float) -> str:
    """A weight with every digit that a scale showed, down to the milligram: 148.1, 11.848."""
    return f"{round(grams, 3):.12g}"


def counted(count: int, one: str, many: str | None = None) -> str:
    """'1 vessel', '6 vessels'; 'many' where an s is not enough."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def wick_words(wick: str | None) -> str:
    """A wick that is only a number says what it is: 'wick 3'; empty where it is not known."""
    if not wick:
        return ""
    return f"wick {wick}" if wick[0].isdigit() else wick
