"""Any file of rows: bytes to cells, with the line that each row stands on."""

import csv
import io
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from throwbench.formats.problem import (
    Fault,
    Note,
    Notes,
    Problem,
    UnreadableFile,
    problems_of,
    shown,
)
from throwbench.science.words import counted

LARGEST_BYTES = 100_000_000
DELIMITERS = (",", ";", "\t")
_LINE_END = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True, slots=True, kw_only=True)
class TextFile:
    """A file that is in memory: what it is called, and what it holds."""

    name: str
    text: str


Source = str | Path | TextFile


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The cells of a file by column, without surrounding blanks, and the line of each row."""

    file: str
    columns: dict[str, tuple[str, ...]]
    header_line: int
    lines: tuple[int, ...]
    delimiter: str
    notes: tuple[Note, ...] = ()

    @property
    def first_line(self) -> str:
        """Where the names of the columns stand, as a sentence begins with it."""
        return f"{self.file}, line {self.header_line}"

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Rows and columns that were left out."""
        return problems_of(self.file, self.notes)


def read_table(source: Source) -> Table:
    """Read a file of rows whose first line names the columns.

    Comma, semicolon or tab between the cells, told from the first line; UTF-8 with or without a
    byte order mark; any line ending. Lines on top that begin with # say what the file is, and are
    skipped, as are empty rows. A row with another number of cells than the first line is left
    out, and is a problem.

    Raises
    ------
    UnreadableFile
        If nothing can be read: no such file, no text, no row, two columns of one name.
    """
    name, text = _text(source)
    first, text = _without_comments(text)
    delimiter = _delimiter(text)
    records = _records(name, text, delimiter, first=first)
    header_line, header = next(records, (1, []))
    names = [cell.strip() for cell in header]
    _refuse_twins(name, header_line, names)
    rows, lines, notes = _even_rows(records, len(names), delimiter)
    if not rows:
        raise UnreadableFile(_no_rows(name, ragged=bool(notes)))
    columns = {
        column: tuple(map(str.strip, cells))
        for column, cells in zip(names, zip(*rows, strict=True), strict=True)
    }
    if any(columns.pop("", ())):
        notes.append(Note(header_line, "", "", Fault("asked", _NAMELESS)))
    return Table(
        file=name,
        columns=columns,
        header_line=header_line,
        lines=tuple(lines),
        delimiter=delimiter,
        notes=tuple(notes),
    )


def _without_comments(text: str) -> tuple[int, str]:
    """The text below the lines on top that begin with #, and the line on which it begins."""
    line, start = 1, 0
    while text.startswith("#", start):
        end = _LINE_END.search(text, start)
        line, start = line + 1, end.end() if end else len(text)
    return line, text[start:]


def _even_rows(
    records: Iterable[tuple[int, list[str]]], width: int, delimiter: str
) -> tuple[list[tuple[str, ...]], list[int], list[Note]]:
    """The rows of that many cells, the line of each, and notes on the others."""
    rows: list[tuple[str, ...]] = []
    lines: list[int] = []
    ragged = Notes()
    for line, cells in records:
        if not any(map(str.strip, cells[width:])):
            del cells[width:]
        if len(cells) == width:
            rows.append(tuple(cells))  # the garbage collector forgets a tuple of texts
            lines.append(line)
        else:
            ragged.add(line, "", delimiter.join(cells), _ragged(len(cells), width))
    return rows, lines, ragged.all()


_NAMELESS = (
    "a column has cells but no name in the first line, and is ignored; "
    "name it, or take the column out."
)


def _text(source: Source) -> tuple[str, str]:
    """The name of a file and what it holds."""
    if isinstance(source, TextFile):
        return source.name, text_of(source.text.encode(), name=source.name)
    path = Path(source)
    name = shown(path.name or str(path))
    return path.name, text_of(_bytes(path, name), name=name)


def text_of(data: bytes, *, name: str, save_as: str = "CSV UTF-8") -> str:
    """The bytes of a file as text, without a byte order mark.

    Raises
    ------
    UnreadableFile
        If they are no text in UTF-8.
    """
    if data.startswith(b"PK\x03\x04"):
        raise UnreadableFile(
            f"{name} is a workbook or an archive, not rows of text; only text files are read: "
            "save the sheet as CSV UTF-8."
        )
    if b"\0" in data:
        raise UnreadableFile(
            f"{name} holds zero bytes, so it is not text in UTF-8; "
            f"only UTF-8 is read: save it as {save_as}."
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise UnreadableFile(
            f"{name}, line {line}: byte 0x{data[error.start]:02X} is not UTF-8, perhaps the file "
            f"is in Latin-1 or Windows-1252; only UTF-8 is read: save it as {save_as}."
        ) from None


def _bytes(path: Path, name: str) -> bytes:
    if path.is_dir():
        raise UnreadableFile(f"{name} is a folder; a file is needed: name the file in it.")
    if not path.is_file():
        raise UnreadableFile(
            f"{name} is not there, or is no file; a file of rows is needed: check the name and the "
            "folder."
        )
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise UnreadableFile(
                f"{name} is larger than {LARGEST_BYTES // 1_000_000} MB; "
                "files up to that size are read: check that it is the right file."
            )
        return path.read_bytes()
    except OSError as error:
        raise UnreadableFile(
            f"{name} cannot be opened ({error.strerror}); a file that you may read is needed: "
            "check its permissions."
        ) from None


def _delimiter(text: str) -> str:
    """The delimiter that parts the first written line into the most cells; the comma if none."""
    first = text.lstrip("\r\n")[:100_000].splitlines()[:1]
    return max(DELIMITERS, key=lambda mark: sum(line.count(mark) for line in first))


def _records(
    name: str, text: str, delimiter: str, *, first: int
) -> Iterator[tuple[int, list[str]]]:
    """Rows that have a cell with something in it, each with the line on which it begins."""
    rows = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    line = first
    try:
        for row in rows:
            if any(map(str.strip, row)):
                yield line, row
            line = rows.line_num + first
    except csv.Error as error:
        raise UnreadableFile(
            f"{shown(name)}, line {line}: the row cannot be told apart into cells ({error}); "
            'a quotation mark inside a quoted cell is written twice (""), a cell has at most '
            f"{csv.field_size_limit():,} letters: look for an unclosed quotation mark."
        ) from None


def _refuse_twins(file: str, line: int, names: list[str]) -> None:
    seen: set[str] = set()
    for name in filter(None, names):
        if name.casefold() in seen:
            raise UnreadableFile(
                f"{shown(file)}, line {line}: two columns are called {shown(name)}; each name may "
                "stand once: rename one of them, or take it out."
            )
        seen.add(name.casefold())


@cache
def _ragged(cells: int, names: int) -> Fault:
    return Fault(
        "refused",
        f"the row has {counted(cells, 'cell')} where the first line names {names}, and is "
        "left out; each row needs as many cells as there are columns: look for a missing cell, or "
        "for a comma in a cell without quotation marks.",
    )


def _no_rows(file: str, *, ragged: bool) -> str:
    if ragged:
        return (
            f"{shown(file)} has no row with as many cells as the first line names; the first "
            "line names the columns, each later line is a row: check what parts the cells."
        )
    return (
        f"{shown(file)} has no rows; the first line names the columns, each later line is a row: "
        "check that it is the right file."
    )
