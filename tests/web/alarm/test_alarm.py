"""What the alarm answers a page's script: what is due, and how far it can be trusted."""

import uuid
from datetime import timedelta

import pytest
from django.test import Client

from throwbench.workshop.house.models import Heard, Ring, There, Timer
from throwbench.workshop.house.timers import set_timer

HOUR = timedelta(hours=1)


def ms(moment) -> int:
    return round(moment.timestamp() * 1000)


def test_a_lit_candle_is_due_when_it_has_to_be_out(maker, lit, loft, odd, now):
    burn = lit("W8R", room=loft, ago=2 * HOUR, handed_to=odd)
    assert maker.get("/alarm/").json()["deadlines"] == [
        {
            "id": f"burn {burn.pk}",
            "what": "Put out W8R",
            "where": "Boat-shed loft",
            "with": "Odd",
            "due": ms(now + 2 * HOUR),
            "from": ms(now - 2 * HOUR),
            "rings_from": ms(now + 2 * HOUR),
            "behind": "",
            "first_word": ms(now + 2 * HOUR - timedelta(minutes=10)),
            "address": "/round/",
        }
    ]


def test_a_timer_is_due_and_the_first_due_stands_first(maker, lit, loft, owner, now):
    lit("W8R", room=loft, ago=2 * HOUR)
    set_timer(what="stir", minutes=3, who=owner, now=now)
    stir, out = maker.get("/alarm/").json()["deadlines"]
    assert (stir["what"], stir["due"], stir["address"]) == (
        "stir",
        ms(now + timedelta(minutes=3)),
        "/timers/",
    )
    assert stir["first_word"] is None
    assert out["what"] == "Put out W8R"


def test_the_clock_of_the_folder_is_told(maker, now):
    assert maker.get("/alarm/").json()["now"] == ms(now)


def test_a_demo_tells_its_own_time(maker, now, settings):
    settings.DEMO_OFFSET_S = 3600
    assert maker.get("/alarm/").json()["now"] == ms(now + HOUR)


def test_what_is_out_or_done_is_not_due(maker, lit, loft, owner, now):
    lit("W8R", room=loft, ago=2 * HOUR, out_at=now)
    Timer.objects.create(what="stir", set_by=owner, set_at=now - HOUR, due_at=now, done_at=now)
    assert maker.get("/alarm/").json()["deadlines"] == []


def test_no_oil_is_named(maker, lit, loft):
    lit("W8R", room=loft, ago=2 * HOUR)
    assert "Linen" not in maker.get("/alarm/").text


def test_as_many_questions_for_many_candles_as_for_one(
    maker, lit, loft, odd, django_assert_max_num_queries
):
    for number in range(12):
        lit(f"W{number}R", room=loft, ago=2 * HOUR, handed_to=odd)
    with django_assert_max_num_queries(16):
        assert len(maker.get("/alarm/").json()["deadlines"]) == 12


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("path", ["", "heard/", "rang/", "there/", "ring/"])
def test_a_script_that_nobody_let_in_is_told_to_sign_in_and_sent_nowhere(path, method):
    answer = getattr(Client(), method)(f"/alarm/{path}")
    assert (answer.status_code, answer.json()["outcome"]) == (401, "sign in")


def test_an_assessor_hears_nothing_of_it(nose):
    assert nose.get("/alarm/").status_code == 403


def test_a_phone_that_is_handed_round_hears_nothing_of_it(maker):
    visit = maker.session
    visit["panel"] = 1
    visit.save()
    assert maker.get("/alarm/").status_code == 401


def test_that_somebody_heard_it_is_noted_once(maker, now):
    sent = {"rung": "page", "heard": "yes", "entry": uuid.uuid4()}
    for _ in range(2):
        assert maker.post("/alarm/heard/", sent).json() == {"outcome": "noted"}
    one = Heard.objects.get()
    assert (one.rung, one.heard, one.at) == ("page", True, now)


def test_that_an_open_page_rang_is_noted_once_for_a_deadline(maker, lit, loft, now):
    burn = lit("W8R", room=loft, ago=4 * HOUR)
    for _ in range(2):
        sent = {"deadline": f"burn {burn.pk}", "due": ms(now), "rung": "page"}
        assert maker.post("/alarm/rang/", {**sent, "entry": uuid.uuid4()}).status_code == 200
    one = Ring.objects.get()
    assert (one.deadline, one.due_at, one.rung, one.trouble) == (f"burn {burn.pk}", now, "page", "")


@pytest.mark.parametrize(
    "wrong", [{"deadline": "candle 1"}, {"due": "soon"}, {"rung": "machine"}, {"due": "9" * 40}]
)
def test_what_is_no_ring_of_a_page_is_refused_in_words(maker, wrong):
    sent = {"deadline": "burn 1", "due": "5", "rung": "page", **wrong}
    answer = maker.post("/alarm/rang/", sent)
    assert (answer.status_code, answer.json()["outcome"]) == (422, "asks")
    assert answer.json()["said"]
    assert not Ring.objects.exists()


def test_somebody_who_is_there_has_two_minutes(maker, lit, loft, now):
    lit("W8R", room=loft, ago=5 * HOUR)
    assert maker.post("/alarm/there/", {"entry": uuid.uuid4()}).status_code == 200
    (one,) = maker.get("/alarm/").json()["deadlines"]
    assert one["rings_from"] == ms(now + timedelta(minutes=2))


def test_who_was_there_before_it_was_due_does_not_silence_it(maker, owner, lit, loft, now):
    lit("W8R", room=loft, ago=2 * HOUR)
    There.objects.create(who=owner, at=now)
    (one,) = maker.get("/alarm/").json()["deadlines"]
    assert one["rings_from"] == one["due"]


def test_a_plain_form_leads_back_to_the_round(maker):
    answer = maker.post("/alarm/there/", {}, headers={"Accept": "text/html"})
    assert (answer.status_code, answer.headers["Location"]) == (302, "/round/")


def test_a_plain_form_of_somebody_signed_out_leads_to_the_way_in():
    answer = Client().post("/alarm/there/", {}, headers={"Accept": "text/html"})
    assert answer.headers["Location"].startswith("/sign-in/?next=")
