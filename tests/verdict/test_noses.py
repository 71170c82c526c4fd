"""How an assessor uses the scale: said from half a step on, and only if sure (`definition`)."""

import pytest

from scoring import believed
from throwbench.verdict.noses import nose_notes

WORDS = "uses the {} end of the scale; this is taken into account"


def notes(**noses):
    return nose_notes({"liking": believed([[0.0]] * 10, noses=noses)})


def test_who_stands_above_and_who_stands_below_the_panel():
    upper, lower = notes(Pernille=[0.6] * 10, Tor=[-0.6] * 10, Odd=[0.0] * 10)
    assert (upper.assessor, upper.words) == ("Pernille", WORDS.format("upper"))
    assert (lower.assessor, lower.words) == ("Tor", WORDS.format("lower"))
    assert (upper.shift, upper.chance) == (pytest.approx(0.6), 1.0)
    assert (lower.shift, lower.chance) == (pytest.approx(-0.6), 1.0)


def test_half_a_step_is_worth_a_word_and_less_is_not():
    assert [note.assessor for note in notes(A=[0.5] * 10, B=[-0.5] * 10)] == ["A", "B"]
    assert notes(A=[0.499] * 10, B=[-0.499] * 10) == ()


@pytest.mark.parametrize(("sure", "said"), [(8, False), (9, True)])
def test_a_habit_is_said_if_it_is_there_in_nine_draws_of_ten(sure, said):
    draws = [2.0] * sure + [-1.0] * (10 - sure)
    found = notes(A=draws, B=[-step for step in draws])
    assert bool(found) is said
    assert all(note.chance == 0.9 for note in found)


def test_a_shift_is_against_the_panel_and_not_against_nothing():
    assert notes(A=[3.0] * 10, B=[3.0] * 10) == ()
    assert notes(A=[3.0] * 10) == ()


def test_a_shift_is_against_the_panel_of_the_same_draw():
    found = notes(A=[1.6, 3.6] * 5, B=[0.4, 2.4] * 5)
    assert [(note.assessor, note.chance) for note in found] == [("A", 1.0), ("B", 1.0)]


def test_a_draw_without_a_shift_does_not_make_it_sure():
    draws = [2.0] * 8 + [0.0] * 2
    assert notes(A=draws, B=[-step for step in draws]) == ()


def test_the_mean_over_the_attributes_that_an_assessor_scored():
    liking = believed([[0.0]] * 10, noses={"A": [1.0] * 10, "B": [-1.0] * 10})
    hot = believed([[0.0]] * 10, noses={"A": [0.2] * 10, "B": [-0.2] * 10, "C": [0.0] * 10})
    found = nose_notes({"liking": liking, "hot_throw": hot})
    assert {note.assessor: round(note.shift, 9) for note in found} == {"A": 0.6, "B": -0.6}
    cold = believed([[0.0]] * 10, noses={"B": [-1.0] * 10, "C": [1.0] * 10})
    found = nose_notes({"liking": liking, "cold_throw": cold})
    assert {note.assessor: note.shift for note in found} == {"A": 1.0, "B": -1.0, "C": 1.0}


def test_nothing_scored_is_nothing_said():
    assert nose_notes({}) == ()
