"""What each test candle is made of, and which oils share a theme."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any, TypeVar

from throwbench.formats.problem import Fault, Note, Reading, problems_of
from throwbench.formats.rows import match_headers, read_columns
from throwbench.formats.spelling import two_spellings
from throwbench.formats.table import Source, read_table
from throwbench.records import Combination, ThemeMember, columns

Row = TypeVar("Row", bound=Combination | ThemeMember)


def read_combinations(source: Source) -> Reading[Combination]:
    """Read the file that says what each test candle is made of: one row per candle.

    Raises
    ------
    UnreadableFile
        If the file gives no row at all, or lacks a column that is needed.
    """
    file, rows, notes = _read(source, Combination)
    rows, twins = _once(rows, lambda row: row.candle, "candle")
    groups = _second_groups(rows, lambda row: row.oil, "the group is left out")
    second = {note.line for note in groups}
    rows = [replace(row, group=None) if row.line in second else row for row in rows]
    notes += [*twins, *groups, *two_spellings(rows, ("oil",))]
    return Reading(rows=tuple(rows), problems=problems_of(file, notes), file=file)


def read_theme(source: Source) -> Reading[ThemeMember]:
    """Read the file that says of which oils at most one joins: one row per oil.

    Raises
    ------
    UnreadableFile
        If the file gives no row at all, or lacks a column that is needed.
    """
    file, rows, notes = _read(source, ThemeMember)
    groups = _second_groups(rows, lambda row: row.candidate, "the row is left out")
    second = {note.line for note in groups}
    rows, twins = _once(
        [row for row in rows if row.line not in second], lambda row: row.candidate, "candidate"
    )
    notes += [*groups, *twins, *two_spellings(rows, ("candidate", "group"))]
    return Reading(rows=tuple(rows), problems=problems_of(file, notes), file=file)


def _read(source: Source, record: type[Row]) -> tuple[str, list[Row], list[Note]]:
    table = read_table(source)
    headers, notes = match_headers(table, columns(record))
    read = read_columns(table, columns(record), headers=headers)
    names = (*read.values, "line")
    rows = [
        record(**dict(zip(names, values, strict=True)))
        for number, values in enumerate(zip(*read.values.values(), table.lines, strict=True))
        if number not in read.refused
    ]
    return table.file, rows, [*table.notes, *notes, *read.notes]


def _once(
    rows: Iterable[Row], key: Callable[[Row], str], name: str
) -> tuple[list[Row], list[Note]]:
    """The first row of each key; a later one is left out."""
    first: dict[str, Row] = {}
    notes = []
    for row in rows:
        known = first.setdefault(key(row), row)
        if known is not row:
            alike = "says the same" if replace(row, line=known.line) == known else "says otherwise"
            notes.append(
                _refused_row(
                    row,
                    name,
                    key(row),
                    f"has a row on line {known.line} already, this one {alike} and is left "
                    f"out; each {name} has one row: take one of them out.",
                )
            )
    return list(first.values()), notes


def _second_groups(rows: Iterable[Any], oil: Callable[[Any], str], left_out: str) -> list[Note]:
    """A group beside another one of the same oil."""
    first: dict[str, Any] = {}
    notes = []
    for row in rows:
        if row.group is None:
            continue
        known = first.setdefault(oil(row), row)
        if known.group != row.group:
            notes.append(
                _refused_row(
                    row,
                    "group",
                    row.group,
                    f"is refused for {oil(row)} and {left_out}, line {known.line} puts it into "
                    f"{known.group}; an oil belongs to one group: correct one of the two.",
                )
            )
    return notes


def _refused_row(row: Any, column: str, value: str, words: str) -> Note:
    return Note(row.line, column, value, Fault("refused", f"{value} {words}"))
