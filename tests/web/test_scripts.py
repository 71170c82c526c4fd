"""Scripts of one page are of one version: a browser asks for each before it uses it."""

from pathlib import Path

import pytest
from django.test import Client

import throwbench

pytestmark = pytest.mark.django_db
"""The end of an answer looks after the connection that tests before these left open."""


@pytest.mark.parametrize(
    ("address", "kept"),
    [
        ("field/store.js", "no-cache"),
        ("field/field.js", "no-cache"),
        ("vendor/idb-8.0.4/index.js", "max-age=3600, public"),
        ("field.css", "max-age=3600, public"),
    ],
)
def test_only_what_carries_its_version_is_used_unasked(address, kept):
    answer = Client().get(f"/static/{address}")
    assert answer.headers["Cache-Control"] == kept
    answer.close()


def test_a_script_that_did_not_change_is_not_sent_again():
    first = Client().get("/static/field/store.js")
    first.close()
    again = Client().get(
        "/static/field/store.js", headers={"If-Modified-Since": first.headers["Last-Modified"]}
    )
    assert again.status_code == 304
    again.close()


def test_no_page_asks_for_a_script_with_its_version():
    """Scripts import each other by bare name: with a version, a page would have two of one."""
    pages = [*Path(throwbench.__file__).parent.rglob("*.html")]
    assert any(".js' %}" in page.read_text() for page in pages)
    assert [page.name for page in pages if ".js' %}?" in page.read_text()] == []
