"""The burn rate with its doubt, and how long the wax will last."""

from datetime import datetime, timedelta, timezone
from math import inf, nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import uniform

from reading import cases
from throwbench.science.burn import (
    BurnRate,
    CandleRate,
    burn_rate,
    candle_rate,
    difference_sd,
    hours_between,
    level_drop_mm_h,
    remaining_h,
    wax_left_mm,
)
from throwbench.science.errors import OutOfRangeError


def weighed(burnt_g, hours, step_g, **doubts):
    return burn_rate(
        mass_before_g=300, mass_after_g=300 - burnt_g, hours=hours, scale_step_g=step_g, **doubts
    )


WORKED = {
    "BL001": lambda: weighed(24, 4, 1).rate_g_h,
    "BL002": lambda: weighed(24, 4, 1).sd_g_h,
    "BL003": lambda: weighed(24, 4, 1).bound_g_h,
    "BL004": lambda: weighed(24, 4, 0.1).sd_g_h,
    "BL005": lambda: weighed(6, 1, 1).sd_g_h,
    "BL006": lambda: weighed(6, 1, 1).bound_g_h,
    "BU002": lambda: weighed(0.105, 1 / 60, 0.001).rate_g_h,
    "BU011": lambda: level_drop_mm_h(rate_g_h=6.30, inside_mm=21, density_g_ml=0.90),
    "BU023": lambda: (
        burn_rate(mass_before_g=540, mass_after_g=350, hours=40, scale_step_g=1).rate_g_h
    ),
    "BU024": lambda: remaining_h(left_mm=8, end_mm=0, drop_mm_h=0.6 / 3),
}
CASES = {
    name: case
    for name, case in cases("burning.csv", "taper", "burn rate", "burn log").items()
    if name in WORKED
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_rate_is_what_its_definition_says(case):
    case.agrees(WORKED[case.id]())


def test_every_worked_row_is_in_the_table():
    assert set(CASES) == set(WORKED)


@pytest.mark.parametrize("step", [0.1, 1, 5])
def test_two_readings_are_two_uniform_errors(step):
    one = uniform(loc=-step / 2, scale=step).std()  # other program: scipy.stats.uniform.std
    assert difference_sd(step=step) == pytest.approx(one * sqrt(2), rel=1e-12)


def test_the_repeatability_of_the_scale_counts_twice():
    # definition: sqrt(1/6 + 2 * 0.5**2)
    assert difference_sd(step=1, repeatability=0.5) == pytest.approx(sqrt(1 / 6 + 0.5))


def test_scale_and_clock_doubts_add_in_quadrature():
    # definition: 6 g/h in 4 h; clock 0.1 h gives 0.15 g/h; scale 3 g/sqrt(6)/4 h, r 2 g
    both = weighed(24, 4, 3, repeatability_g=2, hours_sd=0.1)
    assert both.sd_g_h == pytest.approx(sqrt((9 / 6 + 2 * 4) / 16 + 0.15**2))


def test_a_rate_says_its_doubt():
    assert weighed(24, 4, 1).sentence() == "6.00 ± 0.1 g/h"


def test_nothing_burnt_is_a_rate_of_zero_with_the_scales_doubt():
    rate = weighed(0, 4, 1)
    assert rate.rate_g_h == 0
    assert rate.sd_g_h == pytest.approx(1 / sqrt(6) / 4)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"hours": 0}, "The time lit is 0 h; at least 0.000277778 h is allowed"),
        ({"hours": -1}, "The time lit is -1 h"),
        ({"hours": nan}, "The time lit is nan h"),
        ({"mass_after_g": 301}, "The mass after the burn is 301 g; 0 to 300 g is allowed"),
        ({"mass_after_g": -1}, "The mass after the burn is -1 g"),
        ({"scale_step_g": 0}, "The step of the scale is 0; at least 1e-09 is allowed"),
        ({"repeatability_g": -1}, "The repeatability is -1; at least 0 is allowed"),
    ],
)
def test_a_burn_that_cannot_be_is_answered(wrong, words):
    entries = {"mass_before_g": 300, "mass_after_g": 276, "hours": 4, "scale_step_g": 1, **wrong}
    with pytest.raises(OutOfRangeError, match=words):
        burn_rate(**entries)


MASSES = st.floats(0, 200)
HOURS = st.floats(0.25, 24)


@given(MASSES, MASSES, HOURS)
def test_more_wax_burnt_is_a_higher_rate(one, other, hours):
    rates = [weighed(burnt, hours, 1).rate_g_h for burnt in sorted((one, other))]
    assert rates == sorted(rates)


@given(MASSES, HOURS, HOURS)
def test_a_longer_burn_is_less_in_doubt(burnt, one, other):
    short, long = sorted((one, other))
    assert weighed(burnt, long, 1).sd_g_h <= weighed(burnt, short, 1).sd_g_h


