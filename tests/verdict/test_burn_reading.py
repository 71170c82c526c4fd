"""One candle's burn log in figures."""

from dataclasses import replace
from datetime import timedelta
from itertools import permutations
from math import sqrt

import pytest

from burning import made_of, seen_burn
from throwbench.records import Check
from throwbench.science.pool import FullPool
from throwbench.verdict.burn_reading import read_candle

MINUTE_SD_H = 1 / 60 / sqrt(6)


def weighed(number, burnt_g, **changes):
    facts = {"mass_before_g": 300, "mass_after_g": 300 - burnt_g, "scale_step_g": 1}
    return seen_burn(number, **(facts | changes))


LOG = [weighed(1, 12), weighed(2, 24), weighed(3, 26)]


def reading(burns, **changes):
    return read_candle("K7F", burns, **({"end_mm": 12} | changes))


def test_a_candle_never_burned_has_no_figures():
    found = reading([])
    assert (found.burns, found.hours, found.rates, found.rate) == (0, 0, (), None)
    assert (found.heat_w, found.heat_sd_w, found.pools, found.vessel_rise_c) == (
        None,
        None,
        (),
        None,
    )
    assert (found.wax_left_mm, found.remaining_h, found.notes) == (None, None, ())
    assert found.sentence() == "K7F: 0 burns, 0 min."
    assert found.pool_sentences() == ()


def test_the_first_burn_is_shown_and_not_judged():
    found = reading(LOG)
    assert [(item.burn, item.judged, item.hours) for item in found.rates] == [
        (1, False, 4),
        (2, True, 4),
        (3, True, 4),
    ]
    assert [item.rate.rate_g_h for item in found.rates] == [3, 6, 6.5]
    assert found.rate.rate_g_h == 6.25
    assert found.rate.burns == 2
    assert found.burns == 3
    assert found.hours == 12


def test_scale_and_clock_are_in_the_doubt_of_a_burn():
    # definition: step 1 g and one minute, both uniform, in 4 h at 6 g/h
    (found,) = reading([weighed(2, 24)]).rates
    assert found.rate.sd_g_h == pytest.approx(sqrt(1 / 6 + (6 * MINUTE_SD_H) ** 2) / 4)


def test_the_heat_has_the_doubt_of_rate_and_flame():
    # definition: 6.25 g/h at 43.8 kJ/g; 9/77 of it beside the rate's own doubt
    found = reading(LOG)
    assert found.heat_w == pytest.approx(6.25 * 43.8 / 3.6)
    of_rate = found.rate.sd_g_h * 43.8 / 3.6
    assert found.heat_sd_w == pytest.approx(sqrt(of_rate**2 + (found.heat_w * 9 / 77) ** 2))


def test_one_burn_says_that_the_spread_is_not_known():
    assert "one burn: the spread between burns is not known" in reading(LOG[:2]).sentence()


def test_a_burn_that_was_not_weighed_gives_no_rate():
    for missing in ("mass_before_g", "mass_after_g"):
        found = reading([replace(LOG[1], **{missing: None})])
        assert (found.rates, found.notes, found.heat_w) == ((), (), None)


def test_a_burn_after_one_that_was_not_weighed_still_has_its_rate():
    found = reading([weighed(1, 12), seen_burn(2), weighed(3, 26)])
    assert [item.burn for item in found.rates] == [1, 3]


def test_the_wax_left_is_reckoned_from_the_masses_and_the_wax_when_new():
    card = made_of(wax_g=180, wax_mm=60)
    assert reading(LOG[:1], combination=card).wax_left_mm == pytest.approx(56)  # 60 x 168 / 180
    assert reading(LOG[:1]).wax_left_mm is None


def test_a_burn_that_cannot_be_reckoned_is_named():
    heavier, no_step = weighed(2, -1), weighed(3, 24, scale_step_g=None)
    found = reading([*LOG[:1], heavier, no_step])
    assert found.notes == (
        "burn 2 is heavier after than before: not counted",
        "burn 3: the step of the scale is not known: not counted",
    )
    assert found.rate is None
    assert found.sentence() == (
        "K7F: 3 burns, 12 h; burn 2 is heavier after than before: not counted; "
        "burn 3: the step of the scale is not known: not counted."
    )


def test_a_burn_in_which_nothing_burned_has_a_rate_of_zero():
    found = reading([weighed(2, 0, wax_left_mm=30)], combination=made_of(wax_g=180, wax_mm=60))
    assert found.rate.rate_g_h == 0
    assert found.remaining_h is None


