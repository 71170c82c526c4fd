"""What is asked about the burns of one candle, one beside the next."""

from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from throwbench.formats import read_burns
from throwbench.formats.candle_questions import questions_of_candle
from throwbench.records import Burn

LIT = datetime(2027, 5, 1, 18)
FIRST = Burn(candle="K1", burn=1, lit_at=LIT, out_at=LIT + timedelta(hours=4), line=2)


def burn(number, *, pause_h=20.0, **values):
    lit = FIRST.out_at + timedelta(hours=pause_h)
    out = lit + timedelta(hours=4)
    return replace(FIRST, burn=number, lit_at=lit, out_at=out, line=1 + number, **values)


def asked(*burns):
    return [(note.line, note.column, note.fault.outcome) for note in questions_of_candle(burns)]


def test_two_burns_a_day_apart_raise_no_question():
    assert asked(FIRST, burn(2)) == []


def test_burns_out_of_order_in_the_file_are_put_in_order():
    assert asked(burn(2), FIRST) == []


@pytest.mark.parametrize(
    ("number", "words"),
    [(3, "burn 2 is not among the burns read"), (5, "burns 2 to 4 are not among the burns read")],
)
def test_a_gap_in_the_numbers_is_asked_about(number, words):
    (note,) = questions_of_candle([FIRST, burn(number)])
    assert (note.column, note.fault.outcome) == ("burn", "asked")
    assert words in note.fault.sentence()


def test_a_candle_that_begins_with_burn_two_has_a_gap():
    assert asked(burn(2)) == [(3, "burn", "asked")]


def test_three_hours_to_cool_are_usual():
    assert asked(FIRST, burn(2, pause_h=3)) == []


@pytest.mark.parametrize(("pause", "words"), [(2.9, "2 h 54 after burn 1"), (-1, "before burn 1")])
def test_lit_sooner_is_asked_about(pause, words):
    (note,) = questions_of_candle([FIRST, burn(2, pause_h=pause)])
    assert (note.column, note.fault.outcome) == ("lit_at", "asked")
    assert words in note.fault.sentence()


@pytest.mark.parametrize(("pause", "questions"), [(2, 0), (1.9, 1)])
def test_the_makers_own_hours_to_cool_are_the_usual_ones(pause, questions):
    notes = questions_of_candle([FIRST, burn(2, pause_h=pause)], house={"cooling": 2.0})
    assert ["usual is 2 h" in note.fault.sentence() for note in notes] == [True] * questions


@pytest.mark.parametrize(("before", "questions"), [(278.0, 0), (282.0, 0), (277.9, 1), (282.1, 1)])
def test_a_mass_more_than_two_grams_from_the_last_is_asked_about(before, questions):
    last = replace(FIRST, mass_after_g=280.0)
    found = asked(last, burn(2, mass_before_g=before))
    assert found == [(3, "mass_before_g", "asked")] * questions


def test_across_a_gap_masses_are_not_compared():
    last = replace(FIRST, mass_after_g=280.0)
    assert asked(last, burn(3, mass_before_g=200.0)) == [(4, "burn", "asked")]


def test_the_reader_asks_per_candle(write):
    content = (
        "candle,burn,lit_at,out_at,mass_before_g,mass_after_g\n"
        "K1,1,2027-05-01 18:00,2027-05-01 22:00,300,276\n"
        "K2,1,2027-05-01 18:00,2027-05-01 22:00,290,266\n"
        "K1,2,2027-05-01 20:00,2027-05-01 23:00,266,250\n"
    )
    problems = read_burns(write(content)).problems
    assert [(item.line, item.column) for item in problems] == [(4, "lit_at"), (4, "mass_before_g")]


def test_a_burn_that_is_left_out_leaves_a_gap(write):
    content = (
        "candle,burn,lit_at,out_at\n"
        "K1,1,2027-05-01 18:00,2027-05-01 17:00\n"
        "K1,2,2027-05-02 18:00,2027-05-02 22:00\n"
    )
    reading = read_burns(write(content))
    assert [item.burn for item in reading.rows] == [2]
    assert [item.outcome for item in reading.problems] == ["refused", "asked"]
