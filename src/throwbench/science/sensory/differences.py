"""Derivatives by central differences, every neighbour evaluated in one batch."""

from collections.abc import Callable

import numpy as np

from throwbench.science.sensory.likelihood import Array

Objective = Callable[[Array], Array]
"""(batch, k) points to (batch,) values."""


def value_and_gradient(objective: Objective, point: Array, *, width: float) -> tuple[float, Array]:
    """The objective and its gradient at one point (k,), from one batch of 2 k + 1."""
    k = len(point)
    moves = np.vstack([np.zeros(k), width * np.eye(k), -width * np.eye(k)])
    values = objective(point + moves)
    return float(values[0]), (values[1 : k + 1] - values[k + 1 :]) / (2.0 * width)


def hessian(objective: Objective, point: Array, *, width: float) -> Array:
    """The (k, k) second derivatives at one point, from one batch of four corners a pair."""
    k = len(point)
    rows, columns = np.triu_indices(k)
    corners = np.array([(s, t) for s in (1.0, -1.0) for t in (1.0, -1.0)])
    moves = np.zeros((len(rows), 4, k))
    pair = np.arange(len(rows))
    for corner, (s, t) in enumerate(corners):
        moves[pair, corner, rows] += width * s
        moves[pair, corner, columns] += width * t
    values = objective(point + moves.reshape(-1, k)).reshape(-1, 4)
    second = values @ np.array([1.0, -1.0, -1.0, 1.0]) / (4.0 * width**2)
    full = np.zeros((k, k))
    full[rows, columns] = full[columns, rows] = second
    return full
