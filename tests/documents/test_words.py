"""Counts, days and names as a document says them."""

from datetime import date

import pytest

from throwbench.documents.words import compared, day_words, in_words, keep_names_whole, of_100
from throwbench.verdict.result import Verdict


@pytest.mark.parametrize(
    ("chance", "said"),
    [
        (0.0, "under 1"),
        (0.0099, "under 1"),
        (0.01, "1"),
        (0.58, "58"),
        (0.99, "99"),
        (0.991, "over 99"),
        (1.0, "over 99"),
    ],
)
def test_a_chance_is_a_count_of_100_and_never_0_or_100(chance: float, said: str) -> None:
    assert of_100(chance) == said  # definition: the look's own words for the ends


def test_small_counts_are_words() -> None:
    said = [in_words(count, "oil") for count in (0, 1, 4, 13)]
    assert said == ["no oils", "one oil", "four oils", "13 oils"]


def test_one_candidate_alone_is_not_compared(alone: Verdict, liked: Verdict) -> None:
    assert compared(liked)
    assert not compared(alone)


def test_a_day_is_said_in_english_on_any_machine() -> None:
    assert day_words(date(2027, 5, 24)) == "Monday 24 May 2027"  # definition: the calendar


def test_the_name_of_an_oil_does_not_break_in_the_opening_sentence() -> None:
    said = keep_names_whole("Tonight: Kelp and Iron.", ["Kelp and Iron"])
    assert said == "Tonight: Kelp\u00a0and\u00a0Iron."
