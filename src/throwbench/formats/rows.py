"""The cells of a table as values of a record's columns, whole columns at a time."""

import difflib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from throwbench.formats.cells import Cell, Place, read_cell
from throwbench.formats.problem import Fault, Note, Notes, UnreadableFile, shown
from throwbench.formats.table import Table
from throwbench.records import Column

Reader = Callable[[str, Place], Cell]

HOPELESS = 5_000
"""So many different cells refused in one column are no slips: it is another file, or noise."""


@dataclass(slots=True)
class Columns:
    """Values by column. `refused` are the rows (by number, from 0) with a refused cell."""

    values: dict[str, list[Any]]
    notes: list[Note] = field(default_factory=list)
    refused: set[int] = field(default_factory=set)


class _Meanings(dict[str, Any]):
    """What each text of one column means. A text that comes back is looked up, not read again."""

    def __init__(self, file: str, place: Place, read: Reader) -> None:
        self.file, self.place, self.read = file, place, read
        self.faults: dict[str, Fault] = {}
        self.refused = 0

    def __missing__(self, text: str) -> Any:
        value, fault = self.read(text, self.place)
        if fault:
            self.faults[text] = fault
            self.refused += fault.outcome == "refused"
            if self.refused > HOPELESS:
                raise UnreadableFile(
                    f"{self.file}: more than {HOPELESS:,} different cells of the column "
                    f"{self.place.column.name} are refused, such as '{shown(text)}'; "
                    f"it holds: {self.place.column.meaning}. Check that it is the right file."
                )
        self[text] = value
        return value


def read_columns(
    table: Table,
    wanted: Iterable[Column],
    *,
    headers: Mapping[str, str],
    left_out: str = "row",
    readers: Mapping[str, Reader] | None = None,
) -> Columns:
    """Read each wanted column that the table has; `headers` gives the table's name for it.

    Raises
    ------
    UnreadableFile
        If so many cells of a column are refused that the file must be another one.
    """
    result = Columns(values={})
    for column in wanted:
        if column.name not in headers:
            continue
        place = Place(column=column, comma_is_decimal=table.delimiter != ",", left_out=left_out)
        meanings = _Meanings(table.file, place, (readers or {}).get(column.name, read_cell))
        cells = table.columns[headers[column.name]]
        result.values[column.name] = [meanings[text] for text in cells]
        if meanings.faults:
            _note_faults(result, table, headers[column.name], meanings.faults)
    return result


def _note_faults(result: Columns, table: Table, name: str, faults: Mapping[str, Fault]) -> None:
    notes = Notes()
    for row, text in enumerate(table.columns[name]):
        fault = faults.get(text)
        if fault:
            notes.add(table.lines[row], name, text, fault)
            if fault.outcome == "refused":
                result.refused.add(row)
    result.notes += notes.all()


def match_headers(
    table: Table, wanted: Iterable[Column], *, older: Mapping[str, str] | None = None
) -> tuple[dict[str, str], list[Note]]:
    """The table's own name for each wanted column it has, and a note for each name unknown.

    Case, blanks and hyphens in a name are forgiven. `older` maps a former word to the column.

    Raises
    ------
    UnreadableFile
        If a required column is missing, or two names mean the same column.
    """
    columns = {column.name: column for column in wanted}
    headers: dict[str, str] = {}
    unknown = []
    for name in table.columns:
        key = header_key(name)
        key = (older or {}).get(key, key)
        if key not in columns:
            unknown.append(name)
        elif key in headers:
            raise UnreadableFile(
                f"{table.first_line}: the columns {headers[key]} and {shown(name)} both mean "
                f"{key}; each column may stand once: rename one of them, or take it out."
            )
        else:
            headers[key] = name
    missing = [item.name for item in columns.values() if item.required and item.name not in headers]
    if missing:
        raise UnreadableFile(_missing(table, missing, unknown))
    free = [name for name in columns if name not in headers]
    return headers, [
        Note(table.header_line, shown(name), "", _unknown(name, free)) for name in unknown
    ]


def header_key(name: str) -> str:
    return "_".join(name.casefold().replace("-", " ").replace("_", " ").split())


def _near(name: str, known: Iterable[str]) -> str:
    near = difflib.get_close_matches(header_key(name)[:80], known, n=1)
    return f"did you mean {near[0]}?" if near else ""


def _unknown(name: str, free: list[str]) -> Fault:
    return Fault(
        "asked",
        lambda: (
            f"the column {shown(name)} is not known and is ignored, known here and not yet "
            f"used are {', '.join(free)}; {_near(name, free) or 'rename it, or take it out.'}"
        ),
    )


def _missing(table: Table, missing: list[str], unknown: list[str]) -> str:
    has = ", ".join(shown(name) for name in list(table.columns)[:20])
    hints = [f"{shown(name)}: {hint}" for name in unknown[:20] if (hint := _near(name, missing))]
    only = "only one column, " if len(table.columns) == 1 else "the columns "
    return (
        f"{table.first_line}: the file has {only}{has}; {' and '.join(missing)} "
        f"{'is' if len(missing) == 1 else 'are'} needed: add what is missing, or check that it is "
        f"the right file. {' '.join(hints)}"
    ).strip()
