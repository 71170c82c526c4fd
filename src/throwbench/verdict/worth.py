"""What a candidate is worth, draw by draw."""

from collections.abc import Sequence

import numpy as np

from throwbench.records import Score
from throwbench.science.errors import UnclearError
from throwbench.verdict.draws import Draws
from throwbench.verdict.result import Band
from throwbench.verdict.scent import Scent
from throwbench.verdict.words import listed


def worth(
    liking: Scent | None, hot_throw: Scent | None, *, bands: Sequence[Band], outside: float
) -> tuple[Draws, str]:
    """(draws, candidates) in steps, and the words that say how it was worked out.

    The average nose's expected liking, less `outside` steps per step that its expected hot throw
    lies outside the band (the mean over the rooms that have one). Without liking the second part
    alone; without a band expected liking; with neither expected hot throw.

    Raises
    ------
    UnclearError
        Neither liking nor hot throw was scored.
    """
    if hot_throw is not None and bands:
        miss = outside * outside_bands(hot_throw, bands)
        words = f"{outside:g} step less per step of hot throw outside its band"
        if liking is not None:
            return liking.expected() - miss, f"expected liking, {words}"
        return -miss, f"no liking was scored: hot throw alone, {words}"
    if liking is not None:
        why = "no hot throw counts" if bands else "no band for hot throw was given"
        return liking.expected(), f"expected liking; {why}"
    if hot_throw is not None:
        return hot_throw.expected(), (
            "expected hot throw; no liking was scored and no band was given"
        )
    raise UnclearError(
        "No score of liking or hot throw counts.",
        "A pick needs one of the two.",
        "Score one of them in a nose burn after the cure.",
    )


def demand_bands(bands: Sequence[Band], scores: Sequence[Score], *, scale: tuple[int, int]) -> None:
    """A band lies on the scale, and holds for a room in which a score was given.

    Raises
    ------
    UnclearError
        A band off the scale, twice for one room, or for a room that none of the scores names.
    """
    rooms = dict.fromkeys(score.room for score in scores if score.room)
    if len({band.room for band in bands}) < len(bands):
        raise UnclearError(
            "Two bands are given for the same room.",
            "Each room has one, and so has a band without a room.",
            "Leave one of them out.",
        )
    for band in bands:
        if not scale[0] <= band.low < band.high <= scale[1]:
            raise UnclearError(
                f"The band {band.low:g} to {band.high:g} does not lie on the scale.",
                f"The scale is {scale[0]} to {scale[1]}.",
                "Give a band within it, or name the scale.",
            )
        if band.room is not None and band.room not in rooms:
            raise UnclearError(
                f"A band is given for {band.room}, and no score that counts is from there.",
                f"The rooms are {listed(tuple(rooms))}." if rooms else "No score names a room.",
                "Name a room as the scores spell it, or give the band without one.",
            )


def outside_bands(scent: Scent, bands: Sequence[Band]) -> Draws:
    """(draws, candidates) steps by which the expected score lies outside, mean over the bands."""
    return np.asarray(np.mean([_miss(scent, band) for band in bands], axis=0))


def _miss(hot_throw: Scent, band: Band) -> Draws:
    """Steps outside the band; 0 inside."""
    expected = hot_throw.expected(band.room)
    return np.maximum(band.low - expected, 0.0) + np.maximum(expected - band.high, 0.0)
