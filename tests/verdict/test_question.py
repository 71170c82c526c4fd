"""What a trial may be asked (`definition` throughout)."""

from datetime import date
from math import inf, nan

import pytest

from throwbench.science.errors import UnclearError
from throwbench.verdict.question import MOST_STEPS, Question
from throwbench.verdict.result import Band
from throwbench.verdict.settings import Settings

DAY = date(2027, 5, 24)


def test_a_day_is_enough_and_asks_with_the_defaults_of_a_verdict():
    assert Question(day=DAY).settings({}) == Settings()


def test_what_is_asked_reaches_the_verdict():
    question = Question(
        day=DAY,
        choose=4,
        bands=(Band(3.2, 4.4, "loft"),),
        scale=(1, 10),
        cure_days=10.0,
        leave_out=frozenset({"tired"}),
        house={"flame-height": 70.0},
    )
    assert question.settings({"Slate": "stone"}) == Settings(
        choose=4,
        bands=(Band(3.2, 4.4, "loft"),),
        scale=(1, 10),
        groups={"Slate": "stone"},
        cure_days=10.0,
        leave_out=frozenset({"tired"}),
        house={"flame-height": 70.0},
    )


def test_the_smallest_and_the_largest_of_each_are_taken():
    Question(day=DAY, choose=1, scale=(1, 2), cure_days=0)
    Question(day=DAY, scale=(0, MOST_STEPS - 1))


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ({"choose": 0}, "0 may join the line. It is 1 or more. Say how many may join."),
        (
            {"bands": (Band(4.0, 3.0),)},
            "The band is 4 to 3. It is two scores, the lower one first, "
            "such as 3.2 to 4.4. Turn it round, or correct it.",
        ),
        ({"bands": (Band(3.0, 3.0),)}, "The band is 3 to 3. It is two scores"),
        ({"bands": (Band(2, 3), Band(-inf, 3))}, "The band is -inf to 3. It is two scores"),
        ({"bands": (Band(nan, 3),)}, "The band is nan to 3. It is two scores"),
        (
            {"scale": (5, 1)},
            "The scale is 5 to 1. A scale has 2 to 31 steps, the lower one first. "
            "Name the scale that the scores were given on.",
        ),
        ({"scale": (1, 1)}, "The scale is 1 to 1. A scale has 2 to 31 steps"),
        ({"scale": (0, MOST_STEPS)}, "The scale is 0 to 31. A scale has 2 to 31 steps"),
        ({"cure_days": -0.5}, "The cure is -0.5 days. It is 0 days or more. Correct it."),
        ({"cure_days": inf}, "The cure is inf days. It is 0 days or more."),
    ],
)
def test_what_no_trial_can_be_asked_is_a_sentence(asked, sentence):
    with pytest.raises(UnclearError) as told:
        Question(day=DAY, **asked)
    assert str(told.value).startswith(sentence)
