"""What a maker writes down: one frozen dataclass each, no behaviour.

Import from here: `from throwbench.records import Burn, Check, Combination, Pour, Score`.
"""

from throwbench.records.attribute import ATTRIBUTES
from throwbench.records.burn import Burn, Check
from throwbench.records.column import Column, column, columns
from throwbench.records.combination import Combination, ThemeMember
from throwbench.records.pour import Pour
from throwbench.records.score import Score

__all__ = [
    "ATTRIBUTES",
    "Burn",
    "Check",
    "Column",
    "Combination",
    "Pour",
    "Score",
    "ThemeMember",
    "column",
    "columns",
]
