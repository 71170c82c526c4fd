"""Adaptive Gauss-Hermite quadrature over the levels of one random term."""

import numpy as np
from scipy.special import logsumexp

from throwbench.science.sensory.factor import Factor
from throwbench.science.sensory.laplace import Mode
from throwbench.science.sensory.likelihood import Array, Link, log_chance


def integrate_one_term(
    mode: Mode, term: Factor, link: Link, *, a0: Array, b0: Array, scale: Array, nodes: int
) -> Array:
    """Log of the likelihood with one term's effects integrated out.

    Parameters
    ----------
    mode : where each level's effect is likeliest; with one term its precision is diagonal.
    a0, b0 : (batch, n) thresholds; scale : (batch, levels); nodes : number of nodes per level.

    Returns
    -------
    (batch,) log likelihood.

    Notes
    -----
    Nodes are centred at the mode of each level and spread by its curvature (Pinheiro and Bates
    1995). One node is Laplace's approximation.

    Checked against: the ordinal package's clmm2 tutorial, 10 nodes (tests/reference).
    """
    x, weight = np.polynomial.hermite.hermgauss(nodes)
    spread = np.sqrt(2.0 / mode.precision.diagonal)
    terms = []
    for node, log_weight in zip(x, np.log(weight), strict=True):
        z = mode.z + spread * node
        move = (scale * z)[:, term.of_row]
        log_p = log_chance(link, a0 - move, b0 - move)
        terms.append(_by_level(log_p, term) - 0.5 * z**2 + node**2 + log_weight)
    per_level = logsumexp(np.array(terms), axis=0) + np.log(spread) - 0.5 * np.log(2.0 * np.pi)
    return np.asarray(per_level.sum(axis=1))


def _by_level(log_p: Array, term: Factor) -> Array:
    """Sum the scores of each level: (batch, n) to (batch, levels)."""
    return np.asarray(log_p @ term.indicator())
