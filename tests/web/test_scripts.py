"""Scripts of one page are of one version: a browser asks for each before it uses it."""

import pytest
from django.test import Client

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
