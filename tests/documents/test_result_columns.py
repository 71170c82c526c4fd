"""Each face tells what the one list of columns says: one that is added there is told by all."""

import csv
import io

from throwbench.cli.verdict_table import lines_of
from throwbench.documents import result_columns, sheets
from throwbench.documents.result_columns import EVERYWHERE, ResultColumn, columns_on
from throwbench.documents.table import table
from throwbench.verdict.result import Verdict


def test_the_table_has_a_column_of_each_and_its_meaning(verdict: Verdict) -> None:
    columns = columns_on("table", verdict)
    rows = list(csv.reader(io.StringIO(table(verdict))))
    assert rows[0] == [column.name for column in columns]
    assert len(set(rows[0])) == len(rows[0])
    assert all(column.meaning for column in columns)
    assert {len(row) for row in rows} == {len(columns)}


def test_the_report_has_a_head_for_each(verdict: Verdict) -> None:
    told = sheets.figures(verdict)
    assert told["head"] == [column.head for column in columns_on("report", verdict)]
    assert all(told["head"])


def test_the_page_has_a_head_for_each(verdict: Verdict) -> None:
    assert all(column.head for column in columns_on("page", verdict))


def test_a_new_column_is_told_by_every_face(verdict: Verdict, monkeypatch) -> None:
    there = result_columns.result_columns

    def more(asked: Verdict) -> tuple[ResultColumn, ...]:
        new = ResultColumn("letters", lambda one: len(one.candidate), EVERYWHERE, "Letters", "new")
        return (*there(asked), new)

    monkeypatch.setattr(result_columns, "result_columns", more)
    first = verdict.candidates[0]
    letters = str(len(first.candidate))
    assert next(csv.DictReader(io.StringIO(table(verdict))))["letters"] == letters
    told = sheets.figures(verdict)
    assert (told["head"][-1], told["rows"][0][-1]) == ("Letters", letters)
    assert f"letters {letters}" in "\n".join(lines_of(verdict))
    assert columns_on("page", verdict)[-1].head == "Letters"


def test_a_value_that_is_not_there_is_said(verdict: Verdict) -> None:
    assert result_columns.shown(None) == "none"
    assert result_columns.shown(0.25) == "0.2"
    assert result_columns.shown(12) == "12"
