"""Burns in their order, and the wax that is left."""

from dataclasses import replace
from itertools import permutations

import pytest

from burning import made_of, seen_burn
from throwbench.rules.turn import WaxLeft, by_candle, in_turn, last_wax

WAX = made_of(wax_g=180, wax_mm=60)


def weighed(number, before, after, **changes):
    return seen_burn(number, mass_before_g=before, mass_after_g=after, **changes)


LOG = [weighed(1, 300, 276), weighed(2, 276, 252), weighed(3, 252, 228)]


def test_burns_stand_by_their_number_whatever_their_order():
    for order in permutations(LOG):
        turns = in_turn(order)
        assert [turn.burn.burn for turn in turns] == [1, 2, 3]
        assert [turn.before and turn.before.burn for turn in turns] == [None, 1, 2]


def test_the_burns_of_each_candle_stand_together():
    mixed = [seen_burn(2, candle="B"), seen_burn(1, candle="A"), seen_burn(1, candle="B")]
    assert by_candle(mixed) == {"B": [mixed[0], mixed[2]], "A": [mixed[1]]}
    assert by_candle([]) == {}


def test_two_burns_of_one_number_stand_by_their_times():
    early, late = seen_burn(1), seen_burn(1, lit_at=LOG[1].lit_at, out_at=LOG[1].out_at)
    assert [turn.burn for turn in in_turn([late, early])] == [early, late]


def test_the_first_burn_is_not_judged():
    assert [turn.judged for turn in in_turn(LOG)] == [False, True, True]


def test_the_wax_left_is_computed_from_the_masses():
    # definition: 24 g of 180 g burnt leaves 52 mm of 60 mm
    turns = in_turn(LOG, WAX)
    assert [turn.wax_after for turn in turns] == [
        WaxLeft(mm=pytest.approx(left), measured=False) for left in (52, 44, 36)
    ]
    assert turns[0].wax_when_lit is None
    assert turns[2].wax_when_lit == turns[1].wax_after


def test_a_measured_depth_stands_above_a_computed_one():
    log = [*LOG[:2], replace(LOG[2], wax_left_mm=30)]
    assert in_turn(log, WAX)[2].wax_after == WaxLeft(mm=30, measured=True)
    assert in_turn(log)[2].wax_after == WaxLeft(mm=30, measured=True)


@pytest.mark.parametrize(
    ("log", "combination"),
    [
        (LOG, None),
        (LOG, made_of(wax_g=180)),
        (LOG, made_of(wax_mm=60)),
        (LOG[1:], WAX),
        ([replace(LOG[0], mass_before_g=None), *LOG[1:]], WAX),
        ([*LOG[:2], replace(LOG[2], mass_after_g=None)], made_of()),
        ([LOG[0], replace(LOG[2], mass_after_g=301)], WAX),
        ([LOG[0], replace(LOG[2], mass_after_g=119)], WAX),
    ],
)
def test_wax_that_nobody_knows_stays_unknown(log, combination):
    assert in_turn(log, combination)[-1].wax_after is None


@pytest.mark.parametrize(("after", "left"), [(300, 60), (120, 0)])
def test_nothing_burnt_and_all_burnt_are_known(after, left):
    log = [weighed(1, 300, after)]
    assert in_turn(log, WAX)[0].wax_after == WaxLeft(mm=left, measured=False)


def test_the_last_known_depth_counts():
    log = [seen_burn(1, wax_left_mm=40), seen_burn(2, wax_left_mm=30), seen_burn(3)]
    assert last_wax(in_turn(log)) == WaxLeft(mm=30, measured=True)
    assert last_wax(in_turn([seen_burn(1)])) is None
    assert last_wax(()) is None


def test_no_wax_left_is_known():
    assert last_wax(in_turn([seen_burn(1, wax_left_mm=0)])) == WaxLeft(mm=0, measured=True)


def test_the_wax_left_says_how_it_is_known():
    assert WaxLeft(mm=11.6, measured=True).sentence() == "12 mm of wax left, measured"
    assert WaxLeft(mm=30, measured=False).sentence() == (
        "30 mm of wax left, computed from the masses, for straight walls"
    )
