"""Sums for a set of test candles, and the wax that is really in the pitcher."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reading import cases
from throwbench.science.batch import batch, recorded, weighed
from throwbench.science.dose import half_step_percent, off_percent
from throwbench.science.errors import OutOfRangeError, UnclearError

OZ = 28.349523125
CASES = cases("load-and-fill.csv", "weighing")


def six_vessels(oils=1, pot_residue_g=0.0):
    return batch(
        vessels=6,
        fill_g=90,
        residue_g=6,
        load_percent=8,
        oils=oils,
        pot_residue_g=pot_residue_g,
    )


WORKED = {
    "LF021": lambda: weighed(weighings_g=(518.2, 506.9), load_percent=8).mix.oil_g,
    "LF022": lambda: recorded(wax_g=506.9, oil_g=40.45).mix.load_percent,
    "LF023": lambda: six_vessels().pitcher.total_g,
    "LF024": lambda: six_vessels().pitcher.wax_g,
    "LF025": lambda: six_vessels(oils=7).wax_to_melt_g,
    "LF026": lambda: off_percent(wanted_g=0.72 * OZ, shown_g=0.75 * OZ),
    "LF027": lambda: half_step_percent(weight_g=11.1, step_g=1),
    "LF028": lambda: half_step_percent(weight_g=11.1, step_g=0.1),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_sum_at_the_bench_is_what_its_definition_says(case):
    case.agrees(WORKED[case.id]())


SETS = st.fixed_dictionaries(
    {
        "vessels": st.integers(1, 100),
        "oils": st.integers(1, 30),
        "fill_g": st.floats(20, 500),
        "residue_g": st.floats(0, 50),
        "pot_residue_g": st.floats(0, 200),
        "load_percent": st.floats(0.1, 40),
    }
)


@given(SETS)
def test_nothing_is_lost_between_pot_pitcher_and_vessel(entries):
    sums = batch(**entries)
    brought = sums.wax_to_melt_g + sums.oils * sums.pitcher.oil_g
    poured = sums.vessels * sums.fill_g + sums.residue_g
    assert brought == pytest.approx(sums.oils * poured + sums.pot_residue_g, rel=1e-12)


@given(st.floats(0.1, 39), st.floats(0.1, 39))
def test_more_load_means_less_wax_and_more_oil_in_the_same_vessels(one, other):
    low, high = (
        batch(vessels=6, fill_g=90, load_percent=load).pitcher for load in sorted((one, other))
    )
    assert low.wax_g >= high.wax_g
    assert low.oil_g <= high.oil_g


def test_one_vessel_and_nothing_left_anywhere_is_the_plain_fill():
    sums = batch(vessels=1, fill_g=90, load_percent=8)
    assert sums.pitcher.total_g == pytest.approx(90)
    assert sums.wax_to_melt_g == sums.pitcher.wax_g


def test_a_batch_says_what_goes_into_a_pitcher_and_what_to_melt():
    assert six_vessels(oils=7, pot_residue_g=20).sentence() == (
        "6 vessels of 90 g and 6 g left in the pitcher: 40.44 g of oil into 505.56 g of wax "
        "makes 546 g of mix. Melt 3558.89 g of wax for 7 pitchers, with 20 g left in the pot."
    )


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"vessels": 0}, "Number of vessels is 0; 1 to 1000 is allowed"),
        ({"oils": 0}, "Number of oils is 0; 1 to 1000 is allowed"),
        ({"fill_g": 0}, "Fill of a vessel is 0 g"),
        ({"residue_g": -1}, "What is left in the pitcher is -1 g"),
        ({"pot_residue_g": -1}, "What is left in the pot is -1 g"),
        ({"load_percent": 80}, "Load of wax is 80 %"),
    ],
)
def test_a_batch_that_cannot_be_is_answered(wrong, said):
    entries = {"vessels": 6, "fill_g": 90, "load_percent": 8} | wrong
    with pytest.raises(OutOfRangeError, match=said):
        batch(**entries)


def test_every_weighing_is_kept_and_the_last_one_counts():
    really = weighed(weighings_g=(518.2, 506.9), load_percent=8, target_g=505.6)
    assert really.weighings_g == (518.2, 506.9)
    assert really.mix.wax_g == 506.9
    assert really.sentence() == (
        "Weighed 518.2 g, then 506.9 g; the last counts, 1.3 g over the target of 505.6 g. "
        "At 8 % of wax that takes 40.55 g of oil."
    )


def test_a_single_weighing_under_the_target_says_so():
    really = weighed(weighings_g=(500,), load_percent=8, target_g=505.6)
    assert really.sentence().startswith("Weighed 500 g, 5.6 g under the target of 505.6 g. At")


def test_without_a_target_nothing_is_held_against_the_weighing():
    really = weighed(weighings_g=(500,), load_percent=8)
    assert really.over_target_g is None
    assert really.sentence() == "Weighed 500 g. At 8 % of wax that takes 40 g of oil."


def test_no_weighing_at_all_is_asked_for():
    with pytest.raises(UnclearError, match="There is no weighing"):
        weighed(weighings_g=(), load_percent=8)


def test_an_impossible_early_weighing_is_answered_too():
    with pytest.raises(OutOfRangeError, match="Wax weighed is -3 g"):
        weighed(weighings_g=(-3, 506.9), load_percent=8)


@pytest.mark.parametrize("card", [None, 8, 9])
def test_a_recorded_load_within_the_card_is_told_and_nothing_else(card):
    record = recorded(wax_g=506.9, oil_g=40.45, card_maximum_percent=card)
    assert not record.above_card
    assert record.sentence() == (
        "Recorded load: 40.45 g of oil in 506.9 g of wax is 7.98 % of wax."
    )


def test_a_recorded_load_above_the_card_names_the_wax_that_brings_it_down():
    # definition: 50 g of oil at 9 % of wax need 555.556 g of wax
    record = recorded(wax_g=500, oil_g=50, card_maximum_percent=9)
    assert record.above_card
    assert record.sentence() == (
        "Recorded load: 50 g of oil in 500 g of wax is 10 % of wax. The wax card allows 9 % of "
        "wax at most: do not pour it as it is. 55.56 g more wax would bring it down to that."
    )
