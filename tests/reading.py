"""Published tables and worked cases, read from `tests/reference/`: one case per row."""

import csv
from dataclasses import dataclass
from pathlib import Path

REFERENCE = Path(__file__).parent / "reference"


@dataclass(frozen=True)
class Case:
    """One expected value: where it comes from, and how near a result must lie."""

    id: str
    group: str
    quantity: str
    expected: float
    tolerance: float
    kind: str
    source: str

    def agrees(self, value: float) -> None:
        off = abs(value - self.expected)
        # A definition with tolerance 0 is exact up to the last bits of a double.
        allowed = max(self.tolerance, 4e-16 * abs(self.expected))
        assert off <= allowed, f"{self.id} {self.quantity}: {value!r}, {self.kind}: {self.expected}"


def cases(file: str, *groups: str) -> dict[str, Case]:
    """The rows of the named groups by their id."""
    with (REFERENCE / file).open(encoding="utf-8", newline="") as lines:
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        return {row["id"]: _case(row) for row in rows if row["group"] in groups}


def _case(row: dict[str, str]) -> Case:
    return Case(
        id=row["id"],
        group=row["group"],
        quantity=row["quantity"],
        expected=float(row["expected"]),
        tolerance=float(row["tolerance"]),
        kind=row["kind"],
        source=row["source"],
    )
