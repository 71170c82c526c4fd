"""A clock that was put back: each page says so, it rings, and each time stands with its day."""

import re
from datetime import timedelta

import pytest

from throwbench.web.alarm.behind import clock_behind
from throwbench.web.alarm.deadlines import THERE_FOR, open_deadlines
from throwbench.web.alarm.players import Player
from throwbench.web.alarm.watch import Watcher
from throwbench.web.templatetags.house import clock_by
from throwbench.web.today.lanes import lanes
from throwbench.workshop.house.alarms import note_there
from throwbench.workshop.house.models import Entry
from throwbench.workshop.trials.selectors.burns import lit_now

HOUR = timedelta(hours=1)
DAY = 24 * HOUR
SAID = (
    "This machine’s clock shows 24 May 2027, 11:05; D5Q was lit on 25 May 2027, 09:05. Put the "
    "clock right. Until then no put-out time here holds: go by your own timer."
)


@pytest.fixture
def tomorrows(lit, loft):
    """Lit at 9:05 of tomorrow: the clock was put back by a day."""
    return lit("D5Q", room=loft, ago=2 * HOUR - DAY)


@pytest.mark.parametrize("page", ["/", "/round/", "/shelf/"])
def test_pages_say_that_the_clock_is_behind(maker, tomorrows, page):
    assert SAID in maker.get(page).text


@pytest.mark.parametrize("page", ["/", "/round/"])
def test_no_duration_is_negative_and_each_time_has_its_day(maker, tomorrows, page):
    text = re.sub(r"<[^>]+>", "", maker.get(page).text.replace("\N{NO-BREAK SPACE}", " "))
    said = " ".join(text.split())
    assert not re.search(r"-\d+ (h|min)", said)
    assert "lit on 25 May, 09:05" in said.replace("Lit", "lit")
    assert "25 May, 13:05" in said


def test_a_lane_keeps_within_its_axis(tomorrows, now):
    (lane,) = lanes(lit_now(now), now=now).rows
    assert lane.lit_for == timedelta(0)
    assert (lane.lit_width, lane.wait_x) == ("0.00%", lane.lit_x)
    assert lane.wants_a_hand


def test_a_page_rings_for_it_at_once(maker, tomorrows):
    (one,) = maker.get("/alarm/").json()["deadlines"]
    assert one["behind"] == SAID
    assert one["rings_from"] < one["from"]


def test_this_machine_rings_for_it_each_minute_for_a_quarter_of_an_hour(
    *, tomorrows, programs, tmp_path, now
):
    noted = programs(aplay="exit 0", notify_send="exit 0")
    watcher = Watcher(Player(tmp_path / "alarm.wav"))
    for second in range(0, 20 * 60, 5):
        watcher.tick(now + timedelta(seconds=second), elapsed_s=second)
        watcher.note_what_rang(wait=True)
    watcher.end()
    heard = noted.read_text()
    assert heard.count("aplay") == 15
    assert heard.count("notify-send") == 1
    assert SAID in heard


def test_it_is_silent_for_a_while_once_somebody_is_there(tomorrows, owner, now):
    note_there(who=owner, now=now)
    (one,) = open_deadlines(now + HOUR)
    assert one.rings_from == now + THERE_FOR


def test_who_was_there_tomorrow_keeps_nothing_silent_today(tomorrows, owner, now):
    note_there(who=owner, now=now + DAY)
    (one,) = open_deadlines(now)
    assert one.rings_from < now


def test_two_minutes_are_no_clock_that_is_behind(lit, loft, now):
    lit("D5Q", room=loft, ago=timedelta(minutes=-2))
    assert clock_behind(now) == ""
    assert not open_deadlines(now)[0].clock_is_behind


def test_where_nothing_is_lit_the_newest_note_tells(owner, now):
    Entry.objects.create(
        id="6f2a2d0e-9f57-4c3e-8a5f-0a8cbe1b1c55", what="x", digest="", who=owner, at=now + DAY
    )
    assert "shows 24 May 2027, 11:05; the newest note is of 25 May 2027, 11:05. Put" in (
        clock_behind(now)
    )


def test_all_is_well_where_everything_was_noted_before(lit, loft, now):
    lit("D5Q", room=loft, ago=HOUR)
    assert clock_behind(now) == ""


def test_a_time_of_another_year_has_its_year(now):
    assert clock_by(now + 400 * DAY, now) == "27\N{NO-BREAK SPACE}Jun\N{NO-BREAK SPACE}2028, 11:05"
    assert clock_by(now, now) == "11:05"
