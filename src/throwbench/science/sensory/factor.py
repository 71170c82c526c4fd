"""Columns of names as numbered levels."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.sparse import csr_array, hstack

from throwbench.science.sensory.likelihood import Array


@dataclass(frozen=True, slots=True)
class Factor:
    """A column of names: the levels in the order of the file, and each row's level number."""

    name: str
    levels: tuple[str, ...]
    of_row: npt.NDArray[np.intp]

    def indicator(self) -> Array:
        """(rows, levels), one 1 a row."""
        return np.eye(len(self.levels))[self.of_row]

    def entries(self) -> csr_array:
        """The same, sparse."""
        rows = np.arange(len(self.of_row))
        shape = (len(rows), len(self.levels))
        return csr_array((np.ones(len(rows)), (rows, self.of_row)), shape=shape)


def factor(name: str, cells: Sequence[str]) -> Factor:
    """Number the levels of a column in the order in which they first stand in the file."""
    number: dict[str, int] = {}
    of_row = [number.setdefault(cell, len(number)) for cell in cells]
    return Factor(name=name, levels=tuple(number), of_row=np.array(of_row, dtype=np.intp))


def crossing(name: str, *columns: Sequence[str]) -> Factor:
    """A term such as assessor:candidate; each pair that occurs is a level."""
    return factor(name, [":".join(cells) for cells in zip(*columns, strict=True)])


def beside(parts: Sequence[csr_array]) -> csr_array:
    """Sparse matrices side by side."""
    return csr_array(hstack(parts))
