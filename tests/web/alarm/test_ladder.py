"""The ladder: which steps are live now, in words; nothing is said to work that nobody heard."""

from datetime import timedelta

import pytest

from throwbench.web.alarm.here import FRESH_S, WatchHere, elapsed_s
from throwbench.web.alarm.ladder import ladder
from throwbench.web.alarm.players import Player
from throwbench.workshop.house.alarms import note_heard, note_ring

HOUR = timedelta(hours=1)


@pytest.fixture
def here(tmp_path) -> WatchHere:
    return WatchHere(player=Player(tmp_path / "alarm.wav"), looked_s=elapsed_s())


@pytest.fixture
def rungs(here, now):
    return lambda at=now: {one.rung: one for one in ladder(at, here=here).rungs}


def test_what_nobody_tried_is_not_live(rungs, programs):
    programs(aplay="exit 0", notify_send="exit 0")
    found = rungs()
    assert {rung: (one.live, one.words) for rung, one in found.items()} == {
        "page": (False, "off until you turn it on"),
        "machine": (False, "not tried"),
        "notice": (False, "not tried"),
        "calendar": (False, "not made"),
    }


def test_what_was_heard_is_on_since_then(rungs, programs, owner, now):
    programs(aplay="exit 0")
    note_heard(rung="machine", heard=True, who=owner, now=now - timedelta(minutes=7))
    assert (rungs()["machine"].live, rungs()["machine"].words) == (True, "on, heard at 10:58")


def test_heard_on_another_day_says_the_day(rungs, programs, owner, now):
    programs(aplay="exit 0")
    note_heard(rung="machine", heard=True, who=owner, now=now - 24 * HOUR)
    assert rungs()["machine"].words == "on, heard on Sunday 23 May 2027 at 11:05"


def test_what_was_not_heard_is_off_whatever_was_heard_before(rungs, programs, owner, now):
    programs(aplay="exit 0", notify_send="exit 0")
    for rung in ("machine", "notice"):
        note_heard(rung=rung, heard=True, who=owner, now=now - HOUR)
        note_heard(rung=rung, heard=False, who=owner, now=now)
    assert (rungs()["machine"].live, rungs()["machine"].words) == (False, "not heard at 11:05")
    assert rungs()["notice"].words == "not seen at 11:05"


def test_a_machine_without_a_player_says_so(rungs, programs, owner, now):
    programs()
    note_heard(rung="machine", heard=True, who=owner, now=now)
    assert rungs()["machine"].words == "off: this machine has no player for sounds"
    assert rungs()["notice"].words == "off: this machine has no program for notifications"
    assert not rungs()["machine"].live


@pytest.mark.parametrize("ago_s", [None, FRESH_S + 1])
def test_without_a_watch_nothing_of_this_machine_is_live(
    *, rungs, here, programs, owner, now, ago_s
):
    programs(aplay="exit 0")
    note_heard(rung="machine", heard=True, who=owner, now=now)
    here.looked_s = None if ago_s is None else elapsed_s() - ago_s
    assert (rungs()["machine"].live, rungs()["machine"].words) == (False, "off: no watch runs here")


def test_what_could_not_ring_for_what_is_due_is_not_live(*, rungs, programs, owner, lit, loft, now):
    programs(aplay="exit 0")
    note_heard(rung="machine", heard=True, who=owner, now=now - HOUR)
    burn = lit("W8R", room=loft, ago=4 * HOUR)
    note_ring(
        deadline=f"burn {burn.pk}", due_at=now, rung="machine", at=now, trouble="aplay: no card"
    )
    assert (rungs()["machine"].live, rungs()["machine"].trouble) == (False, "aplay: no card")


def test_trouble_of_a_candle_that_is_out_is_over(*, rungs, programs, owner, lit, loft, now):
    programs(aplay="exit 0")
    note_heard(rung="machine", heard=True, who=owner, now=now - HOUR)
    burn = lit("W8R", room=loft, ago=4 * HOUR, out_at=now)
    note_ring(
        deadline=f"burn {burn.pk}", due_at=now, rung="machine", at=now, trouble="aplay: no card"
    )
    assert rungs()["machine"].live


def test_a_calendar_file_is_live_for_the_candles_that_are_in_it(rungs, lit, loft, now):
    burn = lit("W8R", room=loft, ago=2 * HOUR)
    note_ring(deadline=f"burn {burn.pk}", due_at=burn.out_by_at, rung="calendar", at=now)
    assert (rungs()["calendar"].live, rungs()["calendar"].words) == (True, "made at 11:05")
    lit("K2F", room=loft, ago=HOUR)
    assert rungs()["calendar"].words == "made at 11:05; K2F is not in it"
    assert not rungs()["calendar"].live


def test_a_file_with_another_time_of_the_candle_does_not_count(rungs, lit, loft, now):
    burn = lit("W8R", room=loft, ago=2 * HOUR)
    note_ring(deadline=f"burn {burn.pk}", due_at=now + HOUR, rung="calendar", at=now)
    assert rungs()["calendar"].words == "not made"


def test_the_round_says_always_that_nothing_is_guaranteed(maker, lit, loft):
    lit("W8R", room=loft, ago=2 * HOUR)
    page = maker.get("/round/").text
    assert "Alarm not guaranteed: this machine can sleep." in page
    assert "set your own timer too" in page
    assert "this machine’s own sound <strong>off</strong>" in page
