"""The code that is typed where no camera reads the square one: once, soon over, not guessed."""

import json
import re
import uuid
from datetime import timedelta

import pytest
from django.contrib.sessions.models import Session
from django.test import Client

from throwbench.workshop.house import sign_in, typed_code
from throwbench.workshop.house.models import SignInLink, WrongCode
from throwbench.workshop.house.opened_by_code import MOST, WITHIN, state, try_code

IN, ENTER = "/sign-in/", "/sign-in-now/"


@pytest.fixture
def way(helper, now) -> sign_in.WayIn:
    return sign_in.make_way_in(helper, now=now)


def typed(code: str, browser: Client | None = None):
    browser = browser or Client()
    return browser, browser.post(IN, {"code": code})


def test_a_code_is_eight_signs_that_nobody_misreads():
    codes = {typed_code.new_code() for _ in range(200)}
    assert len(codes) == 200
    assert all(re.fullmatch("[0-9A-HJKMNP-TV-Z]{8}", code) for code in codes)


def test_it_is_shown_in_two_groups_of_four():
    assert typed_code.in_groups("K2F89QTM") == "K2F8 9QTM"


@pytest.mark.parametrize(
    "text",
    ["k2f89qtm", " K2F8 9QTM ", "k2f8-9qtm", "K2F8–9QTM", "K 2 F 8 9 Q T M", "Ｋ2F8 9QTM"],
)
def test_small_letters_spaces_and_dashes_are_read(text):
    assert typed_code.as_meant(text) == "K2F89QTM"


def test_look_alikes_are_read_as_what_was_meant():
    assert typed_code.as_meant("oOiI lL0 1") == "00111101"


def test_a_code_leads_to_the_button_and_spends_nothing(way):
    browser, answer = typed(way.code)
    assert answer.headers["Location"] == ENTER
    assert "You come in as <strong>Isak</strong>" in browser.get(ENTER).text
    assert SignInLink.objects.get().spent_at is None


def test_the_button_lets_in_once(way, helper):
    browser, _ = typed(way.code.lower())
    assert browser.post(ENTER).headers["Location"] == "/"
    assert browser.session["_auth_user_id"] == str(helper.pk)
    other, again = typed(way.code)
    assert again.status_code == 200
    assert "No code that holds now reads like this" in again.text
    assert other.post(ENTER).status_code == 410


def test_the_link_of_a_spent_code_is_spent_too(way):
    typed(way.code)[0].post(ENTER)
    other = Client()
    other.get(f"/sign-in/{way.token}/")
    assert other.post(ENTER).status_code == 410


@pytest.mark.parametrize(("before", "leads"), [(timedelta(seconds=1), True), (timedelta(0), False)])
def test_it_ends_after_half_an_hour(helper, now, before, leads):
    way = sign_in.make_way_in(helper, now=now - sign_in.VALID + before)
    assert (typed(way.code)[1].status_code == 302) is leads


def test_a_code_of_a_blanked_person_opens_nothing(way, helper):
    helper.blanked_at, helper.is_active = SignInLink.objects.get().made_at, False
    helper.save()
    assert typed(way.code)[1].status_code == 200


def test_only_a_hash_is_kept_and_not_one_that_the_database_alone_can_try(way):
    browser, _ = typed(way.code)
    browser.post(ENTER)
    kept = f"{SignInLink.objects.values()} {[row.get_decoded() for row in Session.objects.all()]}"
    assert way.code not in kept
    assert sign_in.digest_of(way.code) not in kept


def test_another_folders_secret_makes_another_hash(settings):
    one = typed_code.digest_of_code("K2F89QTM")
    settings.SECRET_KEY = "another folder's"
    assert typed_code.digest_of_code("K2F89QTM") != one


def test_links_of_before_codes_are_opened_by_no_code(helper, now):
    SignInLink.objects.create(
        person=helper, token_hash="x", made_at=now, expires_at=now + sign_in.VALID
    )
    assert typed("")[1].status_code == 200
    assert typed("-")[1].status_code == 200
    assert not SignInLink.objects.exclude(spent_at=None).exists()


