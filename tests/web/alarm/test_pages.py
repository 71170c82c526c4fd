"""Trying a step, the strip, and the timers, as a browser meets them without a script."""

import uuid
from datetime import timedelta

import pytest

from throwbench.science.errors import UnclearError
from throwbench.web.alarm.here import watch_here
from throwbench.web.alarm.players import Player
from throwbench.workshop.house.models import Heard, Timer
from throwbench.workshop.house.timers import set_timer

HOUR = timedelta(hours=1)
PAGE = {"Accept": "text/html"}


@pytest.fixture(autouse=True)
def player(monkeypatch, tmp_path) -> None:
    monkeypatch.setattr(watch_here, "player", Player(tmp_path / "alarm.wav"))


def test_ring_it_now_rings_and_asks_whether_it_was_heard(maker, programs):
    noted = programs(aplay="exit 0")
    page = maker.post("/alarm/ring/", {"rung": "machine"}, headers=PAGE).text
    assert noted.read_text().startswith("aplay")
    assert "This machine rang just now. Did you hear it where you will be?" in page
    maker.post("/alarm/heard/", {"rung": "machine", "heard": "no"}, headers=PAGE)
    assert [(one.rung, one.heard) for one in Heard.objects.all()] == [("machine", False)]


def test_what_cannot_ring_is_said_and_asks_nothing(maker, programs):
    programs(aplay="echo no card >&2; exit 1")
    page = maker.post("/alarm/ring/", {"rung": "machine"}, headers=PAGE).text
    assert "It could not ring: aplay: no card." in page
    assert "Set your own timer." in page
    assert "Did you hear it" not in page


def test_a_notification_is_tried_by_itself(maker, programs):
    noted = programs(aplay="exit 0", notify_send="exit 0")
    page = maker.post("/alarm/ring/", {"rung": "notice"}, headers=PAGE).text
    assert "Did you see it?" in page
    assert noted.read_text().startswith("notify-send")


def test_the_round_offers_to_ring_only_where_something_can(maker, lit, loft, programs):
    lit("W8R", room=loft, ago=2 * HOUR)
    programs()
    assert "Ring it now" not in maker.get("/round/").text
    programs(aplay="exit 0")
    assert "Ring it now" in maker.get("/round/").text


def test_the_strip_is_in_every_page_of_a_maker_whatever_is_lit(maker, nose):
    """A candle may be lit on another device while the page stands open."""
    for path in ("/", "/round/", "/shelf/", "/house/"):
        assert "data-alarm " in maker.get(path).text
    assert "data-alarm" not in nose.get("/nose/").text


def test_where_only_timers_run_the_sound_can_be_turned_on_too(maker):
    page = maker.get("/timers/").text
    assert "data-sound-on hidden>Turn the sound on and try it" in page
    assert 'id="alarm-ring"' in page


def test_handing_over_is_offered_once_more_when_it_is_due(maker, lit, loft):
    burn = lit("W8R", room=loft, ago=2 * HOUR)
    assert '<details class="going" id="going">' in maker.get("/round/").text
    type(burn).objects.filter(pk=burn.pk).update(out_by_at=burn.out_by_at - 2 * HOUR)
    assert '<details class="going" id="going" open>' in maker.get("/round/").text


def test_a_timer_is_set_once_however_often_it_is_pressed(maker, now):
    sent = {"what": " stir ", "minutes": "3", "entry": uuid.uuid4()}
    for _ in range(2):
        assert maker.post("/timers/", sent).headers["Location"] == "/timers/"
    timer = Timer.objects.get()
    assert (timer.what, timer.due_at) == ("stir", now + timedelta(minutes=3))
    assert "Stir: at 11:08." in maker.get("/timers/").text


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({"what": "", "minutes": "3"}, "The timer has no words."),
        ({"what": "   ", "minutes": "3"}, "The timer has no words."),
        ({"what": "stir", "minutes": ""}, "No minutes are given."),
        ({"what": "stir", "minutes": "0.5"}, "Time is 0.5 min; possible is 1 to 1440 min."),
        ({"what": "stir", "minutes": "1441"}, "possible is 1 to 1440 min."),
        ({"what": "stir", "minutes": "soon"}, "soon"),
    ],
)
def test_a_timer_that_cannot_be_is_refused_with_a_sentence(maker, sent, said):
    page = maker.post("/timers/", sent)
    assert page.status_code == 200
    assert said in page.text
    assert not Timer.objects.exists()


def test_hours_and_a_comma_are_read(maker, now):
    maker.post("/timers/", {"what": "look again", "minutes": "1,5 h"})
    assert Timer.objects.get().due_at == now + timedelta(minutes=90)


def test_what_is_due_says_so_and_done_ends_it(maker, owner, now):
    set_timer(what="stir", minutes=3, who=owner, now=now - timedelta(minutes=3))
    timer = Timer.objects.get()
    page = maker.get("/timers/").text
    assert "due now" in page
    assert "set at 11:02 by Ragnhild" in page
    sent = {"entry": uuid.uuid4()}
    for _ in range(2):
        assert maker.post(f"/timers/{timer.pk}/done/", sent).headers["Location"] == "/timers/"
    timer.refresh_from_db()
    assert timer.done_at == now
    assert "No timer runs." in maker.get("/timers/").text


def test_done_twice_stays_done_at_the_first_time(maker, owner, now, monkeypatch):
    set_timer(what="stir", minutes=3, who=owner, now=now)
    timer = Timer.objects.get()
    maker.post(f"/timers/{timer.pk}/done/", {"entry": uuid.uuid4()})
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: now + HOUR)
    maker.post(f"/timers/{timer.pk}/done/", {"entry": uuid.uuid4()})
    timer.refresh_from_db()
    assert timer.done_at == now


def test_one_press_sets_what_is_set_often(maker):
    page = maker.get("/timers/").text
    assert "Stir, 3\N{NO-BREAK SPACE}min" in page
    assert "Look again, 60\N{NO-BREAK SPACE}min" in page


def test_a_blank_timer_is_refused_by_the_service_too(owner, now):
    with pytest.raises(UnclearError, match="no words"):
        set_timer(what=" ", minutes=3, who=owner, now=now)
    with pytest.raises(UnclearError, match=r"is 0\.5 min"):
        set_timer(what="stir", minutes=0.5, who=owner, now=now)
