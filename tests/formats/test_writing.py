"""What is written reads back the same, and no spreadsheet takes it for a formula."""

from dataclasses import fields, replace
from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from throwbench.formats import read_burns, read_combinations, read_scores, read_theme, write_csv
from throwbench.formats.cells import kind_of
from throwbench.records import Burn, Check, Combination, Score, ThemeMember, columns

TEXTS = st.text(
    st.characters(exclude_categories=["Cs", "Cc"], include_characters="=+-@',\"\n"),
    min_size=1,
    max_size=12,
).filter(lambda text: text == text.strip())


def cells(column):
    """Values that a column takes without being refused or held back."""
    kind = kind_of(column)
    if column.words:
        return st.sampled_from(column.words)
    if column.name == "score":
        return st.integers(1, 5)
    low, high = column.possible or (0, 100)
    return {
        str: TEXTS,
        bool: st.booleans(),
        int: st.integers(int(low), int(high)),
        float: st.floats(low, min(high, 39)),
    }[kind]


def records(record, **fixed):
    facts = {
        column.name: cells(column) if column.required else st.none() | cells(column)
        for column in columns(record)
        if column.name not in fixed
    }
    return st.builds(record, **facts, **fixed)


def without_lines(rows):
    return [replace(row, line=0) for row in rows]


def read_back(rows, record, read, answer, **options):
    text = write_csv(rows, record, **options)
    return without_lines(answer(text.encode("utf-8"), read).rows)


@settings(deadline=None)  # a file is written each time
@given(rows=st.lists(records(Score), min_size=1, max_size=5), short=st.booleans())
def test_scores_read_back_the_same(rows, short, answer):
    assert read_back(rows, Score, read_scores, answer, leave_out_empty=short) == rows


@settings(deadline=None)  # a file is written each time
@given(
    rows=st.lists(records(Combination), min_size=1, max_size=5, unique_by=lambda row: row.candle)
)
def test_combinations_read_back_the_same(rows, answer):
    rows = [replace(row, group=f"{row.oil} x" if row.group else None) for row in rows]
    assert read_back(rows, Combination, read_combinations, answer) == rows


@settings(deadline=None)  # a file is written each time
@given(
    rows=st.lists(records(ThemeMember), min_size=1, max_size=5, unique_by=lambda row: row.candidate)
)
def test_groups_read_back_the_same(rows, answer):
    assert read_back(rows, ThemeMember, read_theme, answer) == rows


SEEN = records(Check, check_h=st.sampled_from([1.0, 2.0, 2.5, 3.99]))
CHECKS = st.lists(SEEN, max_size=4, unique_by=lambda check: check.check_h)


@st.composite
def burns(draw):
    """Burns whose fields do not contradict each other, so that nothing is held back."""
    lit = draw(st.datetimes(datetime(2000, 1, 1), datetime(2100, 1, 1)))
    checks = sorted(draw(CHECKS), key=lambda check: check.check_h)
    burn = draw(
        records(
            Burn,
            lit_at=st.just(lit),
            out_at=st.just(lit + timedelta(hours=draw(st.integers(4, 30)))),
            mass_before_g=st.just(300.0),
            mass_after_g=st.none() | st.floats(0, 300),
            room_c=st.none() | st.just(-5.0),
        )
    )
    return replace(burn, checks=tuple(checks))


def key(burn):
    return burn.candle, burn.burn


@settings(deadline=None)  # a file is written each time
@given(rows=st.lists(burns(), min_size=1, max_size=4, unique_by=key), short=st.booleans())
def test_burns_read_back_the_same_with_their_checks(rows, short, answer):
    found = read_back(rows, Burn, read_burns, answer, leave_out_empty=short)
    assert [replace(row, checks=tuple(without_lines(row.checks))) for row in found] == rows


ONE = ThemeMember(candidate="Kelp", group="sea")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "'=1", "\tx"])
def test_text_like_a_formula_gets_an_apostrophe(text):
    written = write_csv([replace(ONE, candidate=text)], ThemeMember)
    assert written == f"candidate,group\n'{text},sea\n"


def test_a_negative_number_is_no_formula():
    burn = Burn(
        candle="K1", burn=1, lit_at=datetime(2027, 5, 1, 18), out_at=datetime(2027, 5, 1, 22)
    )
    written = write_csv([replace(burn, room_c=-3.5)], Burn, leave_out_empty=True)
    assert written == (
        "candle,burn,lit_at,out_at,room_c\nK1,1,2027-05-01 18:00,2027-05-01 22:00,-3.5\n"
    )


def test_the_first_line_names_every_column_in_the_order_of_the_record():
    names = write_csv([], Combination).strip().split(",")
    assert names == [item.name for item in fields(Combination) if item.name != "line"]


def test_needed_columns_stay_even_without_rows():
    assert write_csv([], ThemeMember, leave_out_empty=True) == "candidate,group\n"


def test_no_score_is_written_in_words():
    score = Score(
        candle="A1", candidate="Kelp", assessor="Odd", room="loft", sitting="S1",
        attribute="liking", tired=True, counts=False,
    )  # fmt: skip
    assert write_csv([score], Score, leave_out_empty=True) == (
        "candle,candidate,assessor,room,sitting,attribute,score,tired,counts\n"
        "A1,Kelp,Odd,loft,S1,liking,cannot tell,yes,no\n"
    )