@given(MASSES, HOURS)
def test_a_finer_scale_is_less_in_doubt_and_never_beyond_its_bound(burnt, hours):
    coarse, fine = weighed(burnt, hours, 1), weighed(burnt, hours, 0.1)
    assert fine.sd_g_h < coarse.sd_g_h < coarse.bound_g_h


def rate(value, sd):
    return BurnRate(rate_g_h=value, sd_g_h=sd, bound_g_h=1)


def test_a_candle_without_a_judged_burn_has_no_rate():
    assert candle_rate([]) is None


def test_one_burn_has_the_scales_doubt_and_no_spread():
    one = candle_rate([rate(6, 0.1)])
    assert one == CandleRate(rate_g_h=6, sd_g_h=0.1, spread_g_h=None, burns=1)
    assert one.sentence() == "6.00 ± 0.1 g/h; one burn: the spread between burns is not known"


def test_the_doubt_of_a_candle_is_spread_and_scale_over_its_burns():
    # definition: s = 0.3 of 5.7, 6.0, 6.3; scale² the mean of 0.01, 0.04, 0.04; n = 3
    three = candle_rate([rate(5.7, 0.1), rate(6.0, 0.2), rate(6.3, 0.2)])
    assert three.rate_g_h == pytest.approx(6)
    assert three.spread_g_h == pytest.approx(0.3)
    assert three.sd_g_h == pytest.approx(sqrt(0.09 / 3 + 0.03 / 3))
    assert three.burns == 3
    assert three.sentence() == "6.00 ± 0.2 g/h; from burn to burn it varies by 0.3 g/h"


@given(st.integers(2, 30))
def test_burns_that_agree_leave_the_scale_alone(n):
    assert candle_rate([rate(6, 0.1)] * n).sd_g_h == pytest.approx(0.1 / sqrt(n))


@pytest.mark.parametrize(
    "wrong", [{"rate_g_h": -1}, {"inside_mm": 0}, {"density_g_ml": 0}, {"inside_mm": inf}]
)
def test_a_level_in_no_vessel_is_answered(wrong):
    entries = {"rate_g_h": 6, "inside_mm": 70, "density_g_ml": 0.9, **wrong}
    with pytest.raises(OutOfRangeError):
        level_drop_mm_h(**entries)


@given(st.floats(0.1, 15), st.floats(20, 200), st.floats(0.7, 1.1))
def test_the_level_falls_by_the_volume_that_burns(rate_g_h, inside, density):
    drop = level_drop_mm_h(rate_g_h=rate_g_h, inside_mm=inside, density_g_ml=density)
    wider = level_drop_mm_h(rate_g_h=rate_g_h, inside_mm=2 * inside, density_g_ml=density)
    assert drop == pytest.approx(4 * wider)


def test_half_the_wax_burnt_leaves_half_the_depth():
    assert wax_left_mm(burnt_g=90, wax_g=180, wax_mm=60) == 30  # definition
    assert wax_left_mm(burnt_g=0, wax_g=180, wax_mm=60) == 60
    assert wax_left_mm(burnt_g=180, wax_g=180, wax_mm=60) == 0


@pytest.mark.parametrize(("burnt", "wax"), [(181, 180), (-1, 180), (0, 0)])
def test_more_burnt_than_poured_is_answered(burnt, wax):
    with pytest.raises(OutOfRangeError, match="The wax"):
        wax_left_mm(burnt_g=burnt, wax_g=wax, wax_mm=60)


@pytest.mark.parametrize("depth", [0, -5])
def test_wax_without_depth_is_answered(depth):
    with pytest.raises(OutOfRangeError, match=f"The wax when new is {depth} mm"):
        wax_left_mm(burnt_g=18, wax_g=180, wax_mm=depth)


def test_hours_are_elapsed_time():
    noon = datetime(2027, 5, 1, 12, 0)
    assert hours_between(noon, noon + timedelta(hours=4, minutes=15)) == 4.25  # definition
    assert hours_between(noon, noon - timedelta(minutes=30)) == -0.5
    east, west = (noon.replace(tzinfo=timezone(timedelta(hours=off))) for off in (2, 0))
    assert hours_between(east, west) == 2  # definition: the same clock, two hours apart


def test_hours_are_counted_to_the_end_line():
    assert remaining_h(left_mm=30, end_mm=12, drop_mm_h=2) == 9  # definition
    assert remaining_h(left_mm=12, end_mm=12, drop_mm_h=2) == 0
    assert remaining_h(left_mm=5, end_mm=12, drop_mm_h=2) == 0
    assert remaining_h(left_mm=30, end_mm=12, drop_mm_h=0) is None


def test_a_level_that_rises_is_answered():
    with pytest.raises(OutOfRangeError, match="The fall of the wax is -1 mm/h"):
        remaining_h(left_mm=30, end_mm=12, drop_mm_h=-1)
