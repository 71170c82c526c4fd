"""Chances, lists and sizes in words (`definition` throughout)."""

import pytest

from throwbench.verdict.words import first_of, in_100, listed, number, ordinal, steps


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (1.0, "over 99 in 100"),
        (0.9901, "over 99 in 100"),
        (0.99, "99 in 100"),
        (0.58, "58 in 100"),
        (0.01, "1 in 100"),
        (0.0099, "under 1 in 100"),
        (0.0, "under 1 in 100"),
    ],
)
def test_a_chance_is_never_0_or_100(chance, words):
    assert in_100(chance) == words


@pytest.mark.parametrize(
    ("names", "words"),
    [([], ""), (["A"], "A"), (["A", "B"], "A and B"), (["A", "B", "C"], "A, B and C")],
)
def test_names_are_listed_as_people_say_them(names, words):
    assert listed(names) == words


def test_a_choice_is_listed_with_or():
    assert listed(["A", "B", "C"], last="or") == "A, B or C"


def test_a_long_list_is_said_by_its_first_names():
    assert first_of("ABCDEF") == "A, B, C, D, E and F"
    assert first_of("ABCDEFG") == "A, B, C, D, E and 2 others"
    assert first_of("ABCDEFGH", last="or") == "A, B, C, D, E or 3 others"
    assert first_of("AB", last="or") == "A or B"


@pytest.mark.parametrize(
    ("count", "word"),
    [(0, "no"), (1, "one"), (4, "four"), (10, "ten"), (12, "twelve"), (13, "13"), (-1, "-1")],
)
def test_numbers_are_words_up_to_twelve(count, word):
    assert number(count) == word


@pytest.mark.parametrize(
    ("place", "word"),
    [
        (1, "first"), (4, "fourth"), (10, "tenth"), (11, "11th"), (12, "12th"), (13, "13th"),
        (14, "14th"), (21, "21st"), (22, "22nd"), (23, "23rd"), (24, "24th"), (111, "111th"),
        (112, "112th"), (113, "113th"), (0, "0th"),
    ],
)  # fmt: skip
def test_places_are_words_up_to_the_tenth(place, word):
    assert ordinal(place) == word


@pytest.mark.parametrize(
    ("size", "words"),
    [
        (0.0, "less than 0.05 step"),
        (0.0499, "less than 0.05 step"),
        (0.051, "about 0.1 step"),
        (0.05, "about 0.1 step"),
        (0.34, "about 0.3 step"),
        (1.04, "about 1.0 step"),
        (1.06, "about 1.1 steps"),
        (2.0, "about 2.0 steps"),
    ],
)
def test_a_size_in_steps_has_its_unit(size, words):
    assert steps(size) == words
