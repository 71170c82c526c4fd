"""A file of scores, one score per row or one column per attribute."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from throwbench.formats.cells import Cell, Place, refused
from throwbench.formats.copies import copies
from throwbench.formats.numbers import plain_number
from throwbench.formats.problem import Fault, Note, Reading, UnreadableFile, problems_of
from throwbench.formats.rows import Columns, header_key, match_headers, read_columns
from throwbench.formats.spelling import two_spellings
from throwbench.formats.table import Source, Table, read_table
from throwbench.records import ATTRIBUTES, Column, Score, columns

CANNOT_TELL = "cannot tell"
FIVE_STEPS = (1, 5)
WIDEST = (0, 10)
"""Without a word on the scale, a score outside this is a slip."""
OF_ONE = {"candle": "", "attribute": "liking", "room": "one", "sitting": "one"}
"""What stands in every row where a bare file has no such column; the candle is the candidate."""
FEW = 0.05
"""Below this share, scores above 5 are likelier slips than a scale of 1 to 10."""


def read_scores(
    source: Source, *, scale: tuple[int, int] | None = None, bare: bool = False
) -> Reading[Score]:
    """Read a file of scores.

    Long form: the columns `attribute` and `score`. Wide form: one column per attribute, where an
    empty cell is no answer. "cannot tell" is a score of None in both. A bare file in long form
    needs no more than candidate, assessor and score: each candidate is then taken for one test
    candle, in one room and sitting, and the attribute is called "score".

    Raises
    ------
    UnreadableFile
        If the file gives no row at all, or lacks a column that is needed.
    """
    table = read_table(source)
    wide = not any(header_key(name) in {"attribute", "score"} for name in table.columns)
    missing = () if wide or not bare else _not_there(table)
    read = _read_wide if wide else _read_long
    rows, notes = read(_filled(table, missing), scale or WIDEST)
    if "attribute" in missing:
        rows = [replace(row, attribute="score") for row in rows]
    notes += [*_candidates_of_candle(rows), *two_spellings(rows, ("candidate", "assessor"))]
    notes += copies(rows, told_apart="sitting" not in missing)
    odd = _odd_ones_out(rows) if scale is None else []
    notes += [_held_back(row, rows) for row in odd]
    waiting = {id(row) for row in odd}
    rows = [row for row in rows if id(row) not in waiting]
    return Reading(
        rows=tuple(rows),
        problems=problems_of(table.file, table.notes + tuple(notes)),
        file=table.file,
    )


def _not_there(table: Table) -> tuple[str, ...]:
    """The columns that a bare file may lack, and does."""
    there = {header_key(name): name for name in table.columns}
    bare = {"candidate", "assessor", "score"} <= there.keys()
    return tuple(name for name in OF_ONE if name not in there) if bare else ()


def _filled(table: Table, missing: Iterable[str]) -> Table:
    """A bare file with its missing columns: one test candle per candidate, one of all else."""
    there = {header_key(name): cells for name, cells in table.columns.items()}
    filled = {
        name: there["candidate"] if name == "candle" else (OF_ONE[name],) * len(table.lines)
        for name in missing
    }
    return replace(table, columns=table.columns | filled)


def _read_long(table: Table, scale: tuple[int, int]) -> tuple[list[Score], list[Note]]:
    wanted = columns(Score)
    score = next(column for column in wanted if column.name == "score")
    needed = replace(score, required=True)
    headers, notes = match_headers(table, [needed if c is score else c for c in wanted])
    read = read_columns(table, wanted, headers=headers, readers={"score": _score_reader(scale)})
    return _scores(read, table, read.refused), notes + read.notes


def _read_wide(table: Table, scale: tuple[int, int]) -> tuple[list[Score], list[Note]]:
    common = [item for item in columns(Score) if item.name not in {"attribute", "score"}]
    answers = [Column(name=name, meaning="score", kind=int) for name in ATTRIBUTES]
    headers, notes = match_headers(table, [*common, *answers])
    asked = [item for item in answers if item.name in headers]
    if not asked:
        raise UnreadableFile(
            f"{table.first_line}: no column holds scores; the columns attribute and score, or "
            f"one column per attribute ({', '.join(ATTRIBUTES)}) are needed: add them."
        )
    read = read_columns(table, common, headers=headers)
    reader = _score_reader(scale)
    rows: list[Score] = []
    for column in asked:
        answer = read_columns(
            table, [column], headers=headers, left_out="score", readers={column.name: reader}
        )
        notes += answer.notes
        empty = {row for row, text in enumerate(table.columns[headers[column.name]]) if not text}
        size = len(table.lines)
        values = read.values | {
            "attribute": [column.name] * size,
            "score": answer.values[column.name],
        }
        rows += _scores(Columns(values=values), table, read.refused | answer.refused | empty)
    return sorted(rows, key=lambda row: row.line), notes + read.notes


def _scores(read: Columns, table: Table, left_out: set[int]) -> list[Score]:
    names = (*read.values, "line")
    cells = zip(*read.values.values(), table.lines, strict=True)
    return [
        Score(**dict(zip(names, values, strict=True)))
        for row, values in enumerate(cells)
        if row not in left_out
    ]


def _score_reader(scale: tuple[int, int]) -> Any:
    low, high = scale

    def read(text: str, place: Place) -> Cell:
        if not text or text.casefold() == CANNOT_TELL:
            return None, None
        value = plain_number(text)
        allowed = f"a whole step from {low} to {high}, or '{CANNOT_TELL}', is possible"
        if value is None:
            return refused(text, place, lambda: f"{allowed}; write one of these.")
        if not value.is_integer():
            steps = f"{int(value // 1)} or {int(value // 1) + 1}"
            return refused(text, place, lambda: f"{allowed}; write {steps}, as it was given.")
        if not low <= value <= high:
            return refused(text, place, lambda: f"{allowed}; correct it, or name the scale.")
        return int(value), None

    return read


def _candidates_of_candle(rows: Iterable[Score]) -> list[Note]:
    """A code with two oils: two swapped tags, or a slip of the pen."""
    first: dict[str, Score] = {}
    notes: dict[tuple[str, str], Note] = {}
    for row in rows:
        known = first.setdefault(row.candle, row)
        if row.candidate != known.candidate and (row.candle, row.candidate) not in notes:
            notes[row.candle, row.candidate] = Note(
                row.line,
                "candidate",
                row.candidate,
                Fault(
                    "asked",
                    f"candle {row.candle} is {row.candidate} here and {known.candidate} on line "
                    f"{known.line}, used as written; a candle holds one oil: check the code, "
                    "and whether two tags were swapped.",
                ),
            )
    return list(notes.values())


def _odd_ones_out(rows: list[Score]) -> list[Score]:
    """Few scores beyond 1 to 5 in a file that is otherwise inside: likelier slips than a scale."""
    low, high = FIVE_STEPS
    odd = [row for row in rows if row.score is not None and not low <= row.score <= high]
    given = Counter(row.score is not None for row in rows)[True]
    return odd if len(odd) < FEW * given else []


def _held_back(row: Score, rows: list[Score]) -> Note:
    """A score that would change the scale of all the others waits for the maker's word."""
    low, high = FIVE_STEPS
    words = (
        f"{row.score} is held back, nearly all of the {len(rows)} scores lie within {low} to "
        f"{high}; correct it if it is a slip, or name the scale if it is meant (--scale)."
    )
    return Note(row.line, "score", str(row.score), Fault("held back", words))
