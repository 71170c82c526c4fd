"""Where a candidate stands: at each limit, just under and just over (`definition` throughout)."""

from typing import get_args

import numpy as np
import pytest

from scoring import oil
from throwbench.verdict.pick import Pick
from throwbench.verdict.places import (
    ORDER,
    WORDS,
    clear_winner,
    equally_good,
    level_with_first,
    place_of,
    placed,
    words_of,
)
from throwbench.verdict.result import Place
from throwbench.verdict.settings import Settings

ASKED = Settings()


def pick_of(*, belongs=(0.5, 0.5), best=(0.5, 0.5), chosen=(True, False), cost=(0.1, 0.1)):
    return Pick(
        chosen=np.array(chosen),
        belongs=np.array(belongs),
        best=np.array(best),
        swap_cost=tuple(cost),
        loss=0.0,
    )


@pytest.mark.parametrize(
    ("belongs", "settled"),
    [
        (1.0, True),
        (0.91, True),
        (0.90, True),
        (0.8999, False),
        (0.5, False),
        (0.1001, False),
        (0.0999, True),
        (0.0, True),
    ],
)
def test_placed_from_90_in_100_on_and_down_to_10(belongs, settled):
    assert placed(belongs, ASKED) is settled


def test_placed_by_the_makers_own_figure():
    assert placed(0.8, Settings(placed=0.75))
    assert placed(0.25, Settings(placed=0.75))
    assert not placed(0.26, Settings(placed=0.75))


@pytest.mark.parametrize(
    ("belongs", "cost", "equal"),
    [
        (0.5, 0.1999, True),
        (0.5, 0.2, False),
        (0.5, 0.3, False),
        (0.5, None, False),
        (0.95, 0.1, False),
        (0.05, 0.1, False),
        (0.5, 0.0, True),
    ],
)
def test_equally_good_is_not_placed_and_a_swap_below_a_fifth_of_a_step(belongs, cost, equal):
    assert equally_good(belongs, cost, ASKED) is equal


@pytest.mark.parametrize(
    ("chosen", "belongs", "cost", "held", "place"),
    [
        (True, 0.95, 0.1, False, "in the pick"),
        (True, 0.5, 0.1, True, "in the pick"),
        (True, 0.05, None, False, "in the pick"),
        (False, 0.5, 0.1, True, "held back by its theme"),
        (False, 0.05, 0.1, True, "held back by its theme"),
        (False, 0.05, 0.1, False, "out of reach"),
        (False, 0.5, 0.19, False, "equally good"),
        (False, 0.5, 0.2, False, "too few sniffs"),
        (False, 0.11, 0.9, False, "too few sniffs"),
    ],
)
def test_each_candidate_has_one_place(chosen, belongs, cost, held, place):
    pick = pick_of(chosen=(not chosen, chosen), belongs=(0.3, belongs), cost=(0.3, cost))
    assert place_of(1, pick, group_has_one=held, settings=ASKED) == place


def test_the_order_of_a_report_holds_every_place_once():
    assert sorted(ORDER) == sorted(get_args(Place))


def test_every_place_is_said_in_its_own_words():
    heads = [WORDS[place].sentence() for place in ORDER]
    assert len(set(heads)) == len(ORDER)
    assert heads[:2] == ["The pick", "Equally good: choose by price, papers or easy wick"]
    assert WORDS["barred"].sentence() == "Barred: a limit is broken in each combination tried"
    assert {words.short for words in WORDS.values()} >= {"in the pick", "test again", "held back"}


@pytest.mark.parametrize(
    ("best", "winner"),
    [
        ((0.9499, 0.0501), None),
        ((0.95, 0.05), "A"),
        ((0.85, 0.15), None),
    ],
)
def test_of_two_a_clear_winner_is_the_best_95_times_in_100(best, winner):
    assert clear_winner(pick_of(best=best), ("A", "B"), ASKED) == winner


@pytest.mark.parametrize(("best", "winner"), [(0.8499, None), (0.85, "B"), (0.99, "B")])
def test_of_three_a_clear_winner_is_the_best_85_times_in_100(best, winner):
    pick = pick_of(best=(1 - best, best, 0.0), chosen=(False, True, False))
    assert clear_winner(pick, ("A", "B", "C"), ASKED) == winner


def test_what_makes_a_clear_winner_is_a_setting():
    pick = pick_of(best=(0.6, 0.4, 0.0), chosen=(True, False, False))
    assert clear_winner(pick, ("A", "B", "C"), Settings(clear_of_many=0.6)) == "A"
    assert clear_winner(pick_of(best=(0.6, 0.4)), ("A", "B"), Settings(clear_of_two=0.6)) == "A"


def test_one_alone_wins_nothing():
    assert clear_winner(pick_of(best=(1.0,), chosen=(True,)), ("A",), ASKED) is None


def test_one_that_is_not_picked_is_no_clear_winner():
    pick = pick_of(best=(0.1, 0.9, 0.0), chosen=(True, False, False))
    assert clear_winner(pick, ("A", "B", "C"), ASKED) is None


def drawn(*means, spread):
    """Draws that swing about their mean, turn by turn, each candidate against the others."""
    turn = np.where(np.arange(4000) % 2, 1.0, -1.0)[:, None]
    return np.array(means) + spread * turn * np.where(np.arange(len(means)) % 2, 1.0, -1.0)


@pytest.mark.parametrize(
    ("means", "spread", "near"),
    [
        ((3.0, 3.0, 2.0), 0.1, [True, True, False]),
        ((3.0, 3.04), 0.1, [True, True]),
        ((3.0, 3.06), 0.1, [False, False]),  # a lead that the figures show
        ((2.0, 3.0, 2.96), 0.1, [False, True, True]),
        ((3.0, 3.06), 1.0, [True, True]),  # 2 x 2.0 / sqrt(4000) is 0.063
        ((3.0, 3.07), 1.0, [False, False]),
        ((3.0,), 1.0, [False]),
    ],
)
def test_level_is_whom_the_lead_of_the_first_does_not_tell_from_it(means, spread, near):
    assert level_with_first(drawn(*means, spread=spread)).tolist() == near


def test_where_opinions_split_that_is_why_the_scores_cannot_place_it():
    split = "loved by 2, disliked by 3"
    head = "Opinions split: more sniffs of these noses cannot place it"
    assert words_of(oil("A", "too few sniffs", split=split)).sentence() == head
    assert words_of(oil("A", "too few sniffs")) == WORDS["too few sniffs"]
    assert words_of(oil("A", "equally good", split=split)) == WORDS["equally good"]
