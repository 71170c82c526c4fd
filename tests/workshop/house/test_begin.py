"""The first page of an empty workshop."""

import pytest
from django.test import Client

from throwbench.workshop.house import services
from throwbench.workshop.house.models import Person, Room, Workshop

pytestmark = pytest.mark.django_db
SENT = {
    "name": "Saltmyr",
    "owner_name": "Ragnhild",
    "zone": "Europe/Oslo",
    "units": "metric",
}


@pytest.fixture
def newcomer():
    """The owner of a folder in which nothing has begun."""
    browser = Client()
    browser.force_login(
        services.first_owner(), backend="throwbench.workshop.house.sign_in.OneTimeLink"
    )
    return browser


@pytest.mark.parametrize("page", ["/", "/house/", "/house/people/"])
def test_before_the_workshop_has_begun_every_page_leads_there(newcomer, page):
    assert newcomer.get(page).headers["Location"] == "/begin/"


def test_four_lines_begin_it(newcomer):
    assert newcomer.get("/begin/").status_code == 200
    assert newcomer.post("/begin/", SENT).headers["Location"] == "/"
    assert Workshop.objects.values_list("name", "zone").get() == ("Saltmyr", "Europe/Oslo")
    assert Person.objects.get().name == "Ragnhild"
    assert newcomer.get("/house/").status_code == 200


def test_a_room_named_in_passing_is_there(newcomer):
    newcomer.post("/begin/", SENT | {"room": " kitchen "})
    assert list(Room.objects.values_list("name", "kind")) == [("kitchen", "living room")]


def test_without_one_there_is_no_room_yet(newcomer):
    newcomer.post("/begin/", SENT | {"room": " "})
    assert Workshop.objects.exists()
    assert not Room.objects.exists()


def test_a_room_with_too_long_a_name_is_refused_and_nothing_begins(newcomer):
    page = newcomer.post("/begin/", SENT | {"room": "k" * 61})
    assert "field--err" in page.text
    assert not Workshop.objects.exists()


@pytest.mark.parametrize("missing", SENT)
def test_a_missing_line_is_asked_for_and_the_others_stay(newcomer, missing):
    page = newcomer.post("/begin/", SENT | {missing: ""})
    assert page.status_code == 200
    assert "field--err" in page.text
    assert not Workshop.objects.exists()
    if missing != "name":
        assert 'value="Saltmyr"' in page.text


def test_once_begun_the_page_is_gone(maker):
    assert maker.get("/begin/").headers["Location"] == "/"


def test_zones_of_europe_come_first():
    from throwbench.workshop.house.forms_house import zones  # noqa: PLC0415

    names = [name for name, _ in zones()]
    assert names[1].startswith("Europe/")
    assert {"Europe/Oslo", "America/New_York", "UTC"} <= set(names)


def test_a_stranger_is_sent_to_the_door_even_then(client):
    assert client.get("/begin/").headers["Location"].startswith("/sign-in/")
