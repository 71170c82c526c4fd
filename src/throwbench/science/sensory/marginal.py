"""The log likelihood of an ordinal mixed model with its random effects integrated out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_array

from throwbench.science.sensory.design import Design
from throwbench.science.sensory.factor import Factor, beside
from throwbench.science.sensory.laplace import Mode, find_mode
from throwbench.science.sensory.likelihood import FAR, Array, Link
from throwbench.science.sensory.quadrature import integrate_one_term

Estimator = Literal["laplace", "quadrature"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Marginal:
    """The data of a fit, laid out once; `log_likelihood` takes batches of parameters.

    `warm` remembers the last mode: neighbours in a difference quotient start beside their answer.
    """

    score: npt.NDArray[np.intp]
    labels: tuple[int, ...]
    fixed: Array
    random: tuple[Factor, ...]
    design: Design
    estimator: Estimator
    nodes: int
    warm: dict[str, Array] = field(default_factory=dict)

    @classmethod
    def of(
        cls,
        score: Sequence[int],
        *,
        fixed: Sequence[Factor],
        random: Sequence[Factor],
        link: Link,
        estimator: Estimator,
        nodes: int,
    ) -> "Marginal":
        """Lay the data out: scores numbered from 0, contrasts with each column's first level."""
        # The largest term stands last, where the algebra takes its levels one by one.
        terms = sorted(random, key=lambda term: len(term.levels))
        labels, coded = np.unique(np.asarray(score), return_inverse=True)
        nothing = np.empty((len(coded), 0))
        moves = -beside([csr_array(nothing), *(term.entries() for term in terms)])
        return cls(
            score=coded,
            labels=tuple(int(label) for label in labels),
            fixed=np.hstack([nothing, *(column.indicator()[:, 1:] for column in fixed)]),
            random=tuple(terms),
            design=Design.of(
                upper=moves,
                lower=moves,
                link=link,
                tail=len(terms[-1].levels) if terms else 0,
            ),
            estimator=estimator,
            nodes=nodes,
        )

    @property
    def steps(self) -> int:
        """Number of different scores."""
        return len(self.labels)

    def log_likelihood(self, points: Array) -> Array:
        """(batch,) from (batch, thresholds + fixed effects + standard deviations)."""
        a0, b0, scale = self._laid_out(points)
        mode = self._mode(a0, b0, scale)
        if self.estimator == "laplace" or not self.random:
            return mode.log_marginal
        return integrate_one_term(
            mode,
            self.random[0],
            self.design.link,
            a0=a0,
            b0=b0,
            scale=scale,
            nodes=self.nodes,
        )

    def modes(self, point: Array) -> Mapping[str, Mapping[str, float]]:
        """The likeliest effect of each level of each random term."""
        a0, b0, scale = self._laid_out(point[None, :])
        effects = (scale * self._mode(a0, b0, scale).z)[0]
        named: dict[str, Mapping[str, float]] = {}
        for term in self.random:
            here, effects = effects[: len(term.levels)], effects[len(term.levels) :]
            named[term.name] = dict(zip(term.levels, here.tolist(), strict=True))
        return named

    def _laid_out(self, points: Array) -> tuple[Array, Array, Array]:
        cuts, q = self.steps - 1, self.fixed.shape[1]
        edge = np.full((len(points), 1), FAR)
        padded = np.hstack([-edge, points[:, :cuts], edge])
        shift = points[:, cuts : cuts + q] @ self.fixed.T
        upper, lower = padded[:, self.score + 1] - shift, padded[:, self.score] - shift
        sizes = [len(term.levels) for term in self.random]
        scale = np.repeat(points[:, cuts + q :], np.array(sizes, dtype=np.intp), axis=1)
        return upper, lower, scale

    def _mode(self, a0: Array, b0: Array, scale: Array) -> Mode:
        near = self.warm.get("z")
        start = None if near is None else np.repeat(near, len(scale), axis=0)
        mode = find_mode(self.design, a0=a0, b0=b0, scale=scale, start=start)
        self.warm["z"] = mode.z[:1]
        return mode
