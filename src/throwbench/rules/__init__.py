"""Limits as dated data, and what they say of a burn log.

Import from here: `from throwbench.rules import judge, limits_on`.
"""

from throwbench.rules.judge import judge
from throwbench.rules.limit import Limit, figure_of, limits_on

__all__ = ["Limit", "figure_of", "judge", "limits_on"]
