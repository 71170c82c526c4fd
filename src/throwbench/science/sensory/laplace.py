"""Laplace's approximation of an ordinal likelihood over standard normal effects, in batches.

The model of one batch member: each score lies between A = a0 + D_A (scale * z) and
B = b0 + D_B (scale * z), with z standard normal. `a0`, `b0` and `scale` differ between the members
of a batch (points of a grid, neighbours for a finite difference); the data do not.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from throwbench.science.sensory.arrow import Arrow
from throwbench.science.sensory.design import Design
from throwbench.science.sensory.likelihood import Array, log_chance, slopes


class NotSettledError(ArithmeticError):
    """The mode was not found; says after how many steps."""


@dataclass(frozen=True, slots=True)
class Mode:
    """Where the joint density is highest, per batch member.

    z : (batch, p); log_joint : (batch,) log likelihood - |z|^2 / 2; precision : the negative
    Hessian there; log_marginal : (batch,) Laplace's log integral over z.
    """

    z: Array
    log_joint: Array
    precision: Arrow
    log_marginal: Array


def _log_joint(design: Design, a0: Array, b0: Array, effects: Array, z: Array) -> Array:
    up, low = design.moved(effects)
    each = design.weight * log_chance(design.link, a0 + up, b0 + low)
    total = each.sum(axis=-1) - 0.5 * (z**2).sum(axis=-1)
    return np.asarray(np.where(np.isfinite(total), total, -np.inf))


def _gradient_and_precision(
    design: Design, a0: Array, b0: Array, scale: Array, z: Array
) -> tuple[Array, Arrow]:
    up, low = design.moved(scale * z)
    upper, lower = a0 + up, b0 + low
    d = slopes(design.link, upper, lower)
    precision = design.curvature(d)
    precision *= -scale[:, :, None]
    precision *= scale[:, None, :]
    diagonal = np.arange(z.shape[1])
    precision[:, diagonal, diagonal] += 1.0
    return scale * design.gradient(d) - z, Arrow.of(precision, tail=design.tail)


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

    Checked against: quadrature over one effect, and published fits (tests).
    """

    def joint(z: Array) -> Array:
        return _log_joint(design, a0, b0, scale * z, z)

    z = np.zeros_like(scale) if start is None else start.copy()
    # A start taken from a neighbour may cross two thresholds here; zero never does.
    value = joint(z)
    lost = np.isneginf(value)
    if lost.any():
        z[lost] = 0.0
        value = joint(z)
    for _ in range(most_steps):
        gradient, precision = _gradient_and_precision(design, a0, b0, scale, z)
        step = precision.solve(gradient)
        if not step.size or np.abs(step).max() < tolerance:
            return _mode(z, value, precision)
        z, value = _guarded(joint, z, value, step)
    raise NotSettledError(f"the mode was not found in {most_steps} steps")


def _guarded(
    joint: Callable[[Array], Array], z: Array, value: Array, step: Array
) -> tuple[Array, Array]:
    """Take the step, halved where it would go down; a loss at rounding level is let pass."""
    fraction = np.ones((z.shape[0], 1))
    slack = 1e-9 * (1.0 + np.abs(value))
    reached = z + step
    new = joint(reached)
    while (worse := new < value - slack).any():
        fraction[worse] *= 0.5
        reached = z + fraction * step
        new = joint(reached)
    return reached, new


def _mode(z: Array, value: Array, precision: Arrow) -> Mode:
    log_marginal = value - 0.5 * precision.log_det()
    return Mode(z=z, log_joint=value, precision=precision, log_marginal=log_marginal)


def joined(modes: Sequence[Mode]) -> Mode:
    """The members of several batches as one batch."""
    return Mode(
        z=np.concatenate([mode.z for mode in modes]),
        log_joint=np.concatenate([mode.log_joint for mode in modes]),
        precision=Arrow(
            diagonal=np.concatenate([mode.precision.diagonal for mode in modes]),
            reach=np.concatenate([mode.precision.reach for mode in modes]),
            head=np.concatenate([mode.precision.head for mode in modes]),
        ),
        log_marginal=np.concatenate([mode.log_marginal for mode in modes]),
    )
