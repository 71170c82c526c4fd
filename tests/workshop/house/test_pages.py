"""The pages of the house, by clicks: what stays typed, what is said, what changes."""

import pytest

from throwbench.workshop.house.models import HouseLimit, Person, Room, SignInLink, Workshop

PAGES = [
    "/house/",
    "/house/people/",
    "/house/rooms/",
    "/house/settings/",
    "/house/limits/",
    "/house/address/",
]


@pytest.mark.parametrize("page", [*PAGES, "/house/phone/", "/house/limits/flame-height/"])
def test_each_page_opens_with_one_sentence(maker, page):
    answer = maker.get(page)
    assert answer.status_code == 200
    assert answer.text.count("<h1") == 1
    assert "style=" not in answer.text


def test_the_overview_is_one_sentence(maker, assessor, helper, kitchen):
    assert (
        "Three people, one room; burns end after 4\N{NO-BREAK SPACE}h." in maker.get("/house/").text
    )


def test_a_person_is_added_by_a_click(maker):
    maker.post("/house/people/", {"name": "Åse", "role": "assessor"})
    assert Person.objects.filter(name="Åse", role="assessor").exists()


def test_a_name_that_is_taken_stays_in_the_box_with_its_sentence(maker, assessor):
    page = maker.post("/house/people/", {"name": "Odd", "role": "helper"}).text
    assert "Somebody of that name is here already" in page
    assert 'value="Odd"' in page


def test_a_person_is_blanked_after_being_asked(maker, assessor):
    address = f"/house/people/{assessor.pk}/blank/"
    assert f"becomes “Nose {assessor.pk}”" in maker.get(address).text
    assert maker.post(address).headers["Location"] == "/house/people/"
    assert Person.objects.get(pk=assessor.pk).name == f"Nose {assessor.pk}"
    assert f"Nose {assessor.pk}" not in maker.get("/house/people/").text
    assert maker.get(address).status_code == 404


def test_the_last_owner_cannot_be_blanked_by_a_click(maker, owner):
    page = maker.post(f"/house/people/{owner.pk}/blank/")
    assert "Ragnhild is the last owner" in page.text


def test_a_room_is_added_by_a_click(maker):
    sent = {"name": "loft", "kind": "large room", "has_door": "no", "airing_h": "1,5"}
    assert maker.post("/house/rooms/", sent).status_code == 302
    assert Room.objects.values_list("has_door", "airing_h").get() == (False, 1.5)


def test_what_is_not_known_of_a_room_stays_not_known(maker):
    maker.post("/house/rooms/", {"name": "loft", "kind": "large room", "airing_h": ""})
    assert Room.objects.values_list("has_door", "airing_h").get() == (None, None)
    assert maker.get("/house/rooms/").text.count("not known") >= 2


def test_a_room_that_never_airs_is_asked_about(maker):
    page = maker.post("/house/rooms/", {"name": "loft", "kind": "large room", "airing_h": "400"})
    assert "possible is 0 to 72 h" in page.text
    assert 'value="400"' in page.text


def test_a_room_changes_by_a_click(maker, kitchen):
    address = f"/house/rooms/{kitchen.pk}/"
    page = maker.get(address).text
    assert 'value="kitchen"' in page
    assert '<option value="yes" selected>' in page
    sent = {"name": "kitchen", "kind": "small room", "has_door": "", "airing_h": "4"}
    assert maker.post(address, sent).status_code == 302
    assert Room.objects.values_list("kind", "has_door").get() == ("small room", None)


def settings(**other: str) -> dict[str, str]:
    return {
        "name": "Saltmyr",
        "zone": "Europe/Oslo",
        "units": "metric",
        **other,
    }


def test_settings_change_by_a_click(maker):
    sent = settings(units="ounces", name="Saltmyr Lys")
    assert maker.post("/house/settings/", sent).headers["Location"] == "/house/"
    assert Workshop.objects.values_list("units", "name").get() == ("ounces", "Saltmyr Lys")


def test_the_house_says_when_a_burn_ends_by_the_makers_own_limit(maker):
    assert "burns end after 4\N{NO-BREAK SPACE}h" in maker.get("/house/").text
    maker.post("/house/limits/burn-length/", {"value": "3.5"})
    assert "burns end after 3.5\N{NO-BREAK SPACE}h" in maker.get("/house/").text


def test_a_limit_shows_its_words_its_unit_and_who_says_so(maker):
    page = maker.get("/house/limits/").text
    assert "at most 75 mm (house limit)" in page
    assert "EN 15493:2007; ASTM F2417 (3 in) (the standard itself was not read)" in page


