"""Integrate over a few spreads with a cloud of weighted points.

Each spread is given as a normal score, so its prior is standard normal (see `layout.py`). A cloud
with heavy tails is laid about the likeliest spreads, and each point is weighted by what its density
should be. The points come from an additive recurrence: the same data, the same answer.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.optimize import minimize
from scipy.special import gammaincinv, ndtri

from throwbench.science.sensory.arrow import Arrow
from throwbench.science.sensory.differences import hessian, value_and_gradient
from throwbench.science.sensory.laplace import Mode, joined
from throwbench.science.sensory.likelihood import Array

ModeAt = Callable[[Array, Array | None], Mode]
TAIL = 6.0
"""Degrees of freedom of the cloud's Student t."""
AT_A_TIME = 16


@dataclass(frozen=True, slots=True)
class Cloud:
    """Weighted points (k, spreads), and the mode and precision of everything else at each."""

    points: Array
    weight: Array
    z: Array
    precision: Arrow

    @property
    def effective(self) -> float:
        """Effective number of points, 1 / sum of squared weights."""
        return float(1.0 / np.sum(self.weight**2))


def recurrence(count: int, size: int) -> Array:
    """(count, size) points that fill the unit cube evenly: fractions of i * alpha.

    References
    ----------
    Niederreiter (1992), Random Number Generation and Quasi-Monte Carlo Methods, chapter 4
    (Kronecker sequences); alpha are powers of the root of x^(d+1) = x + 1.

    Checked against: the mean of each coordinate and product (tests).
    """
    root = 2.0
    for _ in range(60):
        root = (1.0 + root) ** (1.0 / (size + 1.0))
    alpha = root ** -np.arange(1.0, size + 1.0)
    return np.asarray((0.5 + np.outer(np.arange(1, count + 1), alpha)) % 1.0)


def explore(mode_at: ModeAt, *, size: int, count: int = 192) -> Cloud:
    """The weighted cloud; `mode_at` gives the mode for (batch, size) normal scores.

    The cloud, in mirrored pairs, is a Student t about the likeliest spreads, as wide as the
    curvature there allows and never wider than the prior.

    Checked against: a normal density, whose mean and spread are known (tests).
    """
    centre, near, covariance = _likeliest(mode_at, size)
    root = np.linalg.cholesky(covariance)
    cube = recurrence(count // 2, size + 1)
    shrink = np.sqrt(2.0 * gammaincinv(0.5 * TAIL, cube[:, size]) / TAIL)
    half = ndtri(cube[:, :size]) / shrink[:, None]
    standard = np.concatenate([half, -half])
    points = centre + standard @ root.T
    found = joined([mode_at(part, np.repeat(near, len(part), axis=0)) for part in _parts(points)])
    log_proposal = -0.5 * (TAIL + size) * np.log1p((standard**2).sum(axis=1) / TAIL)
    return Cloud(
        points=points,
        weight=_normalised(_log_target(found, points) - log_proposal),
        z=found.z,
        precision=found.precision,
    )


def _parts(points: Array) -> list[Array]:
    """A few points at a time: their precisions then stay in the processor's cache."""
    return np.array_split(points, max(1, len(points) // AT_A_TIME))


def _likeliest(mode_at: ModeAt, size: int) -> tuple[Array, Array, Array]:
    """The likeliest normal scores, the mode of everything else there, and a covariance."""
    near: list[Array] = [mode_at(np.zeros((1, size)), None).z]

    def minus_log_target(points: Array) -> Array:
        found = mode_at(points, np.repeat(near[0], len(points), axis=0))
        near[0] = found.z[:1]
        return -_log_target(found, points)

    best = minimize(
        lambda point: value_and_gradient(minus_log_target, point, width=1e-2),
        np.zeros(size),
        jac=True,
        method="BFGS",
        options={"gtol": 1e-2},
    ).x
    near[0] = mode_at(best[None, :], near[0]).z
    curvature, axes = np.linalg.eigh(hessian(minus_log_target, best, width=5e-2))
    return best, near[0], np.asarray((axes / np.maximum(curvature, 1.0)) @ axes.T)


def _log_target(found: Mode, points: Array) -> Array:
    """Log posterior of the spreads; their prior is standard normal."""
    return np.asarray(found.log_marginal - 0.5 * (points**2).sum(axis=1))


def _normalised(log_weight: Array) -> Array:
    weight = np.exp(log_weight - log_weight.max())
    return np.asarray(weight / weight.sum())
