"""A personal link opens one sitting, leaves the address at once, and ends with its panel."""

import pytest
from django.contrib.sessions.models import Session
from django.test import Client

from throwbench.science.errors import UnclearError
from throwbench.web.logs import TOKEN
from throwbench.workshop.house.models import Workshop
from throwbench.workshop.house.sign_in import make_link
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Sitting, Sniff
from workshop.conftest import signed_in

FULL = {"liking": "4", "hot_throw": "2"}


@pytest.fixture
def sitting(panel) -> Sitting:
    return panel.sittings.get(assessor__name="Pernille")


@pytest.fixture
def token(sitting, now) -> str:
    return services.personal_link(sitting, now=now)


def opened_by(token: str, browser: Client | None = None) -> Client:
    browser = browser or Client()
    assert browser.get(f"/nose/by/{token}/").headers["Location"] == "/nose/mine/"
    return browser


def test_it_shows_that_sitting_and_nothing_else(token):
    browser = opened_by(token)
    page = browser.get("/nose/mine/").text
    assert "Pernille" in page
    assert "Odd" not in page
    assert browser.get("/nose/").headers["Location"] == "/nose/mine/"


@pytest.mark.parametrize("path", ["/", "/trials/", "/house/", "/shelf/", "/line/"])
def test_no_other_page_is_open_to_it(token, path):
    assert opened_by(token).get(path).headers["Location"].startswith("/sign-in/")


def test_it_answers_as_that_nose(token, sitting):
    browser = opened_by(token)
    nose = sitting.assessor_id
    browser.post("/nose/417/", {**FULL, "nose": nose})
    sniff = Sniff.objects.get()
    assert (sniff.sitting, sniff.way) == (sitting, "link")


def test_it_cannot_answer_for_another(token, noses):
    opened_by(token).post("/nose/417/", {**FULL, "nose": noses[0].pk})
    assert not Sniff.objects.exists()


def test_who_signs_in_after_it_answers_as_nobody_else(token, noses, now):
    """A guest's link was opened in a browser, and then its owner was let in there."""
    browser = opened_by(token)
    odd = noses[0]
    browser.get(f"/sign-in/{make_link(odd, now=now)}/")
    assert browser.post("/sign-in-now/").headers["Location"] == "/"
    page = browser.get("/nose/mine/").text
    assert "Odd" in page
    assert "Pernille" not in page


@pytest.mark.parametrize("old", ["no-such-link", "old"])
def test_an_old_link_ends_no_sitting_that_runs(token, noses, panel, now, old):
    odd = panel.sittings.get(assessor=noses[0])
    old = services.personal_link(odd, now=now) if old == "old" else old
    services.personal_link(odd, now=now)
    browser = opened_by(token)
    page = browser.get(f"/nose/by/{old}/")
    assert page.status_code == 410
    assert "This link opens nothing any more." in page.text
    assert "Pernille" in browser.get("/nose/mine/").text


def test_it_opens_again_for_the_next_candle(token):
    opened_by(token)
    assert "Pernille" in opened_by(token).get("/nose/mine/").text


def test_only_its_hash_is_kept(token):
    opened_by(token).get("/nose/mine/")
    kept = f"{Sitting.objects.values()} {[row.get_decoded() for row in Session.objects.all()]}"
    assert token not in kept


def test_the_servers_window_never_shows_it(token):
    assert token not in TOKEN.sub(r"\1…", f"GET /nose/by/{token}/ 302")


def test_a_newer_link_ends_the_older(token, sitting, now):
    newer = services.personal_link(sitting, now=now)
    assert opened_by(token).get("/nose/mine/").status_code == 403
    assert opened_by(newer).get("/nose/mine/").status_code == 200


def test_it_ends_with_its_panel(token, panel, by):
    browser = opened_by(token)
    services.close_panel(panel, **by)
    page = browser.get("/nose/mine/").text
    assert "This panel is closed. Thank you for your nose." in page
    assert "way-back" not in page
    assert "Pernille" not in page
    with pytest.raises(UnclearError, match="This panel is closed"):
        services.personal_link(panel.sittings.first(), now=by["now"])


def test_an_invented_link_opens_nothing(panel):
    assert opened_by("x" * 32).get("/nose/mine/").status_code == 403


def test_an_empty_hash_is_nobodys(panel):
    """Sittings without a link have an empty one."""
    browser = Client()
    browser.get("/nose/by/x/")
    store = browser.session
    store["personal link"] = ""
    store.save()
    assert browser.get("/nose/mine/").status_code == 403


def test_in_the_browser_of_another_it_can_be_put_away(token, noses):
    browser = opened_by(token, signed_in(noses[0]))
    assert "Pernille" in browser.get("/nose/mine/").text
    browser.post("/nose/not-me/")
    assert "Odd" in browser.get("/nose/mine/").text


def test_the_maker_makes_one_by_a_press(maker, panel, sitting):
    Workshop.objects.update(address="http://192.168.1.20:8650")
    address = f"/trials/{panel.trial_id}/panels/{panel.pk}/links/{sitting.pk}/"
    page = maker.post(address).text
    assert "This link is for Pernille alone" in page
    token = page.split("http://192.168.1.20:8650/nose/by/")[1].split("/")[0]
    assert "Pernille" in opened_by(token).get("/nose/mine/").text
    assert maker.get(address).status_code == 405


def test_without_an_address_it_says_how_a_phone_gets_here(maker, panel, sitting):
    page = maker.post(f"/trials/{panel.trial_id}/panels/{panel.pk}/links/{sitting.pk}/").text
    assert "the server listens on this machine only" in page
    assert not Sitting.objects.get(pk=sitting.pk).link_hash
