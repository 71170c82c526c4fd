"""The files of one trial, read together."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from throwbench.formats.across import questions_across
from throwbench.formats.burns import read_burns
from throwbench.formats.combinations import read_combinations, read_theme
from throwbench.formats.problem import Problem, Reading
from throwbench.formats.scores import read_scores
from throwbench.formats.table import Source
from throwbench.records import Burn, Combination, Score

_NONE: Reading[Any] = Reading(rows=())


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """Scores, burns and what the candles are made of, with everything that is asked about them."""

    scores: tuple[Score, ...]
    burns: tuple[Burn, ...]
    combinations: tuple[Combination, ...]
    groups: Mapping[str, str]
    unread: Mapping[str, str]
    """By candle: what of its burn log could not be read and may hide a broken limit."""
    problems: tuple[Problem, ...]

    @property
    def unused(self) -> tuple[Problem, ...]:
        """Rows that were refused and cells that are held back: they change the answer."""
        return tuple(item for item in self.problems if item.outcome != "asked")


def read_trial(
    scores: Source | None,
    burns: Source | None,
    *,
    candles: Source | None = None,
    one_of: Source | None = None,
    scale: tuple[int, int] | None = None,
    house: Mapping[str, float] | None = None,
) -> Trial:
    """Read the files of a trial and ask about what does not fit; None is a file that is not there.

    `house` has the maker's own limits by rule id.

    Raises
    ------
    UnreadableFile
        If one of them gives no row.
    """
    made_of = _NONE if candles is None else read_combinations(candles)
    theme = _NONE if one_of is None else read_theme(one_of)
    inside = {row.candle: row.inside_mm for row in made_of.rows if row.inside_mm is not None}
    scored = _NONE if scores is None else read_scores(scores, scale=scale)
    burned = _NONE if burns is None else read_burns(burns, inside_mm=inside, house=house)
    between = questions_across(
        scores=scored,
        burns=burned,
        combinations=None if candles is None else made_of,
        theme=theme,
    )
    readings = (scored.problems, burned.problems, made_of.problems, theme.problems, between)
    return Trial(
        scores=scored.rows,
        burns=burned.rows,
        combinations=made_of.rows,
        groups={row.candidate: row.group for row in theme.rows},
        unread=burned.unread,
        problems=tuple(problem for problems in readings for problem in problems),
    )
