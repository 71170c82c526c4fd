"""Opened at a name that it does not know, a workshop says where it is reached."""

import pytest
from django.test import Client

LINK = "/sign-in/abc/?next=%2Fround%2F"
OURS = ["https://192.0.2.2:8651", "http://192.0.2.2:8650"]

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def names(settings):
    settings.ALLOWED_HOSTS = ["192.0.2.2"]
    settings.NETWORK_ADDRESSES = OURS


def page(name: str, path: str = LINK, **more: str) -> str:
    answer = Client().get(path, HTTP_HOST=name, **more)
    assert answer.status_code == 400
    assert "Content-Security-Policy" in answer.headers
    return answer.content.decode()


def test_it_names_the_name_and_the_way_to_the_same_page_at_each_of_its_own():
    said = page("workshop.test:8650")
    assert "This workshop does not answer to the name “workshop.test:8650”." in said
    for address in OURS:
        assert (
            f'<a class="act" href="{address}/sign-in/abc/?next=%2Fround%2F">{address}</a>' in said
        )


def test_no_link_leads_to_the_name_it_does_not_know():
    assert 'href="/"' not in page("workshop.test")


@pytest.mark.parametrize("path", ["/", "/round/", "/nowhere/", "/static/nowhere.css"])
def test_every_page_says_it(path):
    assert "does not answer to the name" in page("workshop.test", path)


def test_closed_to_the_network_it_names_this_machine(settings):
    settings.NETWORK_ADDRESSES = []
    assert 'href="http://127.0.0.1:8650/round/"' in page(
        "workshop.test", "/round/", SERVER_PORT="8650"
    )


def test_a_name_is_never_markup_and_never_endless():
    assert "<script>" not in page("<script>alert(1)</script>")
    assert "x" * 101 not in page("x" * 5000)


def test_a_form_sent_there_leads_to_the_first_page():
    answer = Client().post("/round/", HTTP_HOST="workshop.test")
    assert answer.status_code == 400
    assert f'href="{OURS[0]}/"' in answer.content.decode()


def test_nothing_of_the_workshop_is_told(settings):
    said = page("workshop.test")
    assert "Sign in" not in said
    assert "csrf" not in said
