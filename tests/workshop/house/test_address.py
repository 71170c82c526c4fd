"""The workshop's address: who sets it, what it may be, what is found there, who reached it."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from throwbench.science.errors import SaidError
from throwbench.workshop.house import address as addresses
from throwbench.workshop.house.address import keep_address, standing_of
from throwbench.workshop.house.alive import Heard, answer_to
from throwbench.workshop.house.models import Workshop
from workshop.conftest import signed_in

PAGE, CHECK, LAN = "/house/address/", "/house/address/check/", "http://192.168.1.20:8650"
PHONE = {"REMOTE_ADDR": "192.0.2.77", "HTTP_HOST": "192.168.1.20:8650"}
"""As a request of another device comes in; 192.0.2.77 is no machine's (RFC 5737)."""


@pytest.fixture(autouse=True)
def _own_names(settings):
    """Names that a test adds end with it."""
    settings.ALLOWED_HOSTS = ["testserver", "192.168.1.20"]


@pytest.fixture
def hears(monkeypatch):
    """Who is heard at the address; what was asked is kept."""

    def set_to(heard: Heard) -> list[str]:
        asked: list[str] = []

        def ask(address: str, **_: object) -> Heard:
            asked.append(address)
            return heard

        monkeypatch.setattr(addresses, "ask", ask)
        return asked

    return set_to


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        (LAN, LAN),
        ("http://[fd00::20]:8650", "http://[fd00::20]:8650"),
        ("http://båtnaust.local", "http://båtnaust.local"),
        ("http://boat-shed.local:8650/", "http://boat-shed.local:8650"),
        (" https://bench.example ", "https://bench.example"),
        ("", ""),
    ],
)
def test_the_workshop_has_an_address(owner, now, typed, kept):
    keep_address(typed, who=owner, now=now)
    assert Workshop.objects.get().address == kept


@pytest.mark.parametrize(
    "typed",
    [
        "192.168.1.20", "ftp://boat-shed", "file:///etc/passwd", "javascript:alert(1)", "http://",
        "http://a:b@boat-shed", "http://boat-shed@192.168.1.20", "http://boat-shed/nose/",
        "http://boat-shed?x=1", "http://boat-shed#x", "http://boat-shed:99999", "http://boat shed",
        "http://boat-shed:0", "http://*", "http://*:8650", "http://.no", "http://boat\tshed",
        "http://boat-shed\\@192.168.1.20", "http://2130706433:8650", "http://127.1:8650",
        "http://0x7f.0.0.1", "http://192.168.1.300", "http://017700000001", "http://[:::1]",
        f"http://{'å' * 70}.local", "http://boat..shed",
    ],
)  # fmt: skip
def test_what_is_no_machines_address_is_refused(owner, now, typed):
    with pytest.raises(SaidError, match="no address of a machine"):
        keep_address(typed, who=owner, now=now)
    assert Workshop.objects.get().address == ""


@pytest.mark.parametrize(
    "typed",
    [
        "http://127.0.0.1:8650", "http://127.8.9.1", "http://localhost:8650", "https://LocalHost",
        "http://localhost.:8650", "http://bench.localhost", "http://0.0.0.0:8650", "http://[::1]",
        "http://[::]:8650", "http://[::ffff:7f00:1]",
    ],
)  # fmt: skip
def test_an_address_that_leads_each_device_to_itself_is_refused(owner, now, typed):
    with pytest.raises(SaidError, match="on a phone it is the phone"):
        keep_address(typed, who=owner, now=now)


def test_only_an_owner_sets_it(helper, now, hears):
    asked = hears(Heard.THIS)
    with pytest.raises(SaidError, match="Only an owner sets the workshop’s address"):
        keep_address(LAN, who=helper, now=now)
    page = signed_in(helper).post(PAGE, {"address": LAN}).text
    assert "Only an owner sets the workshop’s address. Ask an owner to do it." in page
    assert Workshop.objects.get().address == ""
    assert asked == []
    assert "Keep this address" not in signed_in(helper).get(PAGE).text


