"""A phone that goes round: nobody is signed in on it, it sees noses only, four digits lead back."""

from datetime import timedelta

import pytest
from django.contrib.sessions.models import Session

from throwbench.workshop.panel import services
from throwbench.workshop.panel.handing import TRIES, WAIT, take_back
from throwbench.workshop.panel.models import Sniff


def address(panel) -> str:
    return f"/trials/{panel.trial_id}/panels/{panel.pk}/"


def wrong(code: str) -> str:
    return "0000" if code != "0000" else "1111"


def test_nobody_is_signed_in_on_it(phone):
    assert "_auth_user_id" not in phone.session


def test_the_code_is_kept_as_a_hash_only(handed):
    phone, code = handed
    assert phone.session["way back"]
    kept = [row.get_decoded() for row in Session.objects.all()]
    assert any("hash" in one for one in kept)
    assert code not in str([{**one, "hash": "", "salt": ""} for one in kept if "hash" in one])


@pytest.mark.parametrize(
    "path",
    ["/", "/trials/", "/house/", "/shelf/", "/line/", "/sign-in/", "/sign-out/", "/nothing/"],
)
def test_every_other_page_leads_to_the_names(phone, path):
    assert phone.get(path).headers["Location"] == "/nose/"
    assert phone.post(path).headers["Location"] == "/nose/"


def test_the_panels_own_page_too(phone, panel):
    assert phone.get(address(panel)).headers["Location"] == "/nose/"
    assert phone.post(f"{address(panel)}hand-round/").headers["Location"] == "/nose/"


def test_the_right_code_leads_back_signed_in(handed, panel, owner):
    phone, code = handed
    assert phone.post("/way-back/", {"code": code}).headers["Location"] == address(panel)
    assert phone.session["_auth_user_id"] == str(owner.pk)
    assert phone.get(address(panel)).status_code == 200
    assert phone.get("/way-back/").headers["Location"] == "/"


def test_a_wrong_code_leads_nowhere(handed):
    phone, code = handed
    page = phone.post("/way-back/", {"code": wrong(code)})
    assert "These are not the four digits" in page.text
    assert "4 tries are left" in page.text
    assert "_auth_user_id" not in phone.session


def test_after_five_wrong_ones_even_the_right_one_waits(handed):
    phone, code = handed
    for _ in range(TRIES):
        phone.post("/way-back/", {"code": wrong(code)})
    page = phone.post("/way-back/", {"code": code})
    assert "Too many wrong codes. Try again at 11:15." in page.text
    assert "_auth_user_id" not in phone.session


def test_a_slow_page_of_the_same_phone_does_not_give_tries_back(handed):
    """It read the session before the wrong codes and writes it after them."""
    phone, code = handed
    slow = phone.session
    list(slow.items())
    for _ in range(TRIES - 1):
        phone.post("/way-back/", {"code": wrong(code)})
    slow["nose"] = 1
    slow.save()
    assert "1 try is left" in phone.get("/way-back/").text
    phone.post("/way-back/", {"code": wrong(code)})
    phone.post("/way-back/", {"code": code})
    assert "_auth_user_id" not in phone.session


def test_tries_at_once_are_counted_one_by_one(handed, rf, now):
    """Two requests that read the same session count as two."""
    phone, code = handed
    at_once = [rf.post("/way-back/") for _ in range(2)]
    for request in at_once:
        request.session = phone.session
        list(request.session.items())
    lefts = [take_back(request, wrong(code), now).left for request in at_once]
    assert lefts == [TRIES - 1, TRIES - 2]


def test_after_the_wait_it_leads_back(handed, now, monkeypatch):
    phone, code = handed
    for _ in range(TRIES):
        phone.post("/way-back/", {"code": wrong(code)})
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: now + WAIT)
    assert phone.get("/way-back/").text.count("5 tries are left") == 1
    phone.post("/way-back/", {"code": code})
    assert "_auth_user_id" in phone.session


def test_just_before_its_end_the_wait_holds(handed, now, monkeypatch):
    phone, code = handed
    for _ in range(TRIES):
        phone.post("/way-back/", {"code": wrong(code)})
    almost = now + WAIT - timedelta(seconds=1)
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: almost)
    phone.post("/way-back/", {"code": code})
    assert "_auth_user_id" not in phone.session


def test_a_code_of_another_round_is_worth_nothing(handed, panel):
    phone, code = handed
    phone.post("/way-back/", {"code": code})
    page = phone.post(f"{address(panel)}hand-round/")
    if code not in page.text:  # one in 10,000 draws is the same
        phone.post("/way-back/", {"code": code})
        assert "_auth_user_id" not in phone.session


def test_a_maker_who_is_blanked_does_not_come_back(handed, owner):
    phone, code = handed
    owner.is_active = False
    owner.save()
    phone.post("/way-back/", {"code": code})
    assert "_auth_user_id" not in phone.session


def test_a_closed_panel_is_not_handed_round(maker, panel, by):
    services.close_panel(panel, **by)
    page = maker.post(f"{address(panel)}hand-round/")
    assert "This panel is closed" in page.text
    assert "_auth_user_id" in maker.session


def test_closed_meanwhile_the_phone_says_so(phone, panel, by):
    services.close_panel(panel, **by)
    assert "This panel is closed. Thank you for your nose." in phone.get("/nose/").text
    assert "This panel is closed" in phone.post("/nose/417/", {"nose": "1"}).text
    assert not Sniff.objects.exists()


def test_an_assessor_cannot_hand_a_phone_round(nose, panel):
    assert nose.post(f"{address(panel)}hand-round/").status_code == 403


def test_without_a_round_there_is_no_way_back(stranger):
    assert stranger.get("/way-back/").headers["Location"] == "/"
