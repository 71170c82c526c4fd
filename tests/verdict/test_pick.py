"""The pick against every allowed set, counted out one by one (`definition` throughout)."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from throwbench.verdict.pick import best_sets, choose

CHOICES = st.tuples(
    st.integers(0, 10**6),
    st.integers(1, 5),
    st.lists(st.sampled_from([None, None, "rhubarb", "smoke"]), min_size=1, max_size=6),
)


def drawn(seed, candidates, draws=7):
    return np.random.default_rng(seed).normal(size=(draws, candidates))


def allowed_sets(groups, most):
    """All sets that break no theme and are as large as they can be."""
    every = [
        chosen
        for size in range(1, most + 1)
        for chosen in combinations(range(len(groups)), size)
        if one_of_each_theme(groups[i] for i in chosen)
    ]
    largest = max(map(len, every))
    return [chosen for chosen in every if len(chosen) == largest]


def one_of_each_theme(groups):
    named = [group for group in groups if group is not None]
    return len(named) == len(set(named))


def best_of(sets, worth):
    return max(sets, key=lambda chosen: sum(worth[i] for i in chosen))


@given(CHOICES)
@settings(max_examples=150, deadline=None)
def test_the_pick_is_the_best_of_all_allowed_sets(case):
    seed, most, groups = case
    worth = drawn(seed, len(groups))
    pick = choose(worth, groups=groups, most=most)
    assert tuple(np.flatnonzero(pick.chosen)) == best_of(
        allowed_sets(groups, most), worth.mean(axis=0)
    )


@given(CHOICES)
@settings(max_examples=150, deadline=None)
def test_the_chance_to_belong_and_the_loss_are_those_of_counting_every_draw(case):
    seed, most, groups = case
    worth = drawn(seed, len(groups))
    pick = choose(worth, groups=groups, most=most)
    sets = allowed_sets(groups, most)
    ideal = [best_of(sets, row) for row in worth]
    shares = [sum(i in chosen for chosen in ideal) / len(worth) for i in range(len(groups))]
    assert pick.belongs == pytest.approx(shares)
    assert pick.belongs.sum() == pytest.approx(len(sets[0]))
    won = [sum(row[i] for i in chosen) for row, chosen in zip(worth, ideal, strict=True)]
    kept = worth[:, pick.chosen].sum(axis=1)
    assert pick.loss == pytest.approx(np.mean(won) - kept.mean())
    assert pick.loss >= 0.0


@given(CHOICES)
@settings(max_examples=150, deadline=None)
def test_a_swap_costs_what_the_best_set_on_the_other_side_of_the_line_lacks(case):
    seed, most, groups = case
    worth = drawn(seed, len(groups))
    pick = choose(worth, groups=groups, most=most)
    sets, mean = allowed_sets(groups, most), worth.mean(axis=0)
    picked = sum(mean[pick.chosen])
    for this, cost in enumerate(pick.swap_cost):
        across = [chosen for chosen in sets if (this in chosen) != pick.chosen[this]]
        if across:
            other = best_of(across, mean)
            assert cost == pytest.approx(picked - sum(mean[i] for i in other))
            assert cost > -1e-12
        else:
            assert cost is None


@given(CHOICES)
@settings(max_examples=50, deadline=None)
def test_the_best_is_the_highest_whatever_its_theme(case):
    seed, most, groups = case
    worth = drawn(seed, len(groups))
    pick = choose(worth, groups=groups, most=most)
    highest = [int(row.argmax()) for row in worth]
    assert pick.best == pytest.approx([highest.count(i) / 7 for i in range(len(groups))])


@given(CHOICES)
@settings(max_examples=50, deadline=None)
def test_nothing_is_lost_when_all_draws_are_alike(case):
    seed, most, groups = case
    worth = np.repeat(drawn(seed, len(groups), draws=1), 5, axis=0)
    pick = choose(worth, groups=groups, most=most)
    assert pick.loss == pytest.approx(0.0, abs=1e-12)
    assert set(pick.belongs) <= {0.0, 1.0}
    assert (pick.belongs == pick.chosen).all()


@given(st.integers(0, 10**6), st.integers(2, 6), st.integers(1, 3))
@settings(max_examples=50, deadline=None)
def test_the_order_of_the_candidates_changes_nothing(seed, candidates, most):
    worth = drawn(seed, candidates)
    groups = ["theme" if i < 2 else None for i in range(candidates)]
    order = np.random.default_rng(seed).permutation(candidates)
    pick = choose(worth, groups=groups, most=most)
    turned = choose(worth[:, order], groups=[groups[i] for i in order], most=most)
    assert turned.loss == pytest.approx(pick.loss)
    assert turned.belongs == pytest.approx(pick.belongs[order])
    assert (turned.chosen == pick.chosen[order]).all()


def test_fewer_are_picked_where_there_are_fewer():
    pick = choose(np.array([[3.0, 4.0]]), groups=[None, None], most=5)
    assert pick.chosen.tolist() == [True, True]
    assert pick.belongs.tolist() == [1.0, 1.0]
    assert pick.swap_cost == (None, None)
    assert pick.loss == 0.0


def test_fewer_are_picked_where_themes_leave_no_more():
    pick = choose(np.array([[3.0, 4.0, 1.0]]), groups=["rhubarb", "rhubarb", None], most=3)
    assert pick.chosen.tolist() == [False, True, True]
    assert pick.swap_cost == (1.0, 1.0, None)


def test_two_of_one_theme_and_nothing_else_can_only_change_places():
    pick = choose(np.array([[3.0, 3.5]]), groups=["rhubarb", "rhubarb"], most=2)
    assert pick.chosen.tolist() == [False, True]
    assert pick.swap_cost == (0.5, 0.5)


def test_one_candidate_is_picked_and_cannot_be_swapped():
    pick = choose(np.array([[3.0], [4.0]]), groups=["rhubarb"], most=1)
    assert pick.chosen.tolist() == [True]
    assert pick.best.tolist() == [1.0]
    assert pick.swap_cost == (None,)


def test_a_worth_below_nothing_is_still_picked():
    sets = best_sets(np.array([[-3.0, -1.0, -2.0]]), groups=[None, "a", "a"], most=2)
    assert sets.tolist() == [[True, True, False]]


def test_draws_that_are_worth_the_same_give_no_advantage_to_the_first():
    """`definition`: of four alike each is the best in a quarter; 2,000 draws give it to 3 %."""
    pick = choose(np.zeros((2000, 4)), groups=[None] * 4, most=2)
    assert pick.best == pytest.approx([0.25] * 4, abs=0.03)
    assert pick.belongs == pytest.approx([0.5] * 4, abs=0.04)
    assert pick.loss == 0.0
    assert set(pick.swap_cost) == {0.0}


def test_lots_are_drawn_alike_each_time():
    alike = np.zeros((50, 4))
    first, again = (choose(alike, groups=[None] * 4, most=1) for _ in range(2))
    assert first.best.tolist() == again.best.tolist()
    assert first.belongs.tolist() == again.belongs.tolist()


def test_a_lot_never_outweighs_a_difference():
    worth = np.tile([1.0, 1.0 + 1e-6, 1.0 - 1e-6], (500, 1))
    pick = choose(worth, groups=[None] * 3, most=1)
    assert pick.best.tolist() == [0.0, 1.0, 0.0]
    assert pick.belongs.tolist() == [0.0, 1.0, 0.0]


def test_no_seat_chooses_nobody():
    assert not best_sets(np.array([[3.0, 4.0]]), groups=[None, None], most=0).any()


def test_what_is_worth_the_same_is_told_apart_by_lot_and_not_by_the_order_of_the_file():
    """Four oils always worth the same: each is the best, and belongs in two, about as often."""
    alike = np.zeros((4000, 4))
    found = choose(alike, groups=[None] * 4, most=2)
    assert found.best == pytest.approx([0.25] * 4, abs=0.03)
    assert found.belongs == pytest.approx([0.5] * 4, abs=0.03)
    assert found.loss == 0.0
