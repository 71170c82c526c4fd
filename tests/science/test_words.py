"""Figures as they stand in a sentence."""

import pytest

from throwbench.science.words import counted, duration, plain, to_the_mg, wick_words


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (505.5556, "505.56"),
        (90.0, "90"),
        (0.55, "0.55"),
        (0.0451, "0.0451"),
        (0, "0"),
        (-0.5, "-0.5"),
    ],
)
def test_a_figure_has_no_tail_of_digits(value, said):
    assert plain(value) == said


@pytest.mark.parametrize(
    ("value", "said"), [(5e-05, "0.00005"), (1.234e-7, "0.000000123"), (0.99999, "1")]
)
def test_a_small_figure_is_written_out(value, said):
    assert plain(value) == said


def test_one_thing_is_not_said_in_the_plural():
    assert (counted(1, "vessel"), counted(6, "vessel")) == ("1 vessel", "6 vessels")
    assert counted(0, "burn") == "0 burns"
    assert (counted(1, "loss", "losses"), counted(2, "loss", "losses")) == ("1 loss", "2 losses")


def test_a_wick_that_is_a_number_says_that_it_is_a_wick():
    assert wick_words("4-ply") == "wick 4-ply"
    assert wick_words("flat cotton 4") == "flat cotton 4"
    assert wick_words(None) == wick_words("") == ""


def test_a_weight_keeps_every_digit_of_the_scale():
    # definition: down to the milligram, no zeros behind, no comma within
    told = [to_the_mg(grams) for grams in (148.1, 11.848, 1234.5, 118.0, 0.1 + 0.2)]
    assert told == ["148.1", "11.848", "1234.5", "118", "0.3"]


@pytest.mark.parametrize(
    ("hours", "said"),
    [
        (1 / 60, "1 min"),
        (0.02, "1 min"),
        (0.25, "15 min"),
        (0.9999, "1 h"),
        (4, "4 h"),
        (4.05, "4 h 03"),
        (4 + 50 / 60, "4 h 50"),
        (0, "0 min"),
        (0.001, "less than 1 min"),
        (26.5, "26 h 30"),
    ],
)
def test_a_time_that_passed_is_said_in_hours_and_minutes(hours, said):
    assert duration(hours) == said