def test_ten_wrong_codes_end_in_a_wait_that_is_said(way):
    for _ in range(MOST - 1):
        assert typed("ZZZZ ZZZZ")[1].status_code == 200
    assert "1 try is left in this workshop" in typed("")[1].text
    page = typed("ZZZZ ZZZZ")[1]
    assert page.status_code == 429
    assert "Codes are read again at 11:15." in page.text
    assert "a square code and a link still let you in" in page.text


def test_the_wait_is_the_whole_workshops_and_the_right_code_waits_too(way):
    for _ in range(MOST):
        typed("ZZZZ ZZZZ")
    assert typed(way.code)[1].status_code == 429
    assert Client().get(IN).status_code == 429
    browser = Client()
    browser.get(f"/sign-in/{way.token}/")
    assert browser.post(ENTER).status_code == 302


def test_tries_while_there_is_a_wait_do_not_make_it_longer(way, now):
    for _ in range(MOST + 5):
        typed("ZZZZ ZZZZ")
    assert WrongCode.objects.count() == MOST
    assert state(now).wait_until == now + WITHIN


def test_after_the_wait_the_code_is_read_again(way, now):
    for _ in range(MOST):
        try_code("ZZZZ ZZZZ", now=now)
    later = now + WITHIN
    assert try_code(way.code, now=later - timedelta(seconds=1)).opened is None
    assert try_code(way.code, now=later).opened is not None


def test_a_right_code_forgives_no_wrong_ones(way, now):
    for _ in range(MOST - 1):
        try_code("ZZZZ ZZZZ", now=now)
    assert try_code(way.code, now=now).opened is not None
    assert try_code("ZZZZ ZZZZ", now=now).wait_until == now + WITHIN


def test_a_clock_that_was_set_back_makes_no_endless_wait(way, now):
    for _ in range(MOST):
        WrongCode.objects.create(at=now + timedelta(days=400))
    assert try_code(way.code, now=now).opened is not None


def test_old_wrong_codes_are_cleared_away(db, now):
    WrongCode.objects.create(at=now - timedelta(days=2))
    try_code("ZZZZ ZZZZ", now=now)
    assert WrongCode.objects.count() == 1


def test_a_phone_that_goes_round_takes_no_code(way, maker):
    visit = maker.session
    visit["panel"] = 1
    visit.save()
    _, answer = typed(way.code, maker)
    assert answer.headers["Location"].startswith("/nose/")


def test_another_sites_form_types_nothing(way):
    assert typed("ZZZZ ZZZZ", Client(enforce_csrf_checks=True))[1].status_code == 403
    assert not WrongCode.objects.exists()


@pytest.mark.parametrize("address", [IN, ENTER])
def test_a_kept_entry_neither_guesses_codes_nor_revives_an_old_link(maker, owner, now, address):
    """A device's own clock says when an entry was pressed; here that would be a way round."""
    old = sign_in.make_way_in(owner, now=now - timedelta(days=2))
    maker.get(f"/sign-in/{old.token}/")
    hello = maker.get("/entries/").json()
    entry = {
        "id": str(uuid.uuid4()), "key": hello["key"], "device": str(uuid.uuid4()), "turn": 1,
        "address": address, "pressed_at": 0, "fields": [["code", old.code]],
    }  # fmt: skip
    ms = int(timedelta(days=2) / timedelta(milliseconds=1))
    told = {"X-Sent-At": str(ms), "X-CSRFToken": hello["token"]}
    answer = maker.post(
        "/entries/", json.dumps(entry), content_type="application/json", headers=told
    )
    assert answer.json()["outcome"] == "asks"
    assert answer.json()["said"][0].startswith("This page takes no entries.")
    assert SignInLink.objects.get().spent_at is None
    assert not WrongCode.objects.exists()


def test_the_page_of_the_laptop_shows_the_code_beside_the_square_one(maker, owner, settings):
    settings.NETWORK_ADDRESSES = ["http://192.0.2.20:8650"]
    page = maker.post("/house/phone/", {"person": owner.pk}).text
    code = re.search(r"house__letters\">([0-9A-Z]{4} [0-9A-Z]{4})<", page)[1]
    browser, answer = typed(code)
    assert answer.headers["Location"] == ENTER
    assert "Ragnhild" in browser.get(ENTER).text
