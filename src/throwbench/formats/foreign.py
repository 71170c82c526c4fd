"""A file of scores under other column names."""

from dataclasses import replace

from throwbench.formats.numbers import plain_number
from throwbench.formats.problem import Reading
from throwbench.formats.rows import header_key
from throwbench.formats.table import Table
from throwbench.records import Score
from throwbench.science.errors import UnclearError
from throwbench.verdict.words import listed


def column_of(table: Table, name: str) -> tuple[str, ...]:
    """The cells of a column.

    Raises
    ------
    UnclearError
        No column has that name.
    """
    if name not in table.columns:
        raise UnclearError(
            f"{table.file} has no column {name}.",
            f"Its columns are {', '.join(table.columns)}.",
            "Name one of these.",
        )
    return table.columns[name]


def of_attribute(table: Table, wanted: str | None) -> tuple[str | None, Table]:
    """The attribute and its rows, where the file has a column of attributes; else the whole file.

    Raises
    ------
    UnclearError
        Several attributes and none of them wanted, or none of that name.
    """
    column = next((name for name in table.columns if header_key(name) == "attribute"), "attribute")
    if wanted is None and column not in table.columns:
        return None, table
    cells = [header_key(cell) for cell in column_of(table, column)]
    found = tuple(dict.fromkeys(filter(None, cells)))
    asked = header_key(wanted) if wanted else (found[0] if len(found) == 1 else None)
    if asked not in found:
        raise UnclearError(
            f"{table.file} has scores of {listed(found) or 'no attribute'}.",
            "One of its attributes is answered at a time.",
            "Name it with --attribute.",
        )
    rows = [row for row, cell in enumerate(cells) if cell == asked]
    return asked, replace(
        table,
        columns={name: tuple(of[row] for row in rows) for name, of in table.columns.items()},
        lines=tuple(table.lines[row] for row in rows),
    )


def steps_of(table: Table, name: str) -> list[int]:
    """A column of whole steps.

    Raises
    ------
    UnclearError
        No such column, or a cell that is not a whole step; it names the line.
    """
    steps = []
    for line, cell in zip(table.lines, column_of(table, name), strict=True):
        value = plain_number(cell)
        if value is None or not value.is_integer():
            raise UnclearError(
                f"{table.file}, line {line}, {name}: {cell or 'an empty cell'} is not a score.",
                "A score is a whole step of the scale.",
                "Correct it, or name the column of the scores with --score.",
            )
        steps.append(int(value))
    return steps


def scores_of(
    table: Table,
    *,
    score: str,
    candidate: str,
    assessor: str | None = None,
    attribute: str | None = None,
) -> Reading[Score]:
    """The rows of a foreign file as scores of one attribute; else called by their own column name.

    Where no column of assessors is named, the one called assessor is taken; without one all scores
    are of one nose.

    Raises
    ------
    UnclearError
        No column of a name that was given, or a cell that is not a whole step.
    """
    steps = steps_of(table, score)
    oils = column_of(table, candidate)
    noses = (
        table.columns.get("assessor", ("",) * len(oils))
        if assessor is None
        else column_of(table, assessor)
    )
    rows = tuple(
        Score(
            candle=oil,
            candidate=oil,
            assessor=nose,
            room="",
            sitting="",
            attribute=attribute or score,
            score=step,
            line=line,
        )
        for step, oil, nose, line in zip(steps, oils, noses, table.lines, strict=True)
    )
    return Reading(rows=rows, problems=table.problems, file=table.file)
