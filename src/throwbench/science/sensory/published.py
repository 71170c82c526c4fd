"""Ordinal models fitted by maximum likelihood, as they are published.

P(score <= k) = F(theta_k - eta), eta = fixed effects + random effects. Random effects are
integrated by Laplace's approximation (any number of crossed terms) or by adaptive Gauss-Hermite
quadrature (one term). These fits are for comparison with published tables; the answer to a maker's
question is in `answer.py`.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.optimize import minimize

from throwbench.science.errors import UnclearError
from throwbench.science.sensory.differences import hessian, value_and_gradient
from throwbench.science.sensory.factor import Factor
from throwbench.science.sensory.likelihood import Array, Link
from throwbench.science.sensory.marginal import Estimator, Marginal

SD_AT_BOUND = 1e-3
"""A standard deviation below this is at its bound and reported as 0."""
RUNAWAY = 15.0
"""An effect this large on the scale of the link has no finite maximum: its levels are separated."""


PRIORS_HELP = "Ask for the answer instead: it has priors and can still be given."


class NoFiniteFitError(UnclearError):
    """Maximum likelihood has no finite answer for these scores."""


@dataclass(frozen=True, slots=True)
class Effect:
    """A fixed effect against the reference level, on the scale of the link."""

    estimate: float
    se: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedFit:
    """A fit by maximum likelihood. `random` holds a sd per term, `modes` its likeliest effects."""

    effects: Mapping[str, Mapping[str, Effect]]
    reference: Mapping[str, str]
    random: Mapping[str, float]
    modes: Mapping[str, Mapping[str, float]]
    thresholds: tuple[float, ...]
    threshold_ses: tuple[float, ...]
    log_likelihood: float
    estimator: Estimator
    link: Link
    equidistant: bool
    steps: tuple[int, ...]
    scores: int

    def sentence(self) -> str:
        """The fit in one line."""
        how = {
            "laplace": "random effects by Laplace's approximation",
            "quadrature": "random effects by adaptive quadrature",
        }[self.estimator]
        return (
            f"Maximum likelihood on {self.scores} scores in {len(self.steps)} steps, {self.link}, "
            f"{how if self.random else 'no random term'}: log likelihood "
            f"{self.log_likelihood:.5f}. For comparison with published tables; not a verdict."
        )


def fit(
    score: Sequence[int],
    *,
    fixed: Sequence[Factor] = (),
    random: Sequence[Factor] = (),
    link: Link = "logit",
    equidistant: bool = False,
    estimator: Estimator = "laplace",
    nodes: int = 10,
) -> PublishedFit:
    """Fit a cumulative link (mixed) model by maximum likelihood.

    Parameters
    ----------
    score : (n,) whole steps; the steps that occur are the categories, in ascending order.
    fixed : columns whose levels are contrasted with their first level in file order.
    random : terms with a normal effect per level; crossed terms need the Laplace estimator.
    equidistant : thresholds at equal distances instead of free ones.
    nodes : quadrature nodes per level [1].

    Raises
    ------
    NoFiniteFitError
        One step only, a fixed column with one level, or effects that run away (separation).
    UnclearError
        Quadrature asked for with more than one random term.

    Notes
    -----
    Standard errors come from the Hessian of the log likelihood by thresholds, effects and standard
    deviations. A standard deviation at its bound is 0; where the fit stops there, the other
    estimates are those of the model without that term.

    References
    ----------
    Randall, J. H. (1989), The analysis of sensory data by generalized linear model,
    Biometrical Journal 31:781-793. Christensen, R. H. B., tutorial of the R package ordinal.
    Pinheiro and Bates (1995), J. Comput. Graph. Stat. 4:12-35 (adaptive Gauss-Hermite).

    Checked against: the published fits of the wine bitterness data (tests/reference).
    """
    if estimator == "quadrature" and len(random) > 1:
        raise UnclearError(
            f"Quadrature was asked for {len(random)} random terms.",
            "It takes one.",
            "Use the estimator laplace for crossed terms.",
        )
    _refuse_hopeless(score, fixed)
    marginal = Marginal.of(
        score, fixed=fixed, random=random, link=link, estimator=estimator, nodes=nodes
    )
    equidistant = equidistant and marginal.steps > 2
    point = _climb(marginal, equidistant=equidistant)
    return _report(marginal, point, equidistant=equidistant, fixed=fixed)


def _refuse_hopeless(score: Sequence[int], fixed: Sequence[Factor]) -> None:
    if len(set(score)) < 2:
        raise NoFiniteFitError(
            _alike(score),
            "A fit by maximum likelihood needs at least two different steps.",
            PRIORS_HELP,
        )
    for column in fixed:
        if len(column.levels) < 2:
            raise NoFiniteFitError(
                f"Column {column.name} holds only {column.levels[0]}.",
                "A fixed column needs at least two levels.",
                "Leave it out of the fixed columns.",
            )


def _alike(score: Sequence[int]) -> str:
    if len(score) < 2:
        return f"There is one score, {score[0]}." if score else "There is no score."
    return f"All {len(score)} scores are {score[0]}."


def _cuts(free: Array, steps: int, *, equidistant: bool) -> Array:
    """(batch, steps - 1) thresholds from the first one and the log gaps (or one log gap)."""
    first, gaps = free[:, :1], np.exp(free[:, 1:])
    if equidistant:
        return np.asarray(first + gaps * np.arange(steps - 1))
    return np.hstack([first, first + np.cumsum(gaps, axis=1)])


def _start(marginal: Marginal, *, equidistant: bool) -> Array:
    """Thresholds from the shares below each step; no effects; middling standard deviations."""
    share = np.cumsum(np.bincount(marginal.score))[:-1] / len(marginal.score)
    cut = np.log(share / (1.0 - share))
    gaps = np.log(np.maximum(np.diff(cut), 0.1))
    if equidistant:
        gaps = np.array([gaps.mean()])
    effects = np.zeros(marginal.fixed.shape[1])
    return np.concatenate([cut[:1], gaps, effects, np.full(len(marginal.random), 0.8)])


def _climb(marginal: Marginal, *, equidistant: bool) -> Array:
    """The maximum, as thresholds, effects and standard deviations."""
    start = _start(marginal, equidistant=equidistant)
    free = len(start) - marginal.fixed.shape[1] - len(marginal.random)

    def unfolded(points: Array) -> Array:
        cuts = _cuts(points[:, :free], marginal.steps, equidistant=equidistant)
        return np.hstack([cuts, points[:, free:]])

    def objective(points: Array) -> Array:
        return -marginal.log_likelihood(unfolded(points))

    found = minimize(
        lambda point: value_and_gradient(objective, point, width=1e-4),
        start,
        jac=True,
        method="BFGS",
        options={"gtol": 1e-6},
    )
    if np.abs(found.x[free:]).max(initial=0.0) > RUNAWAY or np.abs(found.jac).max() > 1e-3:
        raise NoFiniteFitError(
            "The effects run away without bound: some level has only the lowest or only the "
            "highest scores (separation).",
            "A fit by maximum likelihood needs overlap between the levels.",
            PRIORS_HELP,
        )
    return np.asarray(unfolded(found.x[None, :])[0])


def _at_bound(marginal: Marginal, point: Array) -> Array:
    """Absolute standard deviations, 0 where they are at their bound."""
    sds = np.abs(point[len(point) - len(marginal.random) :])
    return np.where(sds < SD_AT_BOUND, 0.0, sds)


def _report(
    marginal: Marginal, point: Array, *, equidistant: bool, fixed: Sequence[Factor]
) -> PublishedFit:
    sds = _at_bound(marginal, point)
    point = np.concatenate([point[: len(point) - len(sds)], sds])
    cuts = marginal.steps - 1
    errors = _standard_errors(marginal, point, equidistant=equidistant)
    effects: dict[str, dict[str, Effect]] = {}
    place = cuts
    for column in fixed:
        levels = column.levels[1:]
        effects[column.name] = {
            level: Effect(float(point[place + i]), float(errors[place + i]))
            for i, level in enumerate(levels)
        }
        place += len(levels)
    return PublishedFit(
        effects=effects,
        reference={column.name: column.levels[0] for column in fixed},
        random={term.name: float(sd) for term, sd in zip(marginal.random, sds, strict=True)},
        modes=marginal.modes(point),
        thresholds=tuple(float(cut) for cut in point[:cuts]),
        threshold_ses=tuple(float(se) for se in errors[:cuts]),
        log_likelihood=float(marginal.log_likelihood(point[None, :])[0]),
        estimator=marginal.estimator,
        link=marginal.design.link,
        equidistant=equidistant,
        steps=marginal.labels,
        scores=len(marginal.score),
    )


def _standard_errors(marginal: Marginal, point: Array, *, equidistant: bool) -> Array:
    """Of thresholds and effects; the standard deviations that are not 0 take part."""
    sds = point[len(point) - len(marginal.random) :]
    k = len(point) - len(sds)
    basis = np.eye(len(point))[:, [*range(k), *(k + np.flatnonzero(sds))]]
    cuts = marginal.steps - 1
    if equidistant:
        line = np.zeros((len(point), 2))
        line[:cuts, 0], line[:cuts, 1] = 1.0, np.arange(cuts)
        basis = np.hstack([line, basis[:, cuts:]])

    def objective(steps: Array) -> Array:
        return -marginal.log_likelihood(point + steps @ basis.T)

    second = hessian(objective, np.zeros(basis.shape[1]), width=2e-3)
    covariance = basis @ np.linalg.inv(second) @ basis.T
    return np.asarray(np.sqrt(np.diagonal(covariance))[:k])
