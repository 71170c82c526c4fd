"""Lit candles along the hours of the day."""

from datetime import timedelta

import pytest

from throwbench.web.today.lanes import lanes
from throwbench.workshop.trials.selectors.burns import lit_now

MIN = timedelta(minutes=1)


@pytest.fixture
def drawn(now):
    return lambda: lanes(lit_now(now), now=now)


def percent(text: str) -> float:
    assert text.endswith("%")
    return float(text[:-1])


def test_none_lit_no_lane(drawn):
    assert (drawn().rows, drawn().ticks) == ((), ())


def test_candles_lit_together_in_one_room_share_a_lane(drawn, lit, loft):
    for code in ("K2F", "S4M", "T9R"):
        lit(code, room=loft, ago=120 * MIN)
    (lane,) = drawn().rows
    assert (lane.name, lane.codes) == ("Three", ("K2F", "S4M", "T9R"))


def test_candles_of_two_rooms_have_two_lanes_the_first_to_end_on_top(drawn, lit, loft, kitchen):
    lit("K2F", room=loft, ago=120 * MIN)
    lit("W8R", room=kitchen, ago=225 * MIN, kind="nose")
    assert [(lane.name, lane.room) for lane in drawn().rows] == [
        ("W8R", "kitchen"),
        ("K2F", "boat-shed loft"),
    ]


def test_a_lane_is_drawn_to_scale(drawn, lit, kitchen):
    """Lit at 9:05, now 11:05, out by 13:05; the axis goes from 9 to 14."""
    lit("K2F", room=kitchen, ago=120 * MIN)
    (lane,) = drawn().rows
    assert percent(lane.lit_x) == pytest.approx(100 * 5 / 300, abs=0.01)
    assert percent(lane.now_x) == pytest.approx(100 * 125 / 300, abs=0.01)
    assert percent(lane.limit_x) == pytest.approx(100 * 245 / 300, abs=0.01)
    assert percent(lane.lit_width) == pytest.approx(40, abs=0.01)
    assert percent(lane.wait_width) == pytest.approx(40, abs=0.01)


def test_a_late_lane_has_nothing_left_to_wait_for(drawn, lit, kitchen):
    lit("K2F", room=kitchen, ago=300 * MIN)
    (lane,) = drawn().rows
    assert percent(lane.wait_width) == 0
    assert percent(lane.limit_x) < percent(lane.now_x)
    assert lane.is_late
    assert lane.late_for == 60 * MIN


@pytest.mark.parametrize(("ago", "wants"), [(225, True), (224, False), (240, True)])
def test_the_last_quarter_of_an_hour_wants_a_hand(drawn, lit, kitchen, ago, wants):
    lit("K2F", room=kitchen, ago=ago * MIN)
    assert drawn().rows[0].wants_a_hand is wants


def test_a_candle_without_a_room_says_so(drawn, lit):
    lit("K2F", room=None, ago=60 * MIN)
    assert drawn().rows[0].room == "room not noted"


@pytest.mark.parametrize("ago", [1, 30, 120, 235, 300, 2000])
def test_the_hours_are_few_in_order_and_leave_room_for_now(drawn, lit, kitchen, ago):
    lit("K2F", room=kitchen, ago=ago * MIN)
    *hours, here = drawn().ticks
    assert here.word == "now 11:05"
    assert len(hours) <= 7
    places = [percent(tick.x) for tick in hours]
    assert places == sorted(places)
    assert all(0 <= place <= 100 for place in places)
    leans = {"start": 12.5, "middle": 0, "end": -12.5}[here.anchor]
    middle = percent(here.x) + leans  # of a word that takes a quarter of the axis
    assert all(abs(place - middle) >= 12.5 + 3.5 for place in places)


def test_the_hour_after_now_is_written_where_it_has_room(drawn, lit, kitchen):
    lit("K2F", room=kitchen, ago=120 * MIN)  # the axis goes from 9 to 14, now is 11:05
    assert [tick.word for tick in drawn().ticks] == ["9", "10", "12", "13", "14", "now 11:05"]


def test_one_query_draws_them_all(drawn, lit, loft, django_assert_num_queries):
    for code in ("K2F", "S4M", "T9R", "N5B"):
        lit(code, room=loft, ago=120 * MIN)
    with django_assert_num_queries(1):
        drawn()


@pytest.mark.parametrize(("count", "name"), [(2, "Two"), (10, "Ten"), (11, "11")])
def test_many_candles_are_counted_in_a_word_that_fits(drawn, lit, loft, count, name):
    for number in range(count):
        lit(f"K{number}F", room=loft, ago=120 * MIN)
    assert drawn().rows[0].name == name
