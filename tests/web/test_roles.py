"""Who may see which page: every address of every slice, named or not, is walked."""

import uuid
from collections.abc import Iterator
from datetime import UTC, datetime

import pytest
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver
from django.urls.converters import IntConverter, UUIDConverter

from throwbench.workshop.house.models import Person, Role, Workshop

pytestmark = pytest.mark.django_db

BACKEND = "throwbench.workshop.house.sign_in.OneTimeLink"
WAY_IN = {"house:sign_in", "house:link", "house:enter", "house:alive"}
"""Open to everybody."""
SAYS_NOTHING = {"trust:page", "trust:certificate", "trust:worker"}
"""The same for everybody, and about nobody (tested where they are built)."""
ASSESSORS_TOO = WAY_IN | {"house:sign_out"}
NOSE, WAY_BACK = "/nose/", "/way-back/"
"""The assessor's road: what it asks of whom is tested where it is built."""


def walk(patterns: list, before: str = "/", names: tuple = ()) -> Iterator[tuple[str, str]]:
    """Each address with made-up values in it, and its full name."""
    for pattern in patterns:
        made = before + filled(pattern)
        if isinstance(pattern, URLResolver):
            inner = (*names, pattern.namespace) if pattern.namespace else names
            yield from walk(pattern.url_patterns, made, inner)
        else:
            assert isinstance(pattern, URLPattern)
            assert pattern.name, f"{made} has no name"
            yield ":".join((*names, pattern.name)), made


def filled(pattern: URLPattern | URLResolver) -> str:
    route = str(pattern.pattern)
    for name, converter in pattern.pattern.converters.items():
        kind = next(part for part in route.split("<") if part.split(">")[0].endswith(name))
        route = route.replace(f"<{kind.split('>')[0]}>", made_up(converter))
    return route


def made_up(converter: object) -> str:
    if isinstance(converter, IntConverter):
        return "1"
    return str(uuid.UUID(int=1)) if isinstance(converter, UUIDConverter) else "x"


ADDRESSES = sorted(walk(get_resolver().url_patterns))
OWN_ROAD = [(name, path) for name, path in ADDRESSES if path.startswith((NOSE, WAY_BACK))]
ANSWERED = ("/alarm/", "/entries/")
"""What a script asks: answered in JSON, never by another page (tested where it is built)."""
CLOSED = [
    one
    for one in ADDRESSES
    if one not in OWN_ROAD
    and one[0] not in WAY_IN | SAYS_NOTHING
    and not one[1].startswith(ANSWERED)
]
MAKERS = [
    one
    for one in ADDRESSES
    if one not in OWN_ROAD and one[0] not in ASSESSORS_TOO | SAYS_NOTHING | {"web:entries"}
]


def named(addresses: list[tuple[str, str]]) -> list:
    return [pytest.param(path, id=name) for name, path in addresses]


@pytest.fixture(autouse=True)
def workshop(monkeypatch) -> Workshop:
    now = datetime(2027, 5, 24, 9, 5, tzinfo=UTC)
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: now)
    return Workshop.objects.create(id=1, name="Saltmyr", zone="Europe/Oslo")


def browser_of(role: str) -> Client:
    browser = Client()
    browser.force_login(Person.objects.create(name=role, role=role), backend=BACKEND)
    return browser


def test_the_walk_finds_every_slice():
    assert {name.partition(":")[0] for name, _ in ADDRESSES} >= {"house", "web", "trials", "line"}
    assert len(MAKERS) > 25


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("path", named(CLOSED))
def test_a_stranger_is_sent_to_the_way_in(path, method):
    answer = getattr(Client(), method)(path)
    assert answer.status_code == 302
    assert answer.headers["Location"].startswith("/sign-in/?next=")


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("path", named(MAKERS))
def test_an_assessor_gets_no_makers_page(path, method):
    answer = getattr(browser_of(Role.ASSESSOR), method)(path)
    if (method, path) == ("get", "/"):
        assert answer.headers["Location"] == "/nose/mine/"
        return
    assert answer.status_code == 403
    assert "This page is for the maker." in answer.text


def test_an_assessor_who_was_let_in_comes_to_the_own_sittings():
    browser = browser_of(Role.ASSESSOR)
    assert browser.get("/").headers["Location"] == "/nose/mine/"
    assert 'href="/nose/mine/"' in browser.get("/house/").text


@pytest.mark.parametrize("name", sorted(WAY_IN))
def test_the_way_in_is_open_to_a_stranger(name):
    path = dict(ADDRESSES)[name]
    answer = Client().get(path)
    assert answer.status_code in (200, 302, 410)
    assert not answer.headers.get("Location", "").startswith("/sign-in/")


def test_an_assessor_may_leave():
    assert browser_of(Role.ASSESSOR).post("/sign-out/").headers["Location"] == "/sign-in/"


@pytest.mark.parametrize("role", [Role.OWNER, Role.HELPER])
@pytest.mark.parametrize("path", ["/", "/house/", "/house/people/", "/house/limits/"])
def test_owner_and_helper_see_the_makers_pages(role, path):
    assert browser_of(role).get(path).status_code == 200


@pytest.mark.parametrize("path", ["/", "/house/", "/trials/", "/sign-in/", "/theme/"])
def test_a_phone_handed_round_sees_the_noses_road_only(path):
    browser = browser_of(Role.OWNER)
    visit = browser.session
    visit["panel"] = 1
    visit.save()
    assert browser.get(path).headers["Location"].startswith(NOSE)
