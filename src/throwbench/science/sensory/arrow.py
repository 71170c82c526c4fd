"""Linear algebra for precisions whose last unknowns do not touch each other.

The levels of one factor never meet in a score, so their block of the precision is diagonal:

    [ head   cross ]
    [ cross' tail  ]      tail diagonal

Putting the largest factor last, only the head needs a dense factorisation (Schur complement).
"""

from dataclasses import dataclass

import numpy as np

from throwbench.science.sensory.likelihood import Array


@dataclass(frozen=True, slots=True)
class Arrow:
    """(batch, p, p) precisions with a diagonal tail of `tail` unknowns, reduced to their head.

    diagonal : (batch, tail); reach : (batch, p - tail, tail) cross / diagonal; head : (batch,
    p - tail, p - tail) precision of the head with the tail integrated out.
    """

    diagonal: Array
    reach: Array
    head: Array

    @classmethod
    def of(cls, precision: Array, *, tail: int) -> "Arrow":
        """Reduce a batch of precisions."""
        head = precision.shape[1] - tail
        diagonal = np.diagonal(precision, axis1=1, axis2=2)[:, head:]
        cross = precision[:, :head, head:]
        reach = cross / diagonal[:, None, :]
        reduced = precision[:, :head, :head] - reach @ cross.transpose(0, 2, 1)
        return cls(diagonal=diagonal, reach=reach, head=reduced)

    def solve(self, right: Array) -> Array:
        """precision^-1 right, for (batch, p)."""
        size = self.head.shape[1]
        top, bottom = right[:, :size], right[:, size:]
        rest = top - (self.reach @ bottom[..., None])[..., 0]
        first = np.asarray(np.linalg.solve(self.head, rest[..., None])[..., 0], dtype=float)
        return np.hstack([first, bottom / self.diagonal - self._pull(first)])

    def log_det(self) -> Array:
        """(batch,) log determinants."""
        _, log_det = np.linalg.slogdet(self.head)
        return np.asarray(log_det + np.log(self.diagonal).sum(axis=1))

    def draw(self, member: int, normal: Array) -> Array:
        """(draws, p) with this precision about zero, from standard normal (draws, p)."""
        size = self.head.shape[1]
        root = np.linalg.cholesky(self.head[member])
        first = np.linalg.solve(root.T, normal[:, :size].T).T
        own = normal[:, size:] / np.sqrt(self.diagonal[member])
        return np.hstack([first, own - first @ self.reach[member]])

    def _pull(self, first: Array) -> Array:
        return np.asarray((first[:, None, :] @ self.reach)[:, 0, :])
