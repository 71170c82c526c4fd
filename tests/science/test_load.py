"""How much oil for how much wax, on both meanings of "10 %"."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reading import cases
from throwbench.science.errors import OutOfRangeError
from throwbench.science.load import (
    below_card,
    load_of_wax_percent,
    load_on_both_bases,
    mix_for_total,
    mix_for_wax,
    recorded_load_percent,
    share_of_total_percent,
    weight_of,
)
from throwbench.science.units import convert

OZ = 28.349523125
LB = 453.59237
CASES = cases("load-and-fill.csv", "load")


def of_total(total_g, share_percent):
    load = load_of_wax_percent(share_percent=share_percent)
    return mix_for_total(total_g=total_g, load_percent=load)


WORKED = {
    "LF008": lambda: mix_for_wax(wax_g=5.5 * OZ, load_percent=10).oil_g / OZ,
    "LF009": lambda: share_of_total_percent(load_percent=10),
    "LF010": lambda: load_of_wax_percent(share_percent=10),
    "LF011": lambda: recorded_load_percent(wax_g=LB, oil_g=OZ),
    "LF012": lambda: share_of_total_percent(load_percent=convert(1, unit="oz per lb", to="%")),
    "LF013": lambda: mix_for_total(total_g=220, load_percent=10).wax_g,
    "LF014": lambda: mix_for_total(total_g=220, load_percent=10).oil_g,
    "LF015": lambda: of_total(220, 10).wax_g,
    "LF016": lambda: of_total(220, 10).oil_g,
    "LF017": lambda: mix_for_total(total_g=150, load_percent=8).oil_g,
    "LF018": lambda: of_total(150, 8).oil_g,
    "LF019": lambda: share_of_total_percent(load_percent=8),
    "LF020": lambda: share_of_total_percent(load_percent=12),
}
LOADS = st.floats(0.01, 40)
WEIGHTS = st.floats(10, 100_000)


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_load_is_what_its_definition_says(case):
    case.agrees(WORKED[case.id]())


@given(st.floats(0.02, 39.9))
def test_a_load_comes_back_from_its_share_of_total(load):
    share = share_of_total_percent(load_percent=load)
    assert share < load
    assert load_of_wax_percent(share_percent=share) == pytest.approx(load, rel=1e-12)


@given(LOADS, LOADS)
def test_more_load_is_more_share(one, other):
    shares = [share_of_total_percent(load_percent=load) for load in sorted((one, other))]
    assert shares == sorted(shares)


@given(WEIGHTS, LOADS)
def test_wax_and_oil_of_a_total_weigh_the_total(total, load):
    mix = mix_for_total(total_g=total, load_percent=load)
    assert mix.total_g == pytest.approx(total, rel=1e-15)
    assert 100 * mix.oil_g / mix.wax_g == pytest.approx(load, rel=1e-9)


@given(WEIGHTS, LOADS)
def test_both_ways_to_a_mix_meet(wax, load):
    there = mix_for_wax(wax_g=wax, load_percent=load)
    back = mix_for_total(total_g=there.total_g, load_percent=load)
    assert back.wax_g == pytest.approx(wax, rel=1e-12)
    assert recorded_load_percent(wax_g=wax, oil_g=there.oil_g) == pytest.approx(load, rel=1e-12)


@pytest.mark.parametrize("load", [80, 40.01, 0, -10, nan])
def test_an_absurd_load_is_answered_and_not_worked_with(load):
    with pytest.raises(OutOfRangeError, match=r"Load of wax is .* 0\.01 to 40 % is allowed"):
        mix_for_wax(wax_g=500, load_percent=load)


def test_an_absurd_share_is_answered():
    with pytest.raises(OutOfRangeError, match=r"Share of total is 29 %; 0\.01 to 28\.5714 %"):
        load_of_wax_percent(share_percent=29)


@pytest.mark.parametrize("grams", [0, -1, nan, 1e9])
def test_a_weight_that_no_bench_holds_is_answered(grams):
    with pytest.raises(OutOfRangeError, match=r"Wax is .* 0\.001 to 500000 g is allowed"):
        weight_of(grams, what="Wax")


def test_ten_percent_without_a_basis_is_taken_of_wax_and_the_other_meaning_is_said():
    load = load_on_both_bases(percent=10, basis=None)
    assert load.of_wax_percent == 10
    assert load.sentence() == (
        "10 % is taken of wax, because no basis was given; if it is meant of total, it is "
        "11.11 % of wax. 10 % of wax is a share of 9.09 % of total."
    )


def test_thirty_percent_of_wax_is_a_load_although_it_could_not_be_a_share():
    assert load_on_both_bases(percent=30, basis="wax").of_total_percent == pytest.approx(
        23.077,
        abs=0.0005,  # definition: 30/130
    )


def test_a_bare_load_that_could_not_be_a_share_does_not_offer_the_other_meaning():
    assert load_on_both_bases(percent=30, basis=None).sentence() == (
        "30 % is taken of wax, because no basis was given. "
        "30 % of wax is a share of 23.08 % of total."
    )


def test_each_basis_says_the_other_one_beside_it():
    of_wax = load_on_both_bases(percent=8, basis="wax")
    of_all = load_on_both_bases(percent=8, basis="total")
    assert of_wax.sentence() == "8 % of wax is a share of 7.41 % of total."
    assert of_all.sentence() == "8 % of total is a load of 8.7 % of wax."


def test_the_wax_card_stops_a_load_above_its_maximum():
    assert below_card(load_percent=9, card_maximum_percent=9) == 9
    with pytest.raises(OutOfRangeError, match="the wax card's maximum") as caught:
        below_card(load_percent=9.5, card_maximum_percent=9)
    assert caught.value.limits[1] == pytest.approx(9)


def test_a_share_of_total_that_just_meets_the_card_is_allowed():
    load = load_of_wax_percent(share_percent=share_of_total_percent(load_percent=9))
    assert below_card(load_percent=load, card_maximum_percent=9) == load


def test_a_wax_card_that_allows_nothing_is_asked_about():
    with pytest.raises(OutOfRangeError, match="The wax card's maximum is 0 %"):
        below_card(load_percent=8, card_maximum_percent=0)


def test_a_mix_says_its_three_weights():
    assert mix_for_wax(wax_g=200, load_percent=10).sentence() == (
        "20 g of oil into 200 g of wax makes 220 g of mix."
    )
