"""Weights, volumes, temperatures, lengths and loads in the units that makers use."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reading import cases
from throwbench.science.errors import UnclearError
from throwbench.science.fill import fill_g
from throwbench.science.units import (
    UNITS,
    convert,
    convert_difference,
    grams_of,
    in_other_units,
    known_units,
    mg_of,
    named,
    said_in_its_unit,
    weight_words,
)

CASES = cases("load-and-fill.csv", "units")
WORKED = {
    "LF001": lambda: convert(1, unit="oz", to="g"),
    "LF002": lambda: convert(1, unit="US fl oz", to="ml"),
    "LF003": lambda: convert(fill_g(volume_ml=29.5735, density_g_ml=1), unit="g", to="oz"),
    "LF004": lambda: convert(185, unit="°F", to="°C"),
    "LF005": lambda: convert(175, unit="°F", to="°C"),
    "LF006": lambda: convert_difference(10, unit="°F", to="°C"),
    "LF007": lambda: convert(0.25, unit="in", to="mm"),
}
PAIRS = [(a.symbol, b.symbol) for a in UNITS.values() for b in UNITS.values() if a.kind == b.kind]


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_unit_is_what_its_definition_says(case):
    case.agrees(WORKED[case.id]())


@pytest.mark.parametrize(
    ("value", "unit", "to", "expected"),
    [
        (1, "lb", "g", 453.59237),  # definition: yard and pound agreement 1959
        (1, "lb", "oz", 16),  # definition
        (1, "kg", "g", 1000),  # definition
        (1, "oz per lb", "%", 6.25),  # definition: 1/16
        (0, "°C", "°F", 32),  # definition
        (100, "°C", "°F", 212),  # definition
        (1.5, "h", "min", 90),  # definition
        (2, "cm", "mm", 20),  # definition
    ],
)
def test_units_that_stand_in_no_table_row(value, unit, to, expected):
    assert convert(value, unit=unit, to=to) == pytest.approx(expected, rel=1e-14)


@given(st.sampled_from(PAIRS), st.floats(-1e6, 1e6))
def test_there_and_back_is_the_same_value(pair, value):
    unit, to = pair
    back = convert(convert(value, unit=unit, to=to), unit=to, to=unit)
    assert back == pytest.approx(value, rel=1e-12, abs=1e-9)


@given(st.sampled_from(PAIRS), st.floats(-1e3, 1e3), st.floats(-1e3, 1e3))
def test_a_difference_is_the_difference_of_the_points(pair, one, other):
    unit, to = pair
    points = convert(one, unit=unit, to=to) - convert(other, unit=unit, to=to)
    assert convert_difference(one - other, unit=unit, to=to) == pytest.approx(
        points, rel=1e-9, abs=1e-6
    )


def test_a_weight_does_not_become_a_volume():
    with pytest.raises(UnclearError, match="oz is a weight, US fl oz is a volume"):
        convert(1, unit="oz", to="US fl oz")


def test_an_unknown_unit_is_answered_with_the_known_ones():
    with pytest.raises(UnclearError, match=r"'stone' is not known\. Known are: g, mg"):
        convert(1, unit="stone", to="g")


def test_a_conversion_says_every_other_unit_of_its_kind():
    assert in_other_units(185, unit="°F").sentence() == "185 °F is 85 °C."
    assert in_other_units(1, unit="lb").sentence() == (
        "1 lb is 453.59 g or 453592.37 mg or 0.454 kg or 16 oz."
    )


def test_a_converted_difference_says_that_it_is_one():
    said = in_other_units(18, unit="°F", difference=True).sentence()
    assert said == "A difference of 18 °F is 10 °C."


def test_a_converted_load_says_that_it_is_of_wax():
    assert in_other_units(1, unit="oz per lb").sentence() == "1 oz per lb of wax is 6.25 %."


def test_a_unit_alone_in_its_kind_cannot_be_converted():
    with pytest.raises(UnclearError, match="g/ml has no other unit here"):
        in_other_units(0.86, unit="g/ml")


def test_known_units_of_one_kind_leave_the_others_out():
    assert known_units("temperature") == "°C, °F"


def test_a_weight_stands_in_grams_with_ounces_beside_it_when_asked():
    assert weight_words(155.9223771875) == "155.92 g"
    assert weight_words(155.9223771875, ounces=True) == "155.92 g (5.5 oz)"


@given(st.integers(-(10**9), 10**9))
def test_a_weight_that_is_kept_comes_back_from_grams_as_it_was(mg):
    assert mg_of(grams_of(mg)) == mg


def test_a_weight_is_kept_in_whole_milligrams():
    assert mg_of(0.0126) == 13
    assert grams_of(469_125) == 469.125


def test_a_weight_that_is_not_known_is_not_known_in_the_other_unit_either():
    assert mg_of(None) is None
    assert grams_of(None) is None


@pytest.mark.parametrize(
    ("field", "words", "unit"),
    [
        ("mass_after_mg", "mass after", "g"),
        ("mass_after_g", "mass after", "g"),
        ("vessel_c", "vessel", "°C"),
        ("afterglow_s", "afterglow", "s"),
        ("celsius", "", "°C"),
        ("flare_up", "flare up", ""),
    ],
)
def test_the_name_of_a_field_says_its_unit(field, words, unit):
    assert named(field) == (words, unit)


def test_a_kept_figure_is_said_to_the_last_digit_in_the_unit_of_its_field():
    assert said_in_its_unit("469125", field="mass_after_mg") == "469.125 g"
    assert said_in_its_unit("46.5", field="pool_width_mm") == "46.5 mm"
    assert said_in_its_unit("heavy", field="soot") == "heavy"
