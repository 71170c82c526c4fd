"""The order of sniffing by what it promises: places and neighbours are balanced (Williams 1949)."""

from collections import Counter
from itertools import pairwise, permutations

import pytest

from throwbench.science.sniff_order import walk

COUNTS = range(2, 17)


def square(count: int) -> list[tuple[int, ...]]:
    return [walk(count, row) for row in range(count if count % 2 == 0 else 2 * count)]


@pytest.mark.parametrize("count", COUNTS)
def test_each_walk_goes_everywhere_once(count):
    assert all(sorted(row) == list(range(count)) for row in square(count))


@pytest.mark.parametrize("count", COUNTS)
def test_each_place_comes_equally_often_in_each_position(count):
    rows = square(count)
    for position in zip(*rows, strict=True):
        assert Counter(position) == dict.fromkeys(range(count), len(rows) // count)


@pytest.mark.parametrize("count", COUNTS)
def test_each_follows_each_other_equally_often(count):
    rows = square(count)
    followed = Counter(pair for row in rows for pair in pairwise(row))
    assert followed == dict.fromkeys(permutations(range(count), 2), len(rows) // count)


def test_three_tags_have_all_six_orders():
    assert set(square(3)) == set(permutations(range(3)))


@pytest.mark.parametrize("count", [3, 5, 7])
def test_two_noses_never_go_the_same_way_round_where_it_is_odd(count):
    assert walk(count, 1) == walk(count, 0)[::-1]


@pytest.mark.parametrize("count", COUNTS)
def test_after_the_last_row_it_begins_again(count):
    assert walk(count, len(square(count))) == walk(count, 0)


def test_six_tags_as_they_are_printed():
    """By hand: 0 1 n-1 2 n-2 3, then each one place on."""
    assert walk(6, 0) == (0, 1, 5, 2, 4, 3)
    assert walk(6, 1) == (1, 2, 0, 3, 5, 4)


def test_nothing_and_one_are_walks_too():
    assert walk(0, 3) == ()
    assert walk(1, 3) == (0,)
