"""Scores that stand twice: second sniffs, or rows that were pasted twice."""

from collections.abc import Sequence
from operator import attrgetter

from throwbench.formats.problem import Fault, Note
from throwbench.records import Score, columns

WHOLE_ROW = attrgetter(*(column.name for column in columns(Score)))


def copies(rows: Sequence[Score], *, told_apart: bool) -> list[Note]:
    """One question about rows that are alike in every column, on the line of the first copy.

    told_apart : the file says in which sitting a score was given. Without that, second sniffs look
    alike too, and only a file in which every row has a copy is asked about.
    """
    first: dict[tuple[object, ...], int] = {}
    again: list[tuple[int, int]] = []
    repeated: set[int] = set()
    for row in rows:
        known = first.setdefault(WHOLE_ROW(row), row.line)
        if known != row.line:
            again.append((row.line, known))
            repeated.add(known)
    if not again or not (told_apart or len(repeated) == len(first) > 1):
        return []
    line, known = again[0]
    some = "this row is" if len(again) == 1 else f"{len(again)} rows from here on are"
    words = (
        f"{some} alike in every column with an earlier one (line {known}), used as written, as "
        "second sniffs; take the copies out if they were pasted twice."
    )
    return [Note(line, "", "", Fault("asked", words))]