@pytest.mark.parametrize("path", [PAGE, CHECK])
def test_an_assessor_and_a_stranger_neither_see_nor_check_it(nose, stranger, path, hears):
    asked = hears(Heard.THIS)
    Workshop.objects.update(address=LAN)
    assert nose.post(path).status_code == 403
    assert stranger.post(path).headers["Location"].startswith("/sign-in/")
    assert asked == []


def test_one_of_those_served_now_is_taken_by_one_press(maker, settings, hears, now):
    asked = hears(Heard.THIS)
    settings.NETWORK_ADDRESSES = ["http://boat-shed.local:8650", LAN, "https://192.168.1.20:8651"]
    page = maker.get(PAGE).text
    assert page.index("Take https://192.168.1.20:8651") < page.index(f"Take {LAN}")
    after = maker.post(PAGE, {"address": LAN}).text
    assert f"This workshop answered at {LAN}." in after
    assert f"Square codes on paper lead to {LAN}" in after
    assert asked == [LAN]
    assert Workshop.objects.get().address_answered_at == now


def test_a_closed_server_says_how_it_is_opened(maker):
    assert "throwbench serve --lan FOLDER" in maker.get(PAGE).text


def test_an_address_that_is_none_stays_in_the_box(maker, hears):
    asked = hears(Heard.THIS)
    page = maker.post(PAGE, {"address": "my laptop"}).text
    assert "“my laptop” is no address of a machine" in page
    assert 'value="my laptop"' in page
    assert asked == []


@pytest.mark.parametrize(
    ("heard", "said"),
    [
        (Heard.ANOTHER, "Another workshop answered at"),
        (Heard.SOMETHING, "Something else answered at"),
        (Heard.UNTRUSTED, "showed a certificate that this machine does not trust"),
        (Heard.NOBODY, "Nobody answered at"),
        (Heard.NO_NAME, "is not known on this network"),
    ],
)
def test_what_is_found_there_is_said_and_an_older_answer_counts_no_more(
    maker, hears, now, heard, said
):
    hears(heard)
    Workshop.objects.update(address=LAN, address_answered_at=now)
    page = maker.post(CHECK).text
    assert said in page
    assert "no answer yet" in page
    assert Workshop.objects.get().address_answered_at is None


def test_without_an_address_there_is_nobody_to_ask(maker, hears):
    asked = hears(Heard.THIS)
    assert maker.post(CHECK).headers["Location"] == PAGE
    assert asked == []


def test_the_address_for_show_is_not_asked_at(maker, hears):
    asked = hears(Heard.THIS)
    Workshop.objects.update(address="http://saltmyr.example:8650")
    assert "It is for show" in maker.post(CHECK).text
    assert asked == []


def test_what_was_found_at_one_address_counts_for_no_other(owner, now):
    Workshop.objects.update(address=LAN, address_answered_at=now, address_reached_at=now)
    keep_address(LAN, who=owner, now=now)
    assert Workshop.objects.get().address_reached_at == now
    keep_address("http://boat-shed.local", who=owner, now=now)
    here = Workshop.objects.get()
    assert (here.address_answered_at, here.address_reached_at) == (None, None)


def test_an_answer_that_comes_when_the_address_has_changed_is_not_noted(owner, now):
    before = keep_address(LAN, who=owner, now=now)
    keep_address("http://boat-shed.local", who=owner, now=now)
    addresses.note_answer(before, now=now)
    addresses.note_reached(before, now=now)
    here = Workshop.objects.get()
    assert (here.address_answered_at, here.address_reached_at) == (None, None)


def test_the_server_answers_to_a_new_name_at_once(owner, now, settings):
    assert Client().get("/alive/x/", HTTP_HOST="xn--btnaust-exa.local").status_code == 400
    keep_address("http://båtnaust.local:8650", who=owner, now=now)
    assert settings.ALLOWED_HOSTS[-1] == "xn--btnaust-exa.local"
    assert Client().get("/alive/x/", HTTP_HOST="xn--btnaust-exa.local:8650").status_code == 200


