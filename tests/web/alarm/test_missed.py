"""Times without a watch: noticed at the next look, and said with what was due in them."""

from datetime import timedelta

import pytest

from throwbench.web.alarm.deadlines import open_deadlines
from throwbench.web.alarm.gaps import Gaps
from throwbench.web.alarm.missed import missed
from throwbench.workshop.house.alarms import note_unwatched, note_watch
from throwbench.workshop.house.models import Timer, Unwatched, Watch
from wall import at

MINUTE = timedelta(minutes=1)
HOUR = 60 * MINUTE


def looks(*times, elapsed=None) -> list[tuple]:
    """Look at each time, as one watch does; what was noted. `elapsed` [s] where a clock was set."""
    gaps, began = Gaps(), times[0]
    for number, now in enumerate(times):
        seconds = (now - began).total_seconds() if elapsed is None else elapsed[number]
        gaps.look(open_deadlines(now), now, elapsed_s=seconds)
    return list(Unwatched.objects.values_list("from_at", "to_at"))


@pytest.fixture
def w8r(lit, loft):
    """Lit at 9:05, to be out by 13:05."""
    return lit("W8R", room=loft, ago=2 * HOUR)


def test_a_machine_that_slept_leaves_a_time_without_a_watch(w8r):
    assert looks(at("12:50"), at("13:22")) == [(at("12:50"), at("13:22"))]


def test_a_minute_between_two_looks_is_no_sleep(w8r):
    assert looks(at("12:50"), at("12:51")) == []


def test_with_nothing_lit_nobody_has_to_watch(w8r):
    w8r.out_at = at("12:00")
    w8r.save()
    assert looks(at("12:50"), at("13:22")) == []


def test_a_clock_that_is_set_forward_is_no_sleep(w8r):
    assert looks(at("12:50"), at("13:22"), elapsed=(0, 5)) == []


def test_a_clock_that_is_set_back_is_no_sleep(w8r):
    assert looks(at("12:50"), at("12:10"), elapsed=(0, 5)) == []


def test_a_candle_that_was_lit_meanwhile_was_unwatched_from_then(w8r):
    assert looks(at("9:00"), at("9:45")) == [(at("9:05"), at("9:45"))]


def test_a_server_that_starts_again_knows_when_it_last_watched(w8r):
    note_watch(at=at("12:50"))
    assert looks(at("13:22")) == [(at("12:50"), at("13:22"))]
    assert Watch.objects.get().last_at == at("13:22")


def test_two_starts_note_one_time_once(w8r):
    note_watch(at=at("12:50"))
    looks(at("13:22"))
    assert looks(at("13:23")) == [(at("12:50"), at("13:22"))]


def test_where_nobody_ever_watched_nothing_was_promised(w8r):
    assert looks(at("13:22")) == []


def said(*gaps, now="13:30") -> tuple:
    for begins, ends in gaps:
        note_unwatched(from_at=at(begins), to_at=at(ends))
    return missed(at(now)).sentences


def test_it_says_which_candle_was_to_be_out(w8r):
    assert said(("12:50", "13:22")) == (
        "Alarm missed from 12:50 to 13:22: W8R was to be out by 13:05.",
    )


def test_a_time_in_which_nothing_was_due_is_kept_quiet(w8r):
    assert said(("11:50", "12:22")) == ()
    assert missed(at("13:30")).quiet == ("Nobody watched from 11:50 to 12:22.",)


@pytest.mark.parametrize(
    ("begins", "ends", "is_missed"),
    [("13:05", "13:22", False), ("13:04", "13:05", True), ("12:50", "13:04", False)],
)
def test_due_at_the_edge_of_the_time(w8r, begins, ends, is_missed):
    assert bool(said((begins, ends))) is is_missed


def test_a_candle_that_was_out_in_time_missed_nothing(w8r):
    w8r.out_at = at("13:00")
    w8r.save()
    assert said(("12:50", "13:22")) == ()


def test_it_is_said_until_the_candle_is_out_and_for_twelve_hours(w8r):
    assert said(("12:50", "13:22"), now="23:59")
    w8r.out_at = at("13:25")
    w8r.save()
    assert missed(at("13:25") + 12 * HOUR - MINUTE).sentences
    assert not missed(at("13:25") + 12 * HOUR).sentences


def test_several_are_named_with_their_times(w8r, lit, loft, owner):
    lit("K2F", room=loft, ago=2 * HOUR)
    lit("T9R", room=loft, ago=2 * HOUR, hours=4.25)
    Timer.objects.create(what="stir", set_by=owner, set_at=at("13:00"), due_at=at("13:10"))
    assert said(("12:50", "13:22")) == (
        "Alarm missed from 12:50 to 13:22: K2F and W8R were to be out by 13:05; "
        "“stir” was to be done by 13:10; T9R was to be out by 13:20.",
    )


def test_another_day_is_named(w8r):
    note_unwatched(from_at=at("12:50"), to_at=at("12:50") + 18 * HOUR)
    assert missed(at("12:50") + 19 * HOUR).sentences == (
        "Alarm missed from Monday 24 May 2027, 12:50 to 06:50: "
        "W8R was to be out by Monday 24 May 2027, 13:05.",
    )


def test_the_round_and_today_and_the_script_say_it(maker, lit, loft, now):
    lit("W8R", room=loft, ago=4 * HOUR + 10 * MINUTE)
    note_unwatched(from_at=now - 30 * MINUTE, to_at=now - 5 * MINUTE)
    words = "Alarm missed from 10:35 to 11:00: W8R was to be out by 10:55."
    assert maker.get("/alarm/").json()["missed"] == [words]
    assert words in maker.get("/round/").text
    assert words in maker.get("/").text


def test_today_is_quiet_where_nothing_was_due(maker, w8r, now):
    note_unwatched(from_at=now - 30 * MINUTE, to_at=now - 5 * MINUTE)
    assert "Nobody watched from 10:35 to 11:00." in maker.get("/round/").text
    assert "Nobody watched" not in maker.get("/").text
