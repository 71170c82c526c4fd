"""The panels that other programs were run on, by column."""

import csv
from functools import cache

from reading import REFERENCE


def _columns(file: str) -> dict[str, list[str]]:
    with (REFERENCE / file).open(encoding="utf-8", newline="") as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    return {name: [row[name] for row in rows] for name in rows[0]}


@cache
def wine() -> dict[str, list[str]]:
    """Bitterness of wine: 72 ratings by 9 judges (Randall 1989)."""
    return _columns("wine_randall1989.csv")


@cache
def panel() -> dict[str, list[str]]:
    """A simulated panel: 1152 ten-point ratings of 12 scents."""
    return _columns("candle_small.csv")


@cache
def two_oils() -> dict[str, list[str]]:
    """A simulated small panel: 24 five-point scores of 2 oils by 6 assessors."""
    return _columns("two_oils.csv")
