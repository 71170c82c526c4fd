"""Quantities as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from throwbench.formats.quantities import (
    EXAMPLES,
    SPELLINGS,
    QuantityError,
    any_quantity,
    quantity,
    read_load,
    read_part,
    read_quantity,
)
from throwbench.science.units import UNITS


@pytest.mark.parametrize(
    ("text", "unit", "inside"),
    [
        ("5.5 oz", "g", 155.9223771875),  # definition
        ("5,5oz", "g", 155.9223771875),  # definition
        ("1 lb", "g", 453.59237),  # definition
        ("185F", "°C", 85),  # definition
        (" 185 °F ", "°C", 85),  # definition
        ("−5 C", "°C", -5),
        ("6,5 %", "%", 6.5),
        ("6.5", "%", 6.5),
        ("1 oz per lb", "%", 6.25),  # definition
        ("8 fl oz", "ml", 236.58823650),  # definition
        ("0.25 in", "mm", 6.35),  # definition
        ("1/4 in", "mm", None),
        ("1.5 hours", "min", 90),
        ("0,860 g/ml", "g/ml", 0.86),
        ("1234,567 g", "g", 1234.567),
        ("1.234 g", "g", 1.234),
    ],
)
def test_a_quantity_is_read_into_the_inside_unit(text, unit, inside):
    if inside is None:
        with pytest.raises(QuantityError):
            read_quantity(text, unit)
    else:
        assert read_quantity(text, unit) == pytest.approx(inside, rel=1e-12)


def test_what_was_written_is_kept_beside_the_inside_value():
    read = quantity("5,5 ounces", unit="g", bare=False)
    assert (read.entered, read.unit) == (5.5, "oz")


@given(st.floats(0.001, 1e6).map(lambda value: round(value, 2)))
def test_point_and_comma_are_read_alike(value):
    with_point = f"{value:.2f} g"
    assert read_quantity(with_point.replace(".", ","), "g") == read_quantity(with_point, "g")


def test_every_spelling_belongs_to_a_known_unit_and_to_one_only():
    spelled = [word for words in SPELLINGS.values() for word in words]
    assert set(SPELLINGS) <= set(UNITS)
    assert len(spelled) == len(set(spelled))
    assert all(word == word.casefold() for word in spelled)


@pytest.mark.parametrize(
    ("text", "unit", "said"),
    [
        ("1,234 g", "g", r"can be read in two ways; it is 1\.234 or 1234\. Write the one"),
        ("12,345", "g", "two ways"),
        ("1,234.5 g", "g", "is not a number with a unit"),
        ("nan g", "g", "is not a number with a unit"),
        ("inf", "g", "is not a number with a unit"),
        ("", "g", "is not a number with a unit"),
        ("oz", "g", "is not a number with a unit"),
        ("٣ g", "g", "is not a number with a unit"),
        ("9" * 400 + " g", "g", "is not a number with a unit"),
        ("5 stone", "g", "unit that is not known; known are g, mg, kg, oz, lb"),
        ("5 to 6 g", "g", "unit that is not known"),
        ("5 oz", "mm", r"is a weight; a length in mm, cm, in is asked here\. Give it"),
        ("5 fl oz", "g", "is a volume; a weight"),
    ],
)
def test_what_is_not_one_clear_quantity_is_answered_in_three_parts(text, unit, said):
    with pytest.raises(QuantityError, match=said):
        read_quantity(text, unit)


@pytest.mark.parametrize(
    ("unit", "example"),
    [
        ("g", "“5.5 oz” or “5,5 oz”"),
        ("°C", "“72” or “162F”"),
        ("mm", "“68 mm” or “2.7 in”"),
        ("ml", "“250 ml” or “8.5 fl oz”"),
        ("min", "“30 min” or “1.5 h”"),
        ("%", "“8 %” or “6,5 %”"),
        ("g/ml", "“0.98 g/ml”"),
    ],
)
def test_the_example_is_of_the_kind_that_is_asked(unit, example):
    with pytest.raises(QuantityError, match=f"Write it like {example}"):
        read_quantity("hot", unit)


@pytest.mark.parametrize("example", EXAMPLES.values())
def test_what_the_examples_show_is_read(example):
    for text in example.split(" or "):
        assert any(_reads(text.strip("“”"), unit) for unit in UNITS)


def _reads(text, unit):
    try:
        return read_quantity(text, unit) > 0
    except QuantityError:
        return False


def test_a_long_text_is_quoted_short():
    with pytest.raises(QuantityError) as caught:
        read_quantity("x" * 10_000, "g")
    assert len(str(caught.value)) < 250
    assert caught.value.text == "x" * 10_000


def test_a_number_without_a_unit_is_asked_about_where_the_unit_is_open():
    with pytest.raises(QuantityError, match=r"has no unit; write one of g, mg, kg, oz, lb\."):
        quantity("5.5", unit="g", bare=False)


def test_any_quantity_tells_its_unit():
    assert any_quantity("185F") == (185, "°F")
    with pytest.raises(QuantityError, match="has no unit"):
        any_quantity("185")


@pytest.mark.parametrize(
    ("text", "percent", "basis"),
    [
        ("10 %", 10, None),
        ("10", 10, None),
        ("8 % of wax", 8, "wax"),
        ("8% of  Total", 8, "total"),
        ("8 of total", 8, "total"),
        ("1 oz per lb", 6.25, "wax"),
        ("1oz/lb", 6.25, "wax"),
    ],
)
def test_a_load_is_read_with_its_basis_or_without(text, percent, basis):
    assert read_load(text) == (pytest.approx(percent), basis)


def test_ounces_per_pound_are_no_share_of_total():
    with pytest.raises(
        QuantityError, match="mixes two bases; an ounce per pound counts against a pound of wax"
    ):
        read_load("1 oz per lb of total")


def test_a_part_of_a_blend_is_a_name_and_its_parts():
    assert read_part("Ferry Rope:80") == ("Ferry Rope", 80)
    assert read_part("Rope: new : 7,5") == ("Rope: new", 7.5)


@pytest.mark.parametrize("text", ["Ferry Rope", ":80", "Ferry Rope:", "Ferry Rope:many"])
def test_a_part_without_name_or_parts_is_answered(text):
    with pytest.raises(QuantityError):
        read_part(text)
