"""A file of scores under other column names (`definition` throughout)."""

import pytest

from throwbench.formats import read_table
from throwbench.formats.foreign import column_of, of_attribute, scores_of, steps_of
from throwbench.records import Score
from throwbench.science.errors import UnclearError

WINE = "wine,judge,bitter\nA,1,2\nB,1,3\n\nA,2,5\n"


@pytest.fixture
def wine(write):
    return read_table(write(WINE, "wine.csv"))


def test_a_column_is_found_by_its_name(wine):
    assert column_of(wine, "wine") == ("A", "B", "A")


def test_a_column_that_is_not_there_is_a_sentence(wine):
    with pytest.raises(UnclearError) as refused:
        column_of(wine, "rating")
    assert str(refused.value) == (
        "wine.csv has no column rating. Its columns are wine, judge, bitter. Name one of these."
    )


def test_whole_steps_are_read(wine, write):
    assert steps_of(wine, "bitter") == [2, 3, 5]
    assert steps_of(read_table(write("s;x\n2.0;a\n3,0;b\n0;c\n")), "s") == [2, 3, 0]


@pytest.mark.parametrize(
    ("cell", "words"), [("2.5", "2.5"), ("much", "much"), ("", "an empty cell")]
)
def test_what_is_no_step_names_its_line(write, cell, words):
    table = read_table(write(f"wine,bitter\nA,2\nB,{cell}\n", "wine.csv"))
    with pytest.raises(UnclearError) as refused:
        steps_of(table, "bitter")
    assert str(refused.value) == (
        f"wine.csv, line 3, bitter: {words} is not a score. A score is a whole step of the scale. "
        "Correct it, or name the column of the scores with --score."
    )


def test_rows_become_scores_of_one_attribute_called_by_its_column(wine):
    read = scores_of(wine, score="bitter", candidate="wine", assessor="judge")
    assert read.rows[1] == Score(
        candle="B",
        candidate="B",
        assessor="1",
        room="",
        sitting="",
        attribute="bitter",
        score=3,
        line=3,
    )
    assert [(row.candidate, row.assessor, row.score, row.line) for row in read.rows] == [
        ("A", "1", 2, 2),
        ("B", "1", 3, 3),
        ("A", "2", 5, 5),
    ]
    assert (read.file, read.problems) == ("wine.csv", wine.problems)


def test_without_a_column_of_assessors_all_scores_are_of_one_nose(wine):
    read = scores_of(wine, score="bitter", candidate="wine")
    assert {row.assessor for row in read.rows} == {""}


def test_a_column_called_assessor_needs_no_name_and_a_mistyped_name_is_a_sentence(write, wine):
    named = read_table(write("wine,assessor,bitter\nA,x,2\nB,y,3\n"))
    read = scores_of(named, score="bitter", candidate="wine")
    assert [row.assessor for row in read.rows] == ["x", "y"]
    with pytest.raises(UnclearError, match=r"wine.csv has no column jugde. Its columns are"):
        scores_of(wine, score="bitter", candidate="wine", assessor="jugde")


MIXED = "oil,Attribute,score\nA,hot throw,2\nA,liking,cannot tell\nB,Hot_Throw,3\nB,,x\n"


def test_rows_of_one_attribute_are_taken_where_the_file_names_it(write, wine):
    mixed = read_table(write(MIXED))
    attribute, table = of_attribute(mixed, "hot throw")
    assert attribute == "hot_throw"
    assert (table.columns["oil"], table.lines) == (("A", "B"), (2, 4))
    read = scores_of(table, score="score", candidate="oil", attribute=attribute)
    assert [(row.attribute, row.score, row.line) for row in read.rows] == [
        ("hot_throw", 2, 2),
        ("hot_throw", 3, 4),
    ]
    assert of_attribute(table, None) == ("hot_throw", table)
    assert of_attribute(wine, None) == (None, wine)


@pytest.mark.parametrize("wanted", [None, "likeness"])
def test_several_attributes_are_not_mixed(write, wanted):
    with pytest.raises(UnclearError) as refused:
        of_attribute(read_table(write(MIXED)), wanted)
    assert str(refused.value) == (
        "file.csv has scores of hot_throw and liking. One of its attributes is answered at a "
        "time. Name it with --attribute."
    )


def test_an_attribute_of_a_file_that_names_none_is_a_sentence(write, wine):
    with pytest.raises(UnclearError, match=r"wine.csv has no column attribute. Its columns are"):
        of_attribute(wine, "bitter")
    empty = read_table(write("attribute,score\n,2\n"))
    with pytest.raises(UnclearError, match=r"file.csv has scores of no attribute. One of"):
        of_attribute(empty, None)
