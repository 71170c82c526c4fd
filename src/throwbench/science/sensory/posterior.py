"""What is believed after the scores, as equally likely draws."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from throwbench.science.sensory.layout import Layout
from throwbench.science.sensory.likelihood import Array, Link, chance_below
from throwbench.science.sensory.spreads import Cloud


@dataclass(frozen=True, slots=True, kw_only=True)
class Posterior:
    """Draws of everything in the model; pairs of draws are mirrored and then shuffled.

    level : (draws, candidates) in steps of the scale; borders : (draws, steps - 1); noise :
    (draws,) scale of the link; terms : per further term its levels and (draws, levels) effects;
    spreads : (draws,) sds in steps, "within" for sniff to sniff; effective_points : how many
    points of the cloud over the spreads carry the weight.
    """

    scale: tuple[int, int]
    link: Link
    candidates: tuple[str, ...]
    level: Array
    borders: Array
    noise: Array
    terms: Mapping[str, tuple[tuple[str, ...], Array]]
    spreads: Mapping[str, Array]
    effective_points: float

    def expected(self, shift: Array | float = 0.0) -> Array:
        """Expected score of the average nose: (draws, candidates), on the maker's scale.

        `shift` is added to the level, for a room: a number or (draws, 1).
        """
        gap = self.borders[:, :, None] - (self.level + shift)[:, None, :]
        below = chance_below(self.link, gap / self.noise[:, None, None])
        return np.asarray(self.scale[0] + (1.0 - below).sum(axis=1))

    def effect(self, term: str, level: str) -> Array:
        """(draws, 1) of one level of a term, such as a room; 0 where the model does not hold it."""
        levels, draws = self.terms.get(term, ((), self.level[:, :0]))
        if level not in levels:
            return np.zeros((len(self.level), 1))
        return draws[:, [levels.index(level)]]


def draw(layout: Layout, cloud: Cloud, *, draws: int, random_state: int) -> Posterior:
    """Draw from the Laplace approximation at each point of the cloud, by the point's weight.

    Checked against: a long run of another sampler, and importance sampling (tests).
    """
    rng = np.random.default_rng(random_state)
    half = draws // 2
    ticks = (np.arange(half) + 0.5) / half
    last = len(cloud.weight) - 1
    chosen = np.searchsorted(np.cumsum(cloud.weight), ticks).clip(max=last)
    away = _away(cloud, chosen, rng)
    # Shuffled, so that the draws of two attributes can be paired as they stand.
    order = rng.permutation(2 * half)
    chosen = np.tile(chosen, 2)[order]
    unknowns = cloud.z[chosen] + np.concatenate([away, -away])[order]
    points = cloud.points[chosen]
    return _named(layout, unknowns * layout.widths(points), points, cloud.effective)


def _away(cloud: Cloud, chosen: Array, rng: np.random.Generator) -> Array:
    """Normal draws about the mode of each chosen point, with the precision there."""
    away = np.empty((len(chosen), cloud.z.shape[1]))
    for point in np.unique(chosen):
        here = chosen == point
        normal = rng.standard_normal((int(here.sum()), away.shape[1]))
        away[here] = cloud.precision.draw(point, normal)
    return away


def _named(layout: Layout, unknowns: Array, points: Array, effective: float) -> Posterior:
    strays, level, candidates, *further = layout.parts(unknowns)
    within, sds = layout.spreads(points)
    low, high = layout.scale
    factors = [effect for effect, _ in layout.effects]
    spreads = {effect.name: sd for effect, sd in zip(factors, sds.T, strict=True)}
    return Posterior(
        scale=layout.scale,
        link=layout.design.link,
        candidates=factors[0].levels,
        level=0.5 * (low + high) + level + candidates,
        borders=low + 0.5 + np.arange(high - low) + strays,
        noise=within[:, 0] / layout.unit,
        terms={
            term.name: (term.levels, effect)
            for term, effect in zip(factors[1:], further, strict=True)
        },
        spreads=spreads | {"within": within[:, 0]},
        effective_points=effective,
    )
