"""The scores of an answer, laid out once as a model over standard normal unknowns.

The unknowns are, in this order: how far each border strays, the level, the candidates' effects, and
the effects of each further term. `points` are the spreads as normal scores: a normal score v stands
for the quantile Phi(v) of that spread's prior, so the prior of a point is standard normal.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_array
from scipy.special import ndtri

from throwbench.science.sensory.design import Design
from throwbench.science.sensory.factor import Factor, beside
from throwbench.science.sensory.laplace import Mode, find_mode
from throwbench.science.sensory.likelihood import (
    FAR,
    LOGISTIC_SD,
    Array,
    Link,
    chance_below,
)
from throwbench.science.sensory.priors import Priors

Term = tuple[Factor, float]
"""A factor and the half-normal scale of its effects' sd [step]."""
SETTLED = 1e-4
"""Where the mode may stop: far below the width of what is drawn about it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Where each score's two borders lie before anything is known, and what moves them."""

    scale: tuple[int, int]
    effects: tuple[Term, ...]
    priors: Priors
    design: Design
    upper: Array
    lower: Array

    @classmethod
    def of(
        cls,
        score: npt.NDArray[np.intp],
        *,
        scale: tuple[int, int],
        effects: Sequence[Term],
        priors: Priors,
        link: Link,
    ) -> "Layout":
        """Lay out (n,) scores; `effects` are the candidates and then the further terms.

        The largest of these stands last, where the algebra takes its levels one by one. Scores
        that are alike in all of them are one row with their number as its weight.
        """
        effects = [*effects[:1], *sorted(effects[1:], key=lambda term: len(term[0].levels))]
        score, effects, weight = _gathered(score, effects)
        low, high = scale
        top, bottom = score == high, score == low
        level = csr_array(np.ones((len(score), 1)))
        moved = -beside([level, *(effect.entries() for effect, _ in effects)])
        strays = np.eye(high - low + 1)[:, :-1]
        above, below = strays[score - low], np.roll(strays, 1, axis=0)[score - low]
        middle = 0.5 * (low + high)
        return cls(
            scale=scale,
            effects=tuple(effects),
            priors=priors,
            design=Design.of(
                upper=beside([csr_array(above), moved]).multiply(~top[:, None]),
                lower=beside([csr_array(below), moved]).multiply(~bottom[:, None]),
                link=link,
                tail=len(effects[-1][0].levels),
                weight=weight,
            ),
            upper=np.where(top, np.inf, score + 0.5 - middle),
            lower=np.where(bottom, -np.inf, score - 0.5 - middle),
        )

    @property
    def borders(self) -> int:
        """Number of borders between the steps."""
        return self.scale[1] - self.scale[0]

    @property
    def unit(self) -> float:
        """Standard deviation of the link's noise at scale 1."""
        return LOGISTIC_SD if self.design.link == "logit" else 1.0

    def spreads(self, points: Array) -> tuple[Array, Array]:
        """Sniff-to-sniff sd (batch, 1) and the effects' sds (batch, effects), in steps."""
        within = self.priors.within * np.exp(self.priors.within_log_sd * points[:, :1])
        half_normal = -ndtri(0.5 * chance_below("probit", -points[:, 1:]))
        return within, half_normal * np.array([size for _, size in self.effects])

    def widths(self, points: Array) -> Array:
        """(batch, unknowns): what one unit of each unknown is worth, in steps."""
        _, sds = self.spreads(points)
        fixed = np.concatenate([np.full(self.borders, self.priors.borders), [0.5 * self.borders]])
        sizes = [len(effect.levels) for effect, _ in self.effects]
        return np.hstack([np.tile(fixed, (len(points), 1)), np.repeat(sds, sizes, axis=1)])

    def mode_at(self, points: Array, start: Array | None = None) -> Mode:
        """The likeliest unknowns given the spreads: `points` (batch, 1 + effects)."""
        noise = self.spreads(points)[0] / self.unit
        return find_mode(
            self.design,
            a0=np.minimum(self.upper / noise, FAR),
            b0=np.maximum(self.lower / noise, -FAR),
            scale=self.widths(points) / noise,
            start=start,
            tolerance=SETTLED,
        )

    def parts(self, unknowns: Array) -> list[Array]:
        """Columns of (draws, unknowns) by part: borders, level, candidates, further terms."""
        sizes = [self.borders, 1, *(len(effect.levels) for effect, _ in self.effects)]
        edges = np.cumsum([0, *sizes])
        return [unknowns[:, a:b] for a, b in pairwise(edges.tolist())]


def _gathered(
    score: npt.NDArray[np.intp], effects: Sequence[Term]
) -> tuple[npt.NDArray[np.intp], list[Term], Array]:
    """Each different row once, in the order in which they first stand, and how often it stands."""
    table = np.column_stack([score, *(effect.of_row for effect, _ in effects)])
    _, first, count = np.unique(table, axis=0, return_index=True, return_counts=True)
    order = np.argsort(first)
    kept = first[order]
    once = [(replace(effect, of_row=effect.of_row[kept]), size) for effect, size in effects]
    return score[kept], once, count[order].astype(float)
