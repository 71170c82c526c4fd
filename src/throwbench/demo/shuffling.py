"""Copies of the demo in which nothing is planted any more: the same cells under other names."""

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import replace

import numpy as np

from throwbench.records import Burn, Score

Names = tuple[str, str]


def oils_shuffled(scores: Sequence[Score], rng: np.random.Generator) -> tuple[Score, ...]:
    """Within each assessor, the sniffs under each other's oil and candle.

    The scores of one sniff stay together; how often an assessor met each candle stays as it was.
    """
    return _renamed(
        scores,
        within=[score.assessor for score in scores],
        sniff=[(score.sitting, score.candle) for score in scores],
        names=[(score.candle, score.candidate) for score in scores],
        rename=lambda score, name: replace(score, candle=name[0], candidate=name[1]),
        rng=rng,
    )


def noses_shuffled(scores: Sequence[Score], rng: np.random.Generator) -> tuple[Score, ...]:
    """Within each evening's candle, the sniffs under each other's assessor and sitting."""
    return _renamed(
        scores,
        within=[(score.candle, score.sitting.removesuffix(score.assessor)) for score in scores],
        sniff=[(score.sitting, score.candle) for score in scores],
        names=[(score.assessor, score.sitting) for score in scores],
        rename=lambda score, name: replace(score, assessor=name[0], sitting=name[1]),
        rng=rng,
    )


def burns_shuffled(burns: Sequence[Burn], rng: np.random.Generator) -> tuple[Burn, ...]:
    """Each burn in the place of another: what was seen in it goes to any candle's log."""
    order = rng.permutation(len(burns))
    return tuple(
        replace(burns[old], candle=place.candle, burn=place.burn)
        for old, place in zip(order, burns, strict=True)
    )


def _renamed(
    scores: Sequence[Score],
    *,
    within: Sequence[Hashable],
    sniff: Sequence[Names],
    names: Sequence[Names],
    rename: Callable[[Score, Names], Score],
    rng: np.random.Generator,
) -> tuple[Score, ...]:
    """The scores with the names of their sniffs dealt anew within each block."""
    new: dict[Names, Names] = {}
    for block in dict.fromkeys(within):
        rows = [row for row, this in enumerate(within) if this == block]
        sniffs = _once(sniff[row] for row in rows)
        old = dict(zip((sniff[row] for row in rows), (names[row] for row in rows), strict=True))
        dealt = rng.permutation(len(sniffs))
        new |= {this: old[sniffs[other]] for this, other in zip(sniffs, dealt, strict=True)}
    return tuple(rename(score, new[key]) for score, key in zip(scores, sniff, strict=True))


def _once(keys: Iterable[Names]) -> list[Names]:
    return list(dict.fromkeys(keys))
