"""A burn log as a whole."""

from datetime import date

import pytest

from burning import clean_candle, made_of, seen_burn
from throwbench.records import Check
from throwbench.rules import judge
from throwbench.science.errors import UnclearError
from throwbench.verdict.burn_report import report_burns

DAY = date(2027, 5, 24)
BURNS = [*clean_candle("K7G"), seen_burn(1, candle="K7F"), *clean_candle("A1")]
CARDS = [made_of("K7F"), made_of("K7G"), made_of("N0")]


def report(burns=BURNS, **changes):
    return report_burns(burns, **({"combinations": CARDS, "day": DAY} | changes))


def test_the_limits_are_those_of_the_rules():
    found = report()
    assert found.limits == judge(BURNS, combinations=CARDS, day=DAY)
    assert found.sentence() == " ".join(item.sentence() for item in found.limits)
    assert found.day == "2027-05-24"


def test_every_burned_candle_stands_in_its_place():
    found = report()
    assert [item.candle for item in found.candles] == ["A1", "K7F", "K7G"]
    assert [item.reading.candle for item in found.candles] == ["A1", "K7F", "K7G"]
    assert [item.reading.burns for item in found.candles] == [8, 1, 8]


def test_a_log_of_nothing_still_says_the_cautions():
    found = report([], combinations=())
    assert (found.limits, found.candles, found.sentence()) == ((), (), "")
    assert len(found.cautions) == 4
    assert found.not_tried[0] == "soot index, mean per hour (EN 15426:2018)"
    assert len(found.not_tried) == 5


def test_the_cautions_say_what_a_burn_needs():
    assert report().cautions == (
        "Burn on a heat-proof surface, out of draughts, with nothing above it, "
        "out of reach of children and pets.",
        "Never leave a lit candle. Keep candles at least 100 mm apart (house limit), and do not "
        "move one while the wax is liquid: the vessel may be hot enough to burn.",
        "Wax on fire: lid on, no water.",
        "Local rules and a laboratory's test stand above everything here.",
    )
    assert "at least 75 mm apart" in report(house={"spacing": 75}).cautions[1]


NARROW = (Check(check_h=3, pool_width_mm=50, pool_depth_mm=15, vessel_c=70),)


def test_the_width_given_for_all_and_the_makers_figures_reach_every_part():
    burns = [seen_burn(3, checks=NARROW, wax_left_mm=8)]
    assert not report(burns, combinations=()).candles[0].burns_well.tunnels
    found = report(burns, combinations=(), inside_mm=68, house={"pool-depth": 14, "end-line": 6})
    (candle,) = found.candles
    assert candle.burns_well.words == ("tunnels", "not full by 3 h")
    assert candle.reading.pools[0].share == pytest.approx(50 / 68)
    assert [item.rule for item in found.limits[0].broken] == ["pool-depth"]


def test_the_day_and_the_makers_figures_reach_the_limits():
    burns = [seen_burn(1, afterglow_s=25)]
    assert report(burns, day=date(2018, 6, 1)).limits[0].state == "broken"
    assert report(burns, combinations=()).limits[0].state == "not yet known"
    assert report(burns, combinations=(), house={"afterglow": 20}).limits[0].state == "broken"


def test_what_could_not_be_read_keeps_the_limits_unknown():
    told = report(clean_candle("K7F"), unread={"K7F": "Put right the log of K7F."}).limits[0]
    assert (told.state, told.missing) == ("not yet known", "Put right the log of K7F.")


def test_the_inside_of_the_candles_own_vessel_stands_above_the_one_for_all():
    burns = [seen_burn(3, checks=NARROW)]
    (candle,) = report(burns, combinations=[made_of(inside_mm=55)], inside_mm=68).candles
    assert not candle.burns_well.tunnels
    assert candle.reading.pools[0].share == pytest.approx(50 / 55)


def test_the_makers_end_line_reaches_the_hours_left():
    burns = [seen_burn(2, mass_before_g=300, mass_after_g=276, scale_step_g=1, wax_left_mm=30)]
    cards = [made_of(wax_g=180, wax_mm=60)]
    found = report(burns, combinations=cards, house={"end-line": 6})
    assert found.candles[0].reading.remaining_h == pytest.approx(12)  # definition
    assert report(burns, combinations=cards).candles[0].reading.remaining_h == pytest.approx(9)


def test_one_candle_is_shown_with_its_whole_combination():
    one = report().of("K7F")
    assert [item.candle for item in one.candles] == ["K7F"]
    assert [[item.candle for item in found.candles] for found in one.limits] == [
        ["K7F", "K7G", "N0"]
    ]
    assert one.cautions == report().cautions
    never_burned = report().of("N0")
    assert never_burned.candles == ()
    assert never_burned.limits == one.limits


def test_a_candle_that_is_in_neither_file_is_answered():
    words = (
        r"There is no candle 'X1' here\. The candles are A1, K7F, K7G, N0\. "
        r"Use one of these codes\."
    )
    with pytest.raises(UnclearError, match=words):
        report().of("X1")
    with pytest.raises(UnclearError, match=r"The candles are none\."):
        report([], combinations=()).of("X1")


def test_a_limit_that_does_not_exist_is_answered():
    with pytest.raises(UnclearError, match="'flame' is no limit that can be set"):
        report(house={"flame": 1})
