"""Derivatives by central differences, every neighbour evaluated in one batch."""

from collections.abc import Callable

import numpy as np

from throwbench.science.sensory.likelihood import Array

Objective = Callable[[Array], Array]
"""(batch, k) points to (batch,) values."""


def value_and_gradient(objective: Objective, point: Array, *, width: float) -> tuple[float, Array]:
    """The objective and its gradient at one point (k,), from one batch of 2 k + 1.

    Checked against: a quadratic, for which central differences are exact (tests).
    """
    k = len(point)
    moves = np.vstack([np.zeros(k), width * np.eye(k), -width * np.eye(k)])
    values = objective(point + moves)
    return float(values[0]), (values[1 : k + 1] - values[k + 1 :]) / (2.0 * width)


def hessian(objective: Objective, point: Array, *, width: float) -> Array:
    """The (k, k) second derivatives at one point, from one batch of 1 + k (k + 1).

    Notes
    -----
    2 h^2 f_ij = f(+i +j) + f(-i -j) - f(+i) - f(-i) - f(+j) - f(-j) + 2 f, exact to h^2.

    Checked against: a quadratic, and published standard errors (tests).
    """
    k = len(point)
    rows, columns = np.triu_indices(k, 1)
    single = width * np.eye(k)
    double = single[rows] + single[columns]
    moves = np.concatenate([np.zeros((1, k)), single, -single, double, -double])
    values = objective(point + moves)
    here, one, two = values[0], values[1 : 2 * k + 1].reshape(2, k), values[2 * k + 1 :]
    along = one.sum(axis=0) - 2.0 * here
    across = two.reshape(2, -1).sum(axis=0) - 2.0 * here - along[rows] - along[columns]
    full = np.diag(along)
    full[rows, columns] = full[columns, rows] = 0.5 * across
    return np.asarray(full / width**2)
