"""Errors of the science are sentences in three parts, and carry what they say."""

from math import inf, nan

import pytest

from throwbench.science.errors import OutOfRangeError, SaidError, UnclearError, in_range


def refused(value, limits):
    with pytest.raises(OutOfRangeError) as caught:
        in_range(value, what="Load", unit="%", limits=limits, source="wax card", advice="Ask.")
    return caught.value


def test_a_value_on_either_limit_is_allowed():
    assert in_range(0.5, what="Load", unit="%", limits=(0.5, 9), source="x") == 0.5
    assert in_range(9, what="Load", unit="%", limits=(0.5, 9), source="x") == 9


def test_the_error_carries_what_value_unit_limits_and_source():
    error = refused(80, (0.5, 9))
    assert (error.what, error.value, error.unit) == ("Load", 80, "%")
    assert (error.limits, error.source) == ((0.5, 9), "wax card")


def test_the_sentence_says_what_happened_what_is_allowed_and_what_to_do():
    assert str(refused(80, (0.5, 9))) == "Load is 80 %; 0.5 to 9 % is allowed (wax card). Ask."


def test_a_side_without_a_limit_is_left_out_of_the_sentence():
    assert "at least 1 % is allowed" in str(refused(0, (1, inf)))
    assert "at most 9 % is allowed" in str(refused(10, (-inf, 9)))


@pytest.mark.parametrize("value", [nan, inf, -inf])
def test_what_is_no_number_is_never_allowed(value):
    refused(value, (-inf, inf))


def test_an_unclear_question_is_answered_in_three_sentences_for_the_maker():
    error = UnclearError("A.", "B.", "C.")
    assert str(error) == "A. B. C."
    assert isinstance(error, SaidError)
