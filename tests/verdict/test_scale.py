"""The maker's scale from the scores (`definition` throughout)."""

import pytest

from scoring import score
from throwbench.science.errors import UnclearError
from throwbench.verdict.scale import scale_of


@pytest.mark.parametrize(
    ("given", "scale"),
    [
        ([], (1, 5)),
        ([None], (1, 5)),
        ([3], (1, 5)),
        ([1, 5], (1, 5)),
        ([0, 5], (0, 5)),
        ([1, 6], (1, 10)),
        ([10], (1, 10)),
        ([0, 10], (0, 10)),
        ([0, None, 6], (0, 10)),
    ],
)
def test_it_is_the_smallest_usual_scale_that_holds_every_score(given, scale):
    assert scale_of([score(step) for step in given]) == scale


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ([11, 2], "Scores run from 2 to 11."),
        ([-1, 2], "Scores run from -1 to 2."),
        ([-1, 0], "Scores run from -1 to 0."),
    ],
)
def test_a_score_that_no_usual_scale_holds_asks_for_its_name(given, words):
    with pytest.raises(UnclearError) as refused:
        scale_of([score(step) for step in given])
    assert str(refused.value) == (
        f"{words} A scale is 1 to 5, 1 to 10 or 0 to 10 unless it is named. "
        "Name it, for example 0-20."
    )
