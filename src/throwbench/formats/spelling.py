"""One name in two spellings would count as two."""

from collections.abc import Iterable
from typing import Any

from throwbench.formats.problem import Fault, Note


def two_spellings(rows: Iterable[Any], names: tuple[str, ...]) -> list[Note]:
    """Names that differ from an earlier one only in case, blanks or hyphens."""
    rows = list(rows)
    return [note for name in names for note in _of_column(rows, name)]


def _of_column(rows: list[Any], name: str) -> list[Note]:
    lines: dict[str, int] = {}
    for row in rows:
        lines.setdefault(getattr(row, name), row.line)
    first: dict[str, str] = {}
    notes = []
    for spelling, line in lines.items():
        known = first.setdefault(_key(spelling), spelling)
        if known != spelling:
            notes.append(Note(line, name, spelling, _fault(spelling, known, lines[known])))
    return notes


def _key(spelling: str) -> str:
    return "".join(spelling.casefold().replace("-", " ").replace("_", " ").split())


def _fault(spelling: str, known: str, line: int) -> Fault:
    return Fault(
        "asked",
        f"{spelling} is spelled {known} on line {line} and counts as another one; "
        "one name needs one spelling: make them the same if they are one.",
    )
