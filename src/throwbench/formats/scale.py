"""The maker's scale, told from the scores where nobody said it."""

from collections.abc import Iterable

from throwbench.records import Score

FIVE_STEPS = (1, 5)
WIDEST = (0, 10)
"""Without a word on the scale, a score outside this is a slip."""


def scale_of(scores: Iterable[Score]) -> tuple[int, int]:
    """The scale that the scores fit: 1 to 5, else 1 to 10, and from 0 where a 0 was given.

    No score at all fits 1 to 5.
    """
    steps = {item.score for item in scores if item.score is not None}
    if 0 in steps:
        return WIDEST
    return FIVE_STEPS if all(step <= FIVE_STEPS[1] for step in steps) else (1, WIDEST[1])