def test_the_hours_left_are_counted_to_the_end_line():
    # definition: 6 g/h of a candle that weighs 3 g per mm falls 2 mm/h; 18 mm are 9 h
    burns = [weighed(2, 24, wax_left_mm=30)]
    card = made_of(wax_g=180, wax_mm=60)
    assert reading(burns, combination=card).remaining_h == pytest.approx(9)
    assert reading(burns, combination=card, end_mm=6).remaining_h == pytest.approx(12)
    assert reading(burns, combination=card).wax_left_mm == 30


@pytest.mark.parametrize(
    ("burns", "card"),
    [
        ([weighed(2, 24, wax_left_mm=30)], None),
        ([weighed(2, 24, wax_left_mm=30)], made_of(wax_mm=60)),
        ([weighed(2, 24, wax_left_mm=30)], made_of(wax_g=180)),
        ([weighed(2, 24)], made_of(wax_g=180, wax_mm=60)),
        ([seen_burn(2, wax_left_mm=30)], made_of(wax_g=180, wax_mm=60)),
    ],
)
def test_the_hours_left_are_not_guessed(burns, card):
    assert reading(burns, combination=card).remaining_h is None


def test_the_vessels_rise_is_over_its_own_room():
    hot = (Check(check_h=1, vessel_c=40), Check(check_h=4, vessel_c=58), Check(check_h=4))
    burns = [
        seen_burn(1, checks=hot, room_c=20),
        seen_burn(2, checks=hot, room_c=25),
        seen_burn(3, checks=(Check(check_h=4, vessel_c=90),)),
    ]
    assert reading(burns).vessel_rise_c == 38
    assert reading(burns[2:]).vessel_rise_c is None
    assert reading([seen_burn(1, room_c=20)]).vessel_rise_c is None


POOL = (Check(check_h=2, pool_width_mm=51), Check(check_h=3, pool_full=True))


def test_the_pool_of_each_burn_is_said_where_it_is_known():
    burns = [
        seen_burn(1, checks=POOL),
        seen_burn(2),
        seen_burn(3, checks=POOL[:1]),
        seen_burn(4, checks=(Check(check_h=2, pool_full=False),)),
    ]
    found = reading(burns, inside_mm=68)
    assert found.pools[0].to_full == FullPool(after_h=2, by_h=3)
    assert found.pool_sentences() == (
        "burn 1: 100 % of the inside diameter, full melt pool between 2 and 3 h",
        "burn 3: 75 % of the inside diameter, full melt pool more than 2 h",
        "burn 4: full melt pool more than 2 h",
    )
    own = reading(burns, inside_mm=68, combination=made_of(inside_mm=102))
    assert own.pools[2].share == 0.5
    assert reading(burns, combination=made_of()).pools[2].share is None


def test_a_share_at_no_known_hour_of_fullness_is_still_said():
    burns = [seen_burn(1, checks=(Check(check_h=2, pool_width_mm=51, pool_full=None),))]
    assert reading(burns, inside_mm=60).pool_sentences() == (
        "burn 1: 85 % of the inside diameter, full melt pool more than 2 h",
    )


def test_burns_that_agree_on_the_pool_stand_together():
    burns = [seen_burn(number, checks=POOL) for number in (1, 2, 3)]
    assert reading(burns, inside_mm=68).pool_sentences() == (
        "burns 1, 2, 3: 100 % of the inside diameter, full melt pool between 2 and 3 h",
    )


def test_a_candle_at_its_end_line_says_so():
    found = reading([weighed(2, 24, wax_left_mm=12)], combination=made_of(wax_g=180, wax_mm=60))
    assert found.remaining_h == 0
    assert found.sentence().endswith("; at its end line.")


def test_the_order_of_the_burns_changes_nothing():
    assert {reading(order) for order in permutations(LOG)} == {reading(LOG)}


def test_a_reading_speaks():
    hot = (Check(check_h=4, vessel_c=58),)
    burns = [
        weighed(1, 12),
        weighed(2, 24, room_c=20, checks=hot),
        weighed(3, 24, wax_left_mm=30),
    ]
    found = reading(burns, combination=made_of(wax_g=180, wax_mm=60))
    assert found.sentence() == (
        "K7F: 3 burns, 12 h; 6.00 ± 0.073 g/h; from burn to burn it varies by 0 g/h; "
        "heat 73 ± 9 W; vessel up to 38 °C above the room; about 9 h to the end line."
    )


def test_one_burn_stands_in_the_singular():
    half = seen_burn(1)
    half = replace(half, out_at=half.lit_at + timedelta(minutes=90))
    assert reading([half]).sentence() == "K7F: 1 burn, 1 h 30."
