"""How effects move the two thresholds of each score, kept sparse: a score meets few effects."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_array

from throwbench.science.sensory.likelihood import Array, Link, Slopes

Whole = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Design:
    """Two sparse (n, p) matrices: what each effect adds to the upper and the lower threshold.

    `weight` says how many scores a row stands for. The last `tail` effects never meet in a score.
    `rows`, `columns` are the pairs of effects that do meet; `assembly` sums the (3 n,) second
    derivatives of the scores into these pairs.
    """

    upper: csr_array
    lower: csr_array
    link: Link
    tail: int
    rows: Whole
    columns: Whole
    assembly: csr_array
    weight: Array

    @classmethod
    def of(
        cls,
        *,
        upper: csr_array | Array,
        lower: csr_array | Array,
        link: Link,
        tail: int = 0,
        weight: Array | None = None,
    ) -> "Design":
        """Prepare two (n, p) matrices; the same scores are then assembled many times.

        weight : (n,) how many scores a row stands for; None: each for one.
        """
        up = csr_array(upper)
        low = up if lower is upper else csr_array(lower)
        score, effect, of_up, of_low = _entries(up, low)
        first, second = _meetings(score)
        pair, place = np.unique(effect[first] * up.shape[1] + effect[second], return_inverse=True)
        derivatives = (
            of_up[first] * of_up[second],
            of_low[first] * of_low[second],
            of_up[first] * of_low[second] + of_low[first] * of_up[second],
        )
        n = up.shape[0]
        which = np.concatenate([score[first] + n * kind for kind in range(3)])
        assembly = csr_array(
            (np.concatenate(derivatives), (np.tile(place, 3), which)), shape=(len(pair), 3 * n)
        )
        rows, columns = np.divmod(pair, max(up.shape[1], 1))
        return cls(
            upper=up,
            lower=low,
            link=link,
            tail=tail,
            rows=rows,
            columns=columns,
            assembly=assembly,
            weight=np.ones(n) if weight is None else weight,
        )

    def moved(self, effects: Array) -> tuple[Array, Array]:
        """What (batch, p) effects add to the upper and lower thresholds: (batch, n) each."""
        up = (self.upper @ effects.T).T
        return up, up if self.lower is self.upper else (self.lower @ effects.T).T

    def gradient(self, d: Slopes) -> Array:
        """(batch, p) first derivatives of the log likelihood by the effects."""
        if self.lower is self.upper:
            return np.asarray((self.weight * (d.a + d.b)) @ self.upper)
        return np.asarray((self.weight * d.a) @ self.upper + (self.weight * d.b) @ self.lower)

    def curvature(self, d: Slopes) -> Array:
        """(batch, p, p) second derivatives of the log likelihood by the effects."""
        bends = np.concatenate([self.weight * one for one in (d.aa, d.bb, d.ab)], axis=1)
        p = self.upper.shape[1]
        full = np.zeros((len(bends), p, p))
        full[:, self.rows, self.columns] = (self.assembly @ bends.T).T
        return full


def _entries(upper: csr_array, lower: csr_array) -> tuple[Whole, Whole, Array, Array]:
    """Score, effect, upper and lower value wherever one of the two is not zero, score by score."""
    p = upper.shape[1]
    codes, values = [], []
    for matrix in (upper, lower):
        entries = matrix.tocoo()
        kept = entries.data != 0
        codes.append(entries.row[kept].astype(np.intp) * p + entries.col[kept])
        values.append(entries.data[kept])
    both = np.unique(np.concatenate(codes))
    columns = []
    for code, value in zip(codes, values, strict=True):
        column = np.zeros(len(both))
        column[np.searchsorted(both, code)] = value
        columns.append(column)
    score, effect = np.divmod(both, max(p, 1))
    return score, effect, columns[0], columns[1]


def _meetings(score: Whole) -> tuple[Whole, Whole]:
    """Every ordered pair of entries that belong to one score; `score` is ascending."""
    _, start, count = np.unique(score, return_index=True, return_counts=True)
    mine = np.repeat(count, count)
    first = np.repeat(np.arange(len(score)), mine)
    begin = np.repeat(np.repeat(start, count), mine)
    within = np.arange(len(first)) - np.repeat(np.cumsum(mine) - mine, mine)
    return first, begin + within
