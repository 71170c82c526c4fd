"""What trials are read as: records for the core, rows for the pages."""

from throwbench.workshop.trials.selectors.burns import burns_of, lit_now
from throwbench.workshop.trials.selectors.made_of import (
    candle_named,
    candles_of,
    combination_of,
    combinations_of,
    theme_of,
)

__all__ = [
    "burns_of",
    "candle_named",
    "candles_of",
    "combination_of",
    "combinations_of",
    "lit_now",
    "theme_of",
]
