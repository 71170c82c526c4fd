"""Style sheets and marks while the server runs."""

import pytest
from django.contrib.staticfiles import finders
from django.test import Client


@pytest.fixture
def sheet(tmp_path, settings):
    """A style sheet that is served as /static/own.css."""
    settings.STATICFILES_DIRS = [tmp_path]
    finders.get_finder.cache_clear()
    found = tmp_path / "own.css"
    found.write_text("a { color: red }")
    yield found
    finders.get_finder.cache_clear()


def _sent(client: Client) -> bytes:
    """What is sent; a server breaks off where the length told beforehand is another."""
    answer = client.get("/static/own.css")
    sent = b"".join(answer.streaming_content)
    assert (answer.status_code, int(answer["Content-Length"])) == (200, len(sent))
    return sent


def test_a_sheet_that_changes_is_served_as_it_is_now(sheet, client):
    assert _sent(client) == b"a { color: red }"
    sheet.write_text("b { color: rebeccapurple; margin: 0 }")
    assert _sent(client) == b"b { color: rebeccapurple; margin: 0 }"
    sheet.write_text("")
    assert _sent(client) == b""


@pytest.mark.django_db
@pytest.mark.parametrize("way", ["../settings.py", "%2e%2e/settings.py", "//etc/hostname", "", "x"])
def test_nothing_beside_the_sheets_is_served(client, way):
    assert client.get(f"/static/{way}").status_code in (302, 400, 404)
