"""Limits in force, and the maker's own."""

from datetime import date
from math import inf, nan

import pytest

from throwbench.rules import figure_of, limits_on
from throwbench.science.errors import UnclearError

DAY = date(2027, 5, 24)


def limit(name, **house):
    house = {key.replace("_", "-"): value for key, value in house.items()}
    return next(item for item in limits_on(DAY, house=house) if item.rule.id == name)


def test_what_only_the_maker_can_set_is_not_judged_until_it_is_set():
    assert "vessel-temperature" not in {item.rule.id for item in limits_on(DAY)}
    own = limit("vessel-temperature", vessel_temperature=70)
    assert own.figure == 70
    assert own.set_by_maker
    assert own.sentence() == "at most 70 °C (house limit, set by the maker)"


def test_a_limit_says_its_figure_and_whose_it_is():
    assert limit("flame-height").sentence() == "at most 75 mm (house limit)"
    assert not limit("flame-height").set_by_maker
    assert limit("flashover").sentence() == "never"
    assert limit("wick-stays").sentence() == "never (house limit)"
    assert limit("soot").sentence() == "in at most half of the judged burns (house limit)"
    assert limit("annealing").sentence() == "at most 4 (house limit)"
    assert limit("end-line").sentence() == "more than 12 mm (house limit)"


def test_a_limit_says_its_source_and_whether_the_standard_was_read():
    assert limit("flame-height").source() == (
        "EN 15493:2007; ASTM F2417 (3 in) (the standard itself was not read)"
    )
    assert limit("flashover").source() == "ASTM PS 59-02, definition 3.2.4"
    assert limit("cooling").source() == "common practice, 1 to 8 h in use"


def test_the_makers_figure_stands_above_the_default():
    assert figure_of("flame-height", limits_on(DAY)) == 75
    assert figure_of("flame-height", limits_on(DAY, house={"flame-height": 60})) == 60
    assert figure_of("end-line", limits_on(DAY, house={"end-line": 6})) == 6


def test_an_allowance_is_said_and_the_makers_own_figure_has_none():
    assert (
        limit("burn-length").sentence() == "at most 4 h with an allowance of 15 min (house limit)"
    )
    assert limit("burn-length").allows(4.25)
    own = limit("burn-length", burn_length=4)
    assert own.sentence() == "at most 4 h (house limit, set by the maker)"
    assert own.allows(4)
    assert not own.allows(4.01)


@pytest.mark.parametrize(
    ("name", "figure", "on_it"),
    [
        ("flame-height", 75, True),
        ("cooling", 3, True),
        ("end-line", 12, False),
        ("soot-index", 1, False),
        ("burn-length", 4.25, True),
    ],
)
def test_a_reading_on_the_limit_is_decided_by_the_words(name, figure, on_it):
    assert limit(name).allows(figure) is on_it


def test_at_least_and_more_than_and_below_look_the_right_way():
    assert limit("cooling").allows(4)
    assert not limit("cooling").allows(2)
    assert limit("end-line").allows(13)
    assert not limit("end-line").allows(11)
    assert limit("soot-index").allows(0.9)
    assert not limit("soot-index").allows(1.1)


@pytest.mark.parametrize(
    ("name", "house", "breaks", "bars", "asked_for"),
    [
        ("flame-height", {}, True, "combination", True),
        ("wick-stays", {}, True, "fixing", True),
        ("vessel-damage", {}, True, "combination and vessel", True),
        ("afterglow", {}, True, "combination", False),
        ("afterglow", {"afterglow": 25}, True, "combination", True),
        ("vessel-temperature", {"vessel_temperature": 70}, True, "combination", True),
        ("pool-depth", {}, False, "nothing", False),
        ("pool-depth", {"pool_depth": 15}, True, "combination", True),
        ("cooling", {"cooling": 5}, False, "nothing", False),
        ("incline", {}, False, "nothing", False),
    ],
)
def test_what_breaks_what_it_bars_and_what_must_be_looked_at(name, house, breaks, bars, asked_for):
    found = limit(name, **house)
    assert (found.breaks_candles, found.bars, found.asked_for) == (breaks, bars, asked_for)


@pytest.mark.parametrize("name", ["relights", "soot-index", "flame"])
def test_what_cannot_be_set_is_answered(name):
    words = (
        rf"'{name}' is no limit that can be set\. House limits: flame-height, secondary-ignition, "
        r"afterglow, .*spacing\. Use one of these names\."
    )
    with pytest.raises(UnclearError, match=words):
        limits_on(DAY, house={name: 1})


@pytest.mark.parametrize("value", [0, -1, nan, inf])
def test_a_house_limit_is_a_number_above_zero(value):
    words = (
        rf"The house limit 'flame-height' is {value}\. A limit is a number above zero\. "
        "Give one, or leave the limit out"
    )
    with pytest.raises(UnclearError, match=words):
        limits_on(DAY, house={"flame-height": value})


def test_a_small_figure_is_a_figure():
    assert limit("flame-height", flame_height=0.5).figure == 0.5


def test_limits_stand_in_the_order_of_the_file():
    names = [item.rule.id for item in limits_on(DAY)]
    assert names[:3] == ["flame-height", "secondary-ignition", "flashover"]
    assert names[-1] == "self-extinguishing"
