"""One-time links: they let one browser in, once, and their token is kept nowhere."""

import logging
from datetime import timedelta

import pytest
from django.contrib.sessions.models import Session
from django.test import Client

from throwbench.web.logs import NoTokens
from throwbench.workshop.house import services, sign_in
from throwbench.workshop.house.models import SignInLink

ENTER = "/sign-in-now/"


def opened(token: str, browser: Client | None = None) -> Client:
    browser = browser or Client()
    assert browser.get(f"/sign-in/{token}/").headers["Location"] == ENTER
    return browser


def is_in(browser: Client) -> bool:
    return "_auth_user_id" in browser.session


@pytest.fixture
def token(owner, now) -> str:
    return sign_in.make_link(owner, now=now)


def test_a_link_shows_a_button_and_spends_nothing(token):
    page = opened(token).get(ENTER)
    assert page.status_code == 200
    assert "Let this browser in" in page.text
    assert SignInLink.objects.get().spent_at is None


def test_the_button_lets_in(token, now):
    browser = opened(token)
    assert browser.post(ENTER).headers["Location"] == "/"
    assert is_in(browser)
    assert SignInLink.objects.get().spent_at == now


def test_a_link_looked_at_twice_still_lets_in(token):
    opened(token).get(ENTER)
    browser = opened(token)
    browser.post(ENTER)
    assert is_in(browser)


def test_a_spent_link_lets_nobody_else_in(token):
    opened(token).post(ENTER)
    other = opened(token)
    assert other.get(ENTER).status_code == 410
    assert other.post(ENTER).status_code == 410
    assert not is_in(other)


def test_a_button_pressed_twice_stays_in(token):
    browser = opened(token)
    browser.post(ENTER)
    again = browser.post(ENTER)
    assert again.status_code == 410
    assert "You are in already, as Ragnhild" in again.text
    assert is_in(browser)


def test_a_link_ends_after_its_time(owner, now):
    token = sign_in.make_link(owner, now=now - sign_in.VALID)
    browser = opened(token)
    assert browser.post(ENTER).status_code == 410
    assert not is_in(browser)


def test_a_link_holds_until_just_before_its_end(owner, now):
    token = sign_in.make_link(owner, now=now - sign_in.VALID + timedelta(seconds=1))
    browser = opened(token)
    browser.post(ENTER)
    assert is_in(browser)


def test_a_link_of_a_blanked_person_lets_nobody_in(owner, assessor, now):
    token = sign_in.make_link(assessor, now=now)
    services.blank_person(assessor, who=owner, now=now)
    browser = opened(token)
    assert browser.post(ENTER).status_code == 410
    assert not is_in(browser)


def test_blanked_the_person_is_out_at_the_next_page(owner, helper, now):
    browser = Client()
    opened(sign_in.make_link(helper, now=now), browser).post(ENTER)
    assert browser.get("/house/").status_code == 200
    services.blank_person(helper, who=owner, now=now)
    assert browser.get("/house/").status_code == 302


def test_an_invented_link_lets_nobody_in(workshop):
    browser = opened("x" * 32)
    assert browser.post(ENTER).status_code == 410
    assert not is_in(browser)


def test_without_a_link_there_is_nothing_to_press(workshop):
    assert Client().get(ENTER).status_code == 410


def test_signed_in_already_an_old_link_says_so(maker, owner, now):
    token = sign_in.make_link(owner, now=now - timedelta(days=1))
    page = opened(token, maker).get(ENTER)
    assert "You are in already, as Ragnhild" in page.text


def test_another_persons_link_says_whose_browser_it_was(maker, helper, now):
    browser = opened(sign_in.make_link(helper, now=now), maker)
    assert "Until now this browser was Ragnhild" in browser.get(ENTER).text
    browser.post(ENTER)
    assert browser.session["_auth_user_id"] == str(helper.pk)


def test_an_assessor_who_is_in_may_open_a_link(nose, owner, now):
    browser = opened(sign_in.make_link(owner, now=now), nose)
    browser.post(ENTER)
    assert browser.session["_auth_user_id"] == str(owner.pk)


def test_the_token_is_in_no_later_address_page_or_row(token):
    browser = opened(token)
    page = browser.get(ENTER)
    assert token not in page.text
    assert token not in str(browser.session.items())
    browser.post(ENTER)
    assert token not in str([row.get_decoded() for row in Session.objects.all()])
    assert token not in str(SignInLink.objects.values())


@pytest.mark.parametrize("way", ["/sign-in/", "/nose/by/"])
def test_the_servers_window_never_shows_a_token(token, way):
    record = logging.LogRecord(
        "django.request", logging.ERROR, "", 1, "%s: %s", ("Broke", f"{way}{token}/"), None
    )
    assert NoTokens().filter(record)
    assert record.getMessage() == f"Broke: {way}…/"


def test_the_servers_window_is_where_errors_go(settings):
    assert settings.LOGGING["handlers"]["window"]["filters"] == ["no_tokens"]
    assert settings.LOGGING["loggers"]["django"]["handlers"] == ["window"]


def test_letting_go_ends_the_visit(maker):
    assert maker.post("/sign-out/").headers["Location"] == "/sign-in/"
    assert not is_in(maker)


def test_a_link_cannot_be_spent_by_another_sites_form(token):
    browser = opened(token, Client(enforce_csrf_checks=True))
    refused = browser.post(ENTER)
    assert refused.status_code == 403
    assert "open too long" in refused.text
    assert SignInLink.objects.get().spent_at is None


def test_a_new_visit_has_a_new_key(token):
    browser = opened(token)
    before = browser.session.session_key
    browser.post(ENTER)
    assert browser.session.session_key != before
