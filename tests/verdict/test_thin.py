"""How little a verdict rests on (`definition` throughout: the words are the house's own)."""

from datetime import date

import pytest

from scoring import oil, score, scores
from throwbench.verdict.judge import verdict
from throwbench.verdict.speech import headline, next_steps
from throwbench.verdict.thin import rests_on

BOTH = ("Slate", "Kelp")


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"Slate": "5 4", "Kelp": "2 3"}, "two noses, one sniff each"),
        ({"Slate": "54 43", "Kelp": "21 33"}, "two noses, two sniffs each"),
        ({"Slate": "54 4", "Kelp": "21 33"}, "two noses, one to two sniffs each"),
        ({"Slate": "5454", "Kelp": "2"}, "one nose, one to four sniffs"),
        ({"Slate": "5 4 4", "Kelp": "2 3 3"}, ""),
        ({}, ""),
    ],
    ids=str,
)
def test_two_noses_are_very_little_and_said_to_be(given, words):
    assert rests_on(scores(given), BOTH) == words


def test_many_noses_that_met_each_oil_twice_in_all_are_little_too():
    met = [("Odd", "Slate"), ("Tor", "Slate"), ("Maren", "Kelp")]
    rows = [score(3, candidate, assessor=nose) for nose, candidate in met]
    assert rests_on(rows, BOTH) == "three noses, one to two sniffs of an oil"


def test_only_what_is_compared_and_ranks_is_asked_about():
    rows = scores({"Slate": "5 4", "Kelp": "2 3", "Rope": "1111 2222"})
    cold = scores({"Slate": "555 444 333"}, attribute="cold_throw")
    told = [score(None, assessor="Åse")]
    assert rests_on([*rows, *cold, *told], BOTH) == "two noses, one sniff each"
    assert rests_on(cold, BOTH) == ""


def test_where_strength_has_more_scores_it_is_what_the_verdict_rests_on():
    hot = scores({"Slate": "44 55", "Kelp": "33 33"}, attribute="hot_throw")
    assert rests_on([*scores({"Slate": "5"}), *hot], BOTH) == "two noses, two sniffs each"


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({"asked": 2}, "The pick: A and B, from two noses, one sniff each."),
        ({"asked": 3}, "The pick: A and B, from two noses, one sniff each. Only two of three"),
        ({"clear_winner": "A"}, "Clear winner: A, the best 92 in 100, from two noses, one sniff"),
        ({}, "No clear winner yet: A is ahead, the best 92 in 100, from two noses, one sniff"),
        ({"level": ("A", "B")}, "A and B are level, nobody is ahead, from two noses, one sniff"),
    ],
    ids=str,
)
def test_the_first_sentence_says_it(told, words):
    facts = {"asked": 1, "ranked": 3, "clear_winner": None, "best": 0.92}
    rests = "two noses, one sniff each"
    assert words in headline(("A", "B"), **{**facts, **told}, rests=rests)


def test_another_evening_and_other_noses_lead_the_next_steps():
    pair = (oil("A"), oil("B"))
    steps = next_steps(pair, clear_winner=None, rests="two noses, one sniff each")
    assert steps[0] == (
        "This rests on two noses, one sniff each: sniff again on another evening, with other noses "
        "too."
    )
    assert steps[1:] == next_steps(pair, clear_winner=None)
    alone = next_steps((oil("A"),), clear_winner=None, rests="one nose, one sniff")
    assert alone == next_steps((oil("A"),), clear_winner=None)


def test_a_verdict_of_two_noses_says_so():
    found = verdict(scores({"Slate": "5 5", "Kelp": "1 2"}), day=date(2027, 5, 24))
    assert ", from two noses, one sniff each." in found.sentence()
    assert found.next_steps[0].startswith("This rests on two noses, one sniff each")
