"""Limits as dated data, and what they say of a burn log.

Import from here: `from throwbench.rules import judge, limits_on`.
"""

from throwbench.rules.judge import judge
from throwbench.rules.limit import Limit, columns_that_break, figure_of, limits_on
from throwbench.rules.rule import newest_figure
from throwbench.rules.turn import by_candle

__all__ = [
    "Limit",
    "by_candle",
    "columns_that_break",
    "figure_of",
    "judge",
    "limits_on",
    "newest_figure",
]
