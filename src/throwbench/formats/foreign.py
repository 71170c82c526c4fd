"""A file of scores under other column names."""

from throwbench.formats.numbers import plain_number
from throwbench.formats.problem import Reading
from throwbench.formats.table import Table
from throwbench.records import Score
from throwbench.science.errors import UnclearError


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


def scores_of(table: Table, *, score: str, candidate: str, assessor: str) -> Reading[Score]:
    """The rows of a foreign file as scores of one attribute, called by its own column name.

    Without a column of assessors all scores are taken to be of one nose.
    """
    steps = steps_of(table, score)
    oils = column_of(table, candidate)
    noses = table.columns.get(assessor, ("",) * len(oils))
    rows = tuple(
        Score(
            candle=oil,
            candidate=oil,
            assessor=nose,
            room="",
            sitting="",
            attribute=score,
            score=step,
            line=line,
        )
        for step, oil, nose, line in zip(steps, oils, noses, table.lines, strict=True)
    )
    return Reading(rows=rows, problems=table.problems, file=table.file)
