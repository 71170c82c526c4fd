"""What stands on a tag, typed: it leads where its square code leads, and nowhere else."""

import re

import pytest

from throwbench.workshop.house.models import Workshop
from throwbench.workshop.house.opened_by_code import MOST, try_code
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Seat, Sitting
from throwbench.workshop.trials.models import TestCandle

FIND, TAG = "/find/", "/nose/find/"


@pytest.fixture
def code(panel) -> str:
    return TestCandle.objects.first().code


@pytest.mark.parametrize("write", [str, str.lower, " {} ".format, "-".join, " ".join])
def test_a_candles_code_leads_to_its_page(maker, code, write):
    answer = maker.get(FIND, {"code": write(code)})
    assert answer.headers["Location"] == f"/candles/{code}/"


def test_a_tag_in_front_leads_the_maker_to_its_panel(maker, panel):
    tag = panel.seats.first().tag
    answer = maker.get(FIND, {"code": tag})
    assert answer.headers["Location"] == f"/trials/{panel.trial_id}/panels/{panel.pk}/"


def test_an_old_tag_leads_to_the_panel_that_had_it(maker, panel, by):
    tag = panel.seats.first().tag
    services.close_panel(panel, **by)
    assert maker.get(FIND, {"code": tag}).headers["Location"].endswith(f"/panels/{panel.pk}/")


def test_a_tag_that_came_again_leads_to_the_open_panel(maker, panel, by):
    """An older panel had the same three digits."""
    tag = panel.seats.first().tag
    services.close_panel(panel, **by)
    again = services.open_panel(
        panel.trial, day=panel.day, asks=panel.asks, **by,
        seats=[(seat.candle, seat.room) for seat in panel.seats.all()],
        assessors=[sitting.assessor for sitting in panel.sittings.all()],
        tags=[seat.tag for seat in panel.seats.all()],
    )  # fmt: skip
    assert maker.get(FIND, {"code": tag}).headers["Location"].endswith(f"/panels/{again.pk}/")
    assert Seat.objects.filter(tag=tag).count() == 2


@pytest.mark.parametrize("typed", ["Z9Z", "000", "<b>", "%", "K_7", "x" * 300, "٤١٧"])
def test_a_code_of_nothing_says_so_and_asks_again(maker, panel, typed):
    page = maker.get(FIND, {"code": typed})
    assert page.status_code == 404
    assert "No candle or panel here has the code" in page.text
    assert "<b>" not in page.text
    assert 'name="code"' in page.text


def test_without_a_code_there_is_the_box(maker):
    page = maker.get(FIND)
    assert page.status_code == 200
    assert "Which code stands on the tag?" in page.text


@pytest.mark.parametrize("path", ["/", "/find/"])
def test_the_box_stands_on(maker, panel, path):
    assert 'action="/find/"' in maker.get(path).text


def test_an_assessor_finds_no_candle_and_a_stranger_nothing(nose, stranger, code):
    assert nose.get(FIND, {"code": code}).status_code == 403
    assert stranger.get(FIND, {"code": code}).headers["Location"].startswith("/sign-in/")


@pytest.fixture
def sitting(panel) -> Sitting:
    return panel.sittings.get(assessor__name="Pernille")


@pytest.fixture
def way(sitting, now):
    return services.personal_way_in(sitting, now=now)


@pytest.fixture
def guest(way, client):
    client.get(f"/nose/by/{way.token}/")
    return client


def test_a_guest_types_the_three_digits_and_scores(guest, panel):
    tag = panel.seats.first().tag
    assert 'action="/nose/find/"' in guest.get("/nose/mine/").text
    assert guest.get(TAG, {"tag": f" {tag[0]} {tag[1:]} "}).headers["Location"] == f"/nose/{tag}/"


@pytest.mark.parametrize("tag", ["999", "", "K7F", "<b>", "9" * 40])
def test_a_tag_that_is_not_the_guests_leads_nowhere(guest, tag):
    page = guest.get(TAG, {"tag": tag})
    assert page.status_code == (404 if tag else 200)
    assert "<b>" not in page.text


def test_a_guest_learns_nothing_of_a_candle_by_its_code(guest, code):
    page = guest.get(TAG, {"tag": code}).text
    assert f"None of your tags is {code}." in page
    assert "/candles/" not in page


def test_without_a_road_there_is_a_box_for_the_personal_code(stranger, panel):
    page = stranger.get(TAG, {"tag": "417"})
    assert page.status_code == 403
    assert 'action="/sign-in/"' in page.text


def test_a_handed_phone_asks_whose_nose_first(maker, panel):
    maker.post(f"/trials/{panel.trial_id}/panels/{panel.pk}/hand-round/")
    assert maker.get(TAG, {"tag": "417"}).headers["Location"] == "/nose/"
    assert maker.get(FIND, {"code": "417"}).headers["Location"] == "/nose/"


def test_a_personal_code_leads_where_its_link_leads(way, client):
    answer = client.post("/sign-in/", {"code": way.code.lower()})
    assert answer.headers["Location"] == "/nose/mine/"
    page = client.get("/nose/mine/").text
    assert "Pernille" in page
    assert client.get("/").headers["Location"].startswith("/sign-in/")


def test_a_newer_link_ends_the_older_code(way, sitting, client, now):
    services.personal_link(sitting, now=now)
    assert client.post("/sign-in/", {"code": way.code}).status_code == 200


def test_a_personal_code_ends_with_its_panel(way, panel, by, client):
    services.close_panel(panel, **by)
    assert client.post("/sign-in/", {"code": way.code}).status_code == 200


def test_wrong_personal_codes_count_with_all_others(way, now):
    for _ in range(MOST):
        try_code("ZZZZ ZZZZ", now=now)
    assert try_code(way.code, now=now).opened is None


def test_only_hashes_are_kept(way, sitting):
    sitting.refresh_from_db()
    assert way.code not in str(Sitting.objects.values())
    assert len(sitting.code_hash) == 64


def test_sittings_without_a_code_are_opened_by_none(panel, client):
    assert client.post("/sign-in/", {"code": "-"}).status_code == 200


def test_the_maker_sees_the_code_beside_the_link(maker, panel, sitting, client):
    Workshop.objects.update(address="http://192.168.1.20:8650")
    page = maker.post(f"/trials/{panel.trial_id}/panels/{panel.pk}/links/{sitting.pk}/").text
    code = re.search(r"panel__letters\">([0-9A-Z]{4} [0-9A-Z]{4})<", page)[1]
    assert client.post("/sign-in/", {"code": code}).headers["Location"] == "/nose/mine/"
