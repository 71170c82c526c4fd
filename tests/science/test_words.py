"""Figures as they stand in a sentence."""

import pytest

from throwbench.science.words import counted, plain


@pytest.mark.parametrize(
    ("value", "said"),
    [(505.5556, "505.56"), (90.0, "90"), (0.55, "0.55"), (0.0451, "0.0451"), (0, "0")],
)
def test_a_figure_has_no_tail_of_digits(value, said):
    assert plain(value) == said


def test_one_thing_is_not_said_in_the_plural():
    assert (counted(1, "vessel"), counted(6, "vessel")) == ("1 vessel", "6 vessels")
