"""Laplace's approximation of an ordinal likelihood over standard normal effects, in batches.

The model of one batch member: each score lies between A = a0 + D_A (scale * z) and
B = b0 + D_B (scale * z), with z standard normal. `a0`, `b0` and `scale` differ between the members
of a batch (points of a grid, neighbours for a finite difference); the data do not.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from throwbench.science.sensory.likelihood import Array, Link, log_chance, slopes

HALVINGS = 30


class NotSettledError(ArithmeticError):
    """The mode was not found; says after how many steps."""


@dataclass(frozen=True, slots=True)
class Design:
    """How effects move the two thresholds of each score: two (n, p) matrices."""

    upper: Array
    lower: Array
    link: Link


@dataclass(frozen=True, slots=True)
class Mode:
    """Where the joint density is highest, per batch member.

    z : (batch, p); log_joint : (batch,) log likelihood - |z|^2 / 2; precision : (batch, p, p),
    the negative Hessian there; log_marginal : (batch,) Laplace's log integral over z.
    """

    z: Array
    log_joint: Array
    precision: Array
    log_marginal: Array


def _log_joint(design: Design, a0: Array, b0: Array, effects: Array, z: Array) -> Array:
    upper = a0 + effects @ design.upper.T
    lower = b0 + effects @ design.lower.T
    total = log_chance(design.link, upper, lower).sum(axis=-1) - 0.5 * (z**2).sum(axis=-1)
    return np.asarray(np.where(np.isfinite(total), total, -np.inf))


def _cross(left: Array, weight: Array, right: Array) -> Array:
    """left' diag(weight) right for each member: (batch, p, p)."""
    return np.asarray((left.T * weight[:, None, :]) @ right)


def _gradient_and_precision(
    design: Design, a0: Array, b0: Array, scale: Array, z: Array
) -> tuple[Array, Array]:
    upper = a0 + (scale * z) @ design.upper.T
    lower = b0 + (scale * z) @ design.lower.T
    d = slopes(design.link, upper, lower, log_chance(design.link, upper, lower))
    if design.upper is design.lower:
        gradient = (d.a + d.b) @ design.upper
        curvature = _cross(design.upper, d.aa + d.bb + 2.0 * d.ab, design.upper)
    else:
        gradient = d.a @ design.upper + d.b @ design.lower
        mixed = _cross(design.upper, d.ab, design.lower)
        curvature = _cross(design.upper, d.aa, design.upper)
        curvature += _cross(design.lower, d.bb, design.lower)
        curvature += mixed + mixed.transpose(0, 2, 1)
    precision = -curvature * scale[:, :, None] * scale[:, None, :]
    precision += np.eye(z.shape[1])
    return scale * gradient - z, precision


def find_mode(
    design: Design,
    *,
    a0: Array,
    b0: Array,
    scale: Array,
    start: Array | None = None,
    tolerance: float = 1e-9,
    most_steps: int = 100,
) -> Mode:
    """Newton's method with step halving, all members of the batch at once.

    Parameters
    ----------
    a0, b0 : (batch, n); scale : (batch, p); start : (batch, p) or None for zero.

    Raises
    ------
    NotSettledError
        If some member has not come to rest after `most_steps` steps.

    Notes
    -----
    The joint density is log-concave in z for both links, so its mode is the only one.
    """

    def joint(z: Array) -> Array:
        return _log_joint(design, a0, b0, scale * z, z)

    z = np.zeros_like(scale) if start is None else start.copy()
    # A start taken from a neighbour may cross two thresholds here; zero never does.
    z[np.isneginf(joint(z))] = 0.0
    value = joint(z)
    for _ in range(most_steps):
        gradient, precision = _gradient_and_precision(design, a0, b0, scale, z)
        step = np.linalg.solve(precision, gradient[..., None])[..., 0]
        if not step.size or np.abs(step).max() < tolerance:
            return _mode(z, value, precision)
        z, value = _guarded(joint, z, value, np.asarray(step))
    raise NotSettledError(f"the mode was not found in {most_steps} steps")


def _guarded(
    joint: Callable[[Array], Array], z: Array, value: Array, step: Array
) -> tuple[Array, Array]:
    """Take the step, halved where it would go down; a loss at rounding level is let pass."""
    fraction = np.ones((z.shape[0], 1))
    slack = 1e-9 * (1.0 + np.abs(value))
    for _ in range(HALVINGS):
        candidate = z + fraction * step
        new = joint(candidate)
        worse = new < value - slack
        if not worse.any():
            break
        fraction[worse] *= 0.5
    return candidate, new


def _mode(z: Array, value: Array, precision: Array) -> Mode:
    _, log_det = np.linalg.slogdet(precision)
    return Mode(z=z, log_joint=value, precision=precision, log_marginal=value - 0.5 * log_det)
