"""One typed line, read without a database."""

import pytest

from throwbench.science.errors import UnclearError
from throwbench.workshop.shelf.one_line import LineRead, read_line


def test_the_example_is_read_whole():
    assert read_line("slate rain, Tarnholt, 8 %, wick 4") == LineRead(
        name="slate rain", supplier="Tarnholt", load_percent=8, wick="4"
    )


@pytest.mark.parametrize("line", ["a; Tarnholt; 6,5 %", "a,Tarnholt,6,5 %", "a\tTarnholt\t6.5%"])
def test_a_comma_between_digits_is_a_decimal_comma(line):
    assert read_line(line) == LineRead(name="a", supplier="Tarnholt", load_percent=6.5)


def test_a_load_may_say_of_what():
    read = read_line("a, 8 % of total")
    assert (read.load_percent, read.load_basis) == (8, "total")


def test_ounces_per_pound_are_a_load_of_wax():
    read = read_line("a, 1 oz per lb")
    assert (read.load_percent, read.load_basis) == (6.25, "wax")


@pytest.mark.parametrize("wick", ["wick flat cotton 4", "flat cotton 4 wick", "Wick flat cotton 4"])
def test_a_wick_may_be_named_in_full(wick):
    assert read_line(f"a, {wick}").wick == "flat cotton 4"


@pytest.mark.parametrize(
    ("part", "field", "value"),
    [
        ("flash 93 °C", "flash_c", 93),
        ("flash point 200F", "flash_c", pytest.approx(93.33, abs=0.01)),
        ("vanillin 0,3 %", "vanillin_percent", 0.3),
        ("density 0.97", "density_g_ml", 0.97),
    ],
)
def test_facts_of_the_papers_are_read(part, field, value):
    assert getattr(read_line(f"a, {part}"), field) == value


@pytest.mark.parametrize("part", ["93 °C", "200 g", "80 %", "vanillin much", "8 oz per kg"])
def test_what_is_not_understood_is_kept_as_typed(part):
    assert read_line(f"a, Tarnholt, {part}").not_understood == (part,)


@pytest.mark.parametrize(
    ("line", "name", "load"),
    [
        ("sea salt & sage 8 %", "sea salt & sage", 8),
        ("sea salt 6,5%, Fjellrype", "sea salt", 6.5),
        ("No. 5 8 % of total", "No. 5", 8),
    ],
)
def test_a_load_behind_the_name_needs_no_comma(line, name, load):
    read = read_line(line)
    assert (read.name, read.load_percent) == (name, load)


def test_a_share_within_a_name_stays_there():
    assert read_line("50 % rhubarb, Tarnholt").name == "50 % rhubarb"


def test_a_second_of_a_kind_is_not_understood():
    read = read_line("a, Tarnholt, 8 %, 9 %, Fjellrype")
    assert (read.supplier, read.load_percent) == ("Tarnholt", 8)
    assert read.not_understood == ("9 %", "Fjellrype")


def test_empty_parts_mean_nothing():
    assert read_line("a, , 8 %,") == LineRead(name="a", load_percent=8)


def test_a_number_at_the_end_of_a_name_belongs_to_the_name():
    assert read_line("Vårrabarbra 114, Fjellrype Duft").name == "Vårrabarbra 114"


@pytest.mark.parametrize("line", ["", "  ", ", Tarnholt", "8 %, wick 4"])
def test_a_line_begins_with_a_name(line):
    with pytest.raises(UnclearError, match=r"begins with the oil's name.*Write it like"):
        read_line(line)
