"""How a device comes to trust this workshop: open to everybody, true, and never a key."""

import hashlib
from datetime import UTC, datetime

import pytest
from django.test import Client

from throwbench.web.tls.authority import Authority
from throwbench.web.tls.keep import vouch
from throwbench.workshop.house.models import Person, Role, Workshop

pytestmark = pytest.mark.django_db
HTTPS, NAMED = "https://192.168.1.20:8651", "https://testserver:8651"
BACKEND = "throwbench.workshop.house.sign_in.OneTimeLink"


@pytest.fixture
def authority(tmp_path, settings) -> Authority:
    names = ("192.168.1.20", "boat-shed.local")
    made = vouch(tmp_path / "tls", names, host="boat-shed", now=datetime.now(UTC)).authority
    settings.AUTHORITY = made
    settings.NETWORK_ADDRESSES = [HTTPS, NAMED, "http://192.168.1.20:8650"]
    return made


def page(browser: Client | None = None, **more) -> str:
    answer = (browser or Client()).get("/trust/", **more)
    assert answer.status_code == 200
    return answer.text


def test_a_stranger_sees_the_steps_and_the_fingerprint(authority):
    text = page()
    for pair in authority.pairs:
        assert f"<span>{pair} </span>" in text
    for system in ("iPhone", "Android", "Windows", "macOS", "Linux", "Firefox"):
        assert system in text
    assert f'href="/trust/{authority.file_name}"' in text


def test_the_address_at_the_same_name_stands_first(authority):
    """A browser that is let in stays let in at the same name."""
    assert page().index(f'href="{NAMED}/"') < page().index(f">{HTTPS}<")


def test_over_https_it_says_that_this_device_trusts_it_already(authority):
    assert "This device trusts this workshop" in page(secure=True)
    assert "This device trusts this workshop" not in page()


def test_it_says_nothing_of_the_workshop(authority):
    Workshop.objects.create(id=1, name="Saltmyr", zone="Europe/Oslo")
    Person.objects.create(name="Ragnhild", role=Role.OWNER)
    assert "Saltmyr" not in page()
    assert "Ragnhild" not in page()


def test_without_https_it_says_how_to_open_that_door(settings):
    settings.AUTHORITY = None
    assert "throwbench serve --https" in page()


def test_the_certificate_is_a_file_that_systems_know_and_no_key(authority):
    answer = Client().get(f"/trust/{authority.file_name}")
    assert answer.headers["Content-Type"] == "application/x-x509-ca-cert"
    assert authority.file_name in answer.headers["Content-Disposition"]
    assert hashlib.sha256(answer.content).hexdigest().upper() == "".join(authority.pairs)
    assert b"KEY" not in answer.content


@pytest.mark.parametrize("mark", ["00000000", "signer", "server"])
def test_no_other_file_is_handed_out(authority, mark):
    assert Client().get(f"/trust/throwbench-{mark}.crt").status_code == 404


def test_a_phone_that_goes_round_and_a_workshop_that_has_not_begun_may_read_it(authority):
    browser = Client()
    browser.force_login(Person.objects.create(name="Ragnhild", role=Role.OWNER), backend=BACKEND)
    assert "Fetch the certificate" in page(browser)
    visit = browser.session
    visit["panel"] = 1
    visit.save()
    assert "Fetch the certificate" in page(browser)


def test_the_machine_itself_shows_the_fingerprint_to_compare_with(authority):
    Workshop.objects.create(id=1, name="Saltmyr", zone="Europe/Oslo")
    browser = Client()
    browser.force_login(Person.objects.create(name="Ragnhild", role=Role.OWNER), backend=BACKEND)
    text = browser.get("/house/phone/").text
    assert "http://192.168.1.20:8650/trust/" in text
    for pair in authority.pairs:
        assert f"<span>{pair} </span>" in text


def test_a_form_is_taken_over_https_and_a_forged_one_is_not(authority):
    Workshop.objects.create(id=1, name="Saltmyr", zone="Europe/Oslo")
    browser = Client(enforce_csrf_checks=True)
    browser.force_login(Person.objects.create(name="Ragnhild", role=Role.OWNER), backend=BACKEND)
    browser.get("/house/", secure=True)
    token = next(one for name, one in browser.cookies.items() if "form" in name).value
    form = {"csrfmiddlewaretoken": token, "theme": "dark"}
    own = {"origin": "https://testserver"}
    assert browser.post("/theme/", form, secure=True, headers=own).status_code == 302
    other = {"origin": "http://testserver"}
    assert browser.post("/theme/", form, secure=True, headers=other).status_code == 403


def test_a_browser_that_is_let_in_at_one_door_is_let_in_at_the_other(authority):
    """So no cookie is for https alone."""
    Workshop.objects.create(id=1, name="Saltmyr", zone="Europe/Oslo")
    browser = Client()
    browser.force_login(Person.objects.create(name="Ragnhild", role=Role.OWNER), backend=BACKEND)
    assert browser.get("/house/", secure=True).status_code == 200
    assert browser.get("/house/").status_code == 200
    assert not any(one["secure"] for one in browser.cookies.values())
