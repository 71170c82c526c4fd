"""What every answer carries: nothing from elsewhere runs, nobody frames it, nobody keeps it."""

import re
from pathlib import Path

import pytest
from django.test import Client

import throwbench

PACKAGE = Path(throwbench.__file__).parent
TEMPLATES = sorted(PACKAGE.rglob("templates/**/*.html"))

pytestmark = pytest.mark.django_db


@pytest.fixture
def answer():
    return Client().get("/sign-in/")


def policy(answer) -> dict[str, str]:
    parts = answer.headers["Content-Security-Policy"].split("; ")
    return dict(part.split(" ", 1) for part in parts)


@pytest.mark.parametrize(
    ("what", "allowed"),
    [
        ("default-src", "'self'"),
        ("script-src", "'self'"),
        ("style-src", "'self'"),
        ("object-src", "'none'"),
        ("base-uri", "'none'"),
        ("form-action", "'self'"),
        ("frame-ancestors", "'none'"),
    ],
)
def test_a_page_runs_only_what_is_its_own(answer, what, allowed):
    assert policy(answer)[what] == allowed


def test_nothing_unforeseen_is_let_through(answer):
    said = answer.headers["Content-Security-Policy"]
    assert "unsafe" not in said
    assert "*" not in said
    assert "http" not in said


def test_other_sites_are_not_told_where_a_visitor_comes_from(answer):
    assert answer.headers["Referrer-Policy"] == "same-origin"


def test_no_page_is_framed(answer):
    assert answer.headers["X-Frame-Options"] == "DENY"


def test_no_page_is_kept_by_who_passes_it_on(answer):
    assert answer.headers["Cache-Control"] == "private, no-store"


def test_a_file_is_what_it_says_it_is(answer):
    assert answer.headers["X-Content-Type-Options"] == "nosniff"


def test_a_page_asks_for_no_place_and_no_microphone(answer):
    assert "geolocation=()" in answer.headers["Permissions-Policy"]


def test_the_headers_stand_on_pages_that_refuse_too():
    for page in ("/house/", "/no-such-page/", "/sign-in-now/"):
        answer = Client().get(page)
        assert answer.status_code in (302, 404, 410)
        assert "Content-Security-Policy" in answer.headers


def test_the_visit_is_kept_from_scripts_and_other_sites(settings):
    assert settings.SESSION_COOKIE_HTTPONLY
    assert settings.SESSION_COOKIE_SAMESITE == "Lax"


def test_a_name_that_is_not_this_servers_is_refused():
    assert Client().get("/sign-in/", headers={"host": "elsewhere.example"}).status_code == 400


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_no_template_asks_for_what_the_policy_forbids(path):
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"""\sstyle=["']""", text)
    assert not re.search(r"<style[\s>]", text)
    assert not re.search(r"""\son[a-z]+=["']""", text)
    assert not re.search(r"<script(?![^>]*\ssrc=)", text)
    assert not re.search(r"""(src|href)=["'](https?:)?//""", text)
