"""What a browser's worker is told: whose each page is, which may be kept, which files there are."""

import json

import pytest
from django.test import Client

from throwbench.web.keep.pages import KEPT
from throwbench.web.keep.view import build
from throwbench.workshop.house.models import Person, Role, Workshop

pytestmark = pytest.mark.django_db
BACKEND = "throwbench.workshop.house.sign_in.OneTimeLink"


@pytest.fixture(autouse=True)
def workshop() -> Workshop:
    return Workshop.objects.create(id=1, name="Saltmyr", zone="Europe/Oslo")


def browser_of(role: str) -> Client:
    browser = Client()
    browser.force_login(Person.objects.create(name=role, role=role), backend=BACKEND)
    return browser


@pytest.mark.parametrize("path", ["/", "/round/", "/waiting/"])
def test_a_makers_page_is_marked_with_whose_it_is_and_may_be_kept(path):
    browser = browser_of(Role.OWNER)
    answer = browser.get(path)
    person = Person.objects.get()
    assert answer.headers["X-Entry-Key"].endswith(f"-person-{person.pk}")
    assert answer.headers["X-Keep"] == "yes"
    assert 'name="keep" content="/ /round/ /waiting/"' in answer.text


@pytest.mark.parametrize("path", ["/house/", "/shelf/", "/house/phone/"])
def test_other_pages_say_whose_they_are_and_are_not_kept(path):
    answer = browser_of(Role.OWNER).get(path)
    assert answer.headers["X-Entry-Key"]
    assert "X-Keep" not in answer.headers


def test_a_page_for_who_is_not_in_says_that_it_is_nobodys():
    answer = Client().get("/sign-in/")
    assert answer.headers["X-Entry-Key"] == ""
    assert 'name="keep"' not in answer.text


def test_an_assessor_keeps_the_guests_road():
    answer = browser_of(Role.ASSESSOR).get("/nose/mine/")
    assert answer.headers["X-Keep"] == "yes"
    assert 'name="keep" content="/nose/mine/ /waiting/"' in answer.text


def test_a_page_that_is_not_for_an_assessor_is_not_kept():
    answer = browser_of(Role.ASSESSOR).get("/round/")
    assert answer.status_code == 403
    assert "X-Keep" not in answer.headers


@pytest.mark.parametrize(
    ("method", "path"), [("post", "/sign-out/"), ("get", "/entries/"), ("get", "/alarm/")]
)
def test_what_is_no_page_carries_no_key(method, path):
    answer = getattr(browser_of(Role.OWNER), method)(path)
    assert "X-Entry-Key" not in answer.headers


@pytest.mark.parametrize(
    ("path", "is_kept"),
    [
        ("/nose/417/", True),
        ("/nose/", True),
        ("/nose/by/a-token/", False),
        ("/trials/2/pour/7/", True),
        ("/trials/2/pour/", False),
        ("/trials/2/verdict/", False),
        ("/rounds/", False),
    ],
)
def test_benches_and_the_guests_road_are_kept_and_no_token_ever(path, is_kept):
    assert bool(KEPT.fullmatch(path)) == is_kept


def test_the_workers_script_stands_at_the_root_and_is_asked_for_anew_each_time():
    answer = Client().get("/worker.js")
    assert answer.headers["Content-Type"].startswith("text/javascript")
    assert answer.headers["Cache-Control"] == "no-cache"
    first = answer.text.splitlines()[0]
    told = json.loads(first.removeprefix("const BUILD = ").removesuffix(";"))
    assert told == build()


def test_it_names_every_file_of_the_pages_and_each_is_there():
    files = build()["files"]
    assert {"/static/base.css", "/static/field/store.js", "/static/field/away.html"} <= set(files)
    assert "/static/field/worker.js" in files
    for file in files:
        answer = Client().get(file)
        assert answer.status_code == 200, file
        answer.close()


def test_another_file_makes_another_script(monkeypatch):
    before = build()["digest"]
    monkeypatch.setattr("throwbench.web.keep.view.KINDS", {".css"})
    assert build.__wrapped__()["digest"] != before


def test_a_handed_phone_may_have_the_worker():
    browser = browser_of(Role.OWNER)
    visit = browser.session
    visit["panel"] = 1
    visit.save()
    assert browser.get("/worker.js").status_code == 200
