"""The best allowed set of m, its loss, and each candidate's chance to belong.

A set is allowed if it holds at most one candidate of each theme. Themes do not overlap, so the
best allowed set is found by keeping the best of each theme and then the best m (a partition
matroid, for which the greedy choice is optimal: Edmonds 1971, Math. Program. 1:127-136).
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from throwbench.verdict.draws import Draws

LOT = 1e-9
"""Steps by which a lot may move a worth: far below any difference that matters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """The pick and its risk. All arrays are per candidate, in the order given.

    chosen : in the pick. belongs : share of draws in which it is in the best allowed set.
    best : share of draws in which its worth is highest. swap_cost : what the expected worth of the
    set falls, in steps, if this one is swapped across the line; None where no swap is possible.
    loss : expected worth of the best allowed set, if all were known, less that of the pick.
    """

    chosen: npt.NDArray[np.bool_]
    belongs: Draws
    best: Draws
    swap_cost: tuple[float | None, ...]
    loss: float


def choose(worth: Draws, *, groups: Sequence[str | None], most: int) -> Pick:
    """The allowed set of `most` with the highest expected worth.

    Parameters
    ----------
    worth : (draws, candidates) in steps.
    groups : theme of each candidate, or None.

    Notes
    -----
    Fewer than `most` are chosen where the themes leave no more. Draws that are worth the same (two
    oils inside the band) are told apart by lot, so that the order of the file gives no advantage.

    Checked against: enumeration of every allowed set (tests).
    """
    told_apart = worth + LOT * np.random.default_rng(0).random(worth.shape)
    mean = worth.mean(axis=0, keepdims=True)
    chosen = best_sets(mean, groups=groups, most=most)[0]
    ideal = best_sets(told_apart, groups=groups, most=most)
    loss = (worth * ideal).sum(axis=1).mean() - float((mean[0] * chosen).sum())
    winner = np.bincount(told_apart.argmax(axis=1), minlength=worth.shape[1])
    costs = tuple(_swap_cost(mean[0], chosen, groups, most, this) for this in range(worth.shape[1]))
    return Pick(
        chosen=chosen,
        belongs=ideal.mean(axis=0),
        best=winner / len(worth),
        swap_cost=costs,
        loss=max(0.0, float(loss)),
    )


def best_sets(worth: Draws, *, groups: Sequence[str | None], most: int) -> npt.NDArray[np.bool_]:
    """(draws, candidates): which are in the best allowed set of each draw."""
    standing = worth.copy()
    for theme in {group for group in groups if group is not None}:
        members = np.flatnonzero([group == theme for group in groups])
        best = members[worth[:, members].argmax(axis=1)]
        standing[:, members] = -np.inf
        standing[np.arange(len(worth)), best] = worth[np.arange(len(worth)), best]
    order = np.argsort(-standing, axis=1, kind="stable")[:, :most]
    inside = np.zeros(worth.shape, dtype=bool)
    np.put_along_axis(inside, order, True, axis=1)
    return inside & np.isfinite(standing)


def _swap_cost(
    mean: Draws,
    chosen: npt.NDArray[np.bool_],
    groups: Sequence[str | None],
    most: int,
    this: int,
) -> float | None:
    """Leave a chosen one out, or take one that was not chosen in, and see what it costs."""
    allowed = np.ones(len(mean), dtype=bool)
    allowed[this] = False
    if not chosen[this] and groups[this] is not None:
        allowed &= np.array([group != groups[this] for group in groups])
    seats = most if chosen[this] else most - 1
    others = np.flatnonzero(allowed)
    theirs = [groups[int(i)] for i in others]
    inside = best_sets(mean[None, others], groups=theirs, most=seats)[0]
    if chosen[this] and inside.sum() < chosen.sum():
        return None
    total = float(mean[others][inside].sum()) + (0.0 if chosen[this] else float(mean[this]))
    return float(mean[chosen].sum()) - total