def test_an_own_limit_stands_beside_the_shipped_one(maker):
    address = "/house/limits/flame-height/"
    assert maker.post(address, {"value": "60"}).headers["Location"] == "/house/limits/"
    page = maker.get("/house/limits/").text
    assert "at most 75 mm (house limit)" in page
    assert "at most 60 mm (house limit, set by the maker)" in page
    assert 'value="60"' in maker.get(address).text


def test_the_page_of_a_limit_says_what_words_and_marks_cannot_decide(maker):
    page = maker.get("/house/limits/secondary-ignition/").text
    assert "as up to 10 s or longer." in page
    assert "write the seconds too" in page
    assert "print a new gauge card" in maker.get("/house/limits/flame-height/").text
    assert "write the seconds" not in maker.get("/house/limits/afterglow/").text


def test_an_emptied_box_gives_the_own_limit_up(maker):
    maker.post("/house/limits/flame-height/", {"value": "60"})
    maker.post("/house/limits/flame-height/", {"value": ""})
    assert not HouseLimit.objects.exists()


def test_a_limit_of_zero_is_refused_with_its_sentence(maker):
    page = maker.post("/house/limits/flame-height/", {"value": "0"}).text
    assert "A limit is a number above zero." in page


def test_seconds_are_typed_as_a_number(maker):
    maker.post("/house/limits/afterglow/", {"value": "15"})
    assert HouseLimit.objects.get().value == 15


@pytest.mark.parametrize("rule", ["soot-index", "relights", "sparkle"])
def test_a_limit_that_cannot_be_set_has_no_page(maker, rule):
    assert maker.get(f"/house/limits/{rule}/").status_code == 404


def test_a_closed_server_says_that_no_phone_can_come(maker):
    page = maker.get("/house/phone/").text
    assert "listens on this machine only" in page
    assert "throwbench serve --lan" in page
    assert not SignInLink.objects.exists()


@pytest.fixture
def open_house(settings):
    settings.NETWORK_ADDRESSES = ["http://192.0.2.20:8650", "http://boat-shed.local:8650"]


def test_a_closed_server_makes_no_link(maker, owner):
    maker.post("/house/phone/", {"person": owner.pk})
    assert not SignInLink.objects.exists()


def test_the_code_carries_an_address_that_a_phone_can_reach(open_house, maker, owner):
    page = maker.post("/house/phone/", {"person": owner.pk})
    assert "http://192.0.2.20:8650/sign-in/" in page.text
    assert "<svg" in page.text
    assert "style=" not in page.text
    assert page.headers["Cache-Control"] == "private, no-store"


def test_the_workshops_own_address_stands_first_once_it_answered(open_house, maker, owner, now):
    Workshop.objects.update(address="http://boat-shed:8650")
    page = maker.post("/house/phone/", {"person": owner.pk}).text
    assert "http://192.0.2.20:8650/sign-in/" in page
    Workshop.objects.update(address_answered_at=now)
    page = maker.post("/house/phone/", {"person": owner.pk}).text
    assert "http://boat-shed:8650/sign-in/" in page


def test_the_code_lets_the_person_in(open_house, maker, helper, client):
    page = maker.post("/house/phone/", {"person": helper.pk}).text
    path = page.split("</span> http://192.0.2.20:8650", 1)[1].split("<", 1)[0].strip()
    client.get(path)
    client.post("/sign-in-now/")
    assert client.session["_auth_user_id"] == str(helper.pk)


def test_a_helper_lets_nobody_in_as_owner(open_house, owner, helper, client):
    client.force_login(helper, backend="throwbench.workshop.house.sign_in.OneTimeLink")
    page = client.post("/house/phone/", {"person": owner.pk})
    assert "Square code" not in page.text
    assert not SignInLink.objects.exists()
    assert "Square code" in client.post("/house/phone/", {"person": helper.pk}).text


def test_the_page_is_light_or_dark_as_chosen(maker):
    assert "data-theme" not in maker.get("/house/").text
    maker.post("/theme/", {"theme": "dark"})
    assert '<html lang="en" data-theme="dark">' in maker.get("/house/").text
    maker.post("/theme/", {"theme": "device"})
    assert "data-theme" not in maker.get("/house/").text


def test_a_theme_that_does_not_exist_changes_nothing(maker):
    maker.cookies["throwbench-theme"] = '"><script>'
    assert '"><script>' not in maker.get("/house/").text