@pytest.mark.parametrize("role", ["stranger", "maker"])
def test_anybody_may_ask_whether_it_is_this_workshop(request, role):
    nonce = "0" * 32
    answer = request.getfixturevalue(role).get(f"/alive/{nonce}/")
    assert answer.status_code == 200
    assert answer.text == answer_to(nonce)


def test_another_folders_secret_answers_otherwise(settings):
    own = answer_to("0" * 32)
    settings.SECRET_KEY = "another folder's"
    assert answer_to("0" * 32) != own


def test_a_long_question_is_not_answered(stranger):
    assert stranger.get(f"/alive/{'0' * 65}/").status_code == 404


@pytest.mark.parametrize(
    ("answered_h_ago", "reached", "good"),
    [(0, True, True), (24, True, True), (24.01, True, False), (0, False, False), (-1, True, False)],
)
def test_an_answer_counts_for_a_day(now, answered_h_ago, reached, good):
    here = Workshop(
        address=LAN,
        address_answered_at=now - timedelta(hours=answered_h_ago),
        address_reached_at=now if reached else None,
    )
    assert standing_of(here, now=now).is_good is good


@pytest.fixture
def at(workshop) -> Workshop:
    Workshop.objects.update(address=LAN)
    return workshop


def reached_at():
    return Workshop.objects.get().address_reached_at


def test_another_device_that_opens_a_page_there_is_noted(at, maker, now):
    maker.get("/house/", **PHONE)
    assert reached_at() == now
    assert "another device opened a page there on 24" in maker.get(PAGE).text


def test_an_assessors_own_phone_counts(at, nose, now):
    nose.get("/nose/mine/", **PHONE)
    assert reached_at() == now


@pytest.mark.parametrize(
    "other",
    [
        {"REMOTE_ADDR": "127.0.0.1"},
        {"REMOTE_ADDR": "127.0.1.1"},
        {"REMOTE_ADDR": "::1"},
        {"REMOTE_ADDR": "::ffff:127.0.0.1"},
        {"REMOTE_ADDR": ""},
        {"REMOTE_ADDR": "not an address"},
        {"HTTP_HOST": "testserver"},
        {"HTTP_HOST": "192.168.1.20:9999"},
        {"HTTP_HOST": "192.168.1.20.attack"},
        {"HTTP_HOST": "192.168.1.20:8650", "HTTP_X_FORWARDED_FOR": "192.0.2.9",
         "REMOTE_ADDR": "127.0.0.1"},
        {"HTTP_HOST": "testserver", "HTTP_X_FORWARDED_HOST": "192.168.1.20:8650"},
    ],
    ids=lambda other: " ".join(other.values()),
)  # fmt: skip
def test_this_machine_another_name_or_another_port_proves_nothing(at, maker, other):
    maker.get("/house/", **{**PHONE, **other})
    assert reached_at() is None


def test_a_stranger_who_makes_the_name_up_proves_nothing(at, stranger):
    stranger.get("/sign-in/", **PHONE)
    stranger.get("/alive/x/", **PHONE)
    assert reached_at() is None


def test_it_is_written_once_a_day(at, maker, now):
    maker.get("/house/", **PHONE)
    with CaptureQueriesContext(connection) as queries:
        maker.get("/house/", **PHONE)
    assert not [one for one in queries if one["sql"].startswith('UPDATE "house_workshop"')]
    Workshop.objects.update(address_reached_at=now - timedelta(days=1))
    maker.get("/house/", **PHONE)
    assert reached_at() == now


def test_the_usual_port_is_left_out_by_browsers(maker, now, settings):
    settings.ALLOWED_HOSTS = ["*"]
    Workshop.objects.update(address="http://boat-shed.local:80")
    maker.get("/house/", REMOTE_ADDR="192.0.2.77", HTTP_HOST="boat-shed.local")
    assert reached_at() == now


def test_a_name_with_letters_of_its_own_is_known_again(maker, now, settings):
    settings.ALLOWED_HOSTS = ["*"]
    Workshop.objects.update(address="http://båtnaust.local:8650")
    maker.get("/house/", REMOTE_ADDR="192.0.2.77", HTTP_HOST="xn--btnaust-exa.local:8650")
    assert reached_at() == now
