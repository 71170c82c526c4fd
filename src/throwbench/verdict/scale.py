"""The maker's scale, where nobody named it."""

from collections.abc import Sequence

from throwbench.records import Score
from throwbench.science.errors import UnclearError

FIVE, TEN = 5, 10


def scale_of(scores: Sequence[Score]) -> tuple[int, int]:
    """1 to 5 if every score lies there, else 1 to 10, from 0 if a 0 was given.

    Raises
    ------
    UnclearError
        A score above 10 or below 0: the scale must then be named.
    """
    given = [score.score for score in scores if score.score is not None]
    low = 0 if any(value == 0 for value in given) else 1
    high = max(given, default=FIVE)
    if min(given, default=low) < low or high > TEN:
        raise UnclearError(
            f"Scores run from {min(given)} to {high}.",
            "A scale is 1 to 5, 1 to 10 or 0 to 10 unless it is named.",
            "Name it, for example 0-20.",
        )
    return low, (FIVE if high <= FIVE else TEN)
