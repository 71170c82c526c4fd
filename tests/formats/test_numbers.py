"""Numbers as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from throwbench.formats.numbers import could_be_thousands, plain_number, said


@pytest.mark.parametrize(
    ("text", "value"),
    [  # definition
        ("6.5", 6.5),
        ("6,5", 6.5),
        ("-3", -3.0),
        ("\N{MINUS SIGN}3", -3.0),
        ("+3", 3.0),
        (",5", 0.5),
        ("5.", 5.0),
        ("1e-3", 0.001),
    ],
)
def test_a_point_and_a_comma_both_part_the_decimals(text, value):
    assert plain_number(text) == value


@pytest.mark.parametrize(
    "text", ["", "abc", "nan", "inf", "1_000", "1.2.3", "1,2,3", "0x1F", "٣", "1e999", "--1", "."]
)
def test_what_is_no_number_is_none(text):
    assert plain_number(text) is None


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_every_number_that_is_written_reads_back(value):
    assert plain_number(repr(value)) == value


@pytest.mark.parametrize("text", ["1,234", "-12,345", "123,456"])
def test_a_comma_before_three_digits_may_part_thousands(text):
    assert could_be_thousands(text)


@pytest.mark.parametrize("text", ["0,125", "1,23", "1,2345", "1.234", "1234,567", "1,234,567"])
def test_other_commas_part_decimals_or_nothing(text):
    assert not could_be_thousands(text)


def test_a_number_is_said_without_a_tail_of_digits():
    assert said(0.1 + 0.2) == "0.3"
    assert said(85.0) == "85"
