"""Before a square code goes on paper its address is asked at, and what is wrong is said."""

from datetime import timedelta

import pytest
from django.test import Client

from throwbench.workshop.house import address as addresses
from throwbench.workshop.house.alive import Heard
from throwbench.workshop.house.models import Workshop

LAN, SHOW = "http://192.168.1.20:8650", "http://saltmyr.example:8650"


@pytest.fixture(params=["code-tags", "shelf-tags"])
def path(request, candle, trial) -> str:
    return f"/trials/{trial.pk}/{request.param}.pdf"


@pytest.fixture
def asked(monkeypatch) -> list[str]:
    """Nobody answers, unless a test says who."""
    return heard(monkeypatch, Heard.NOBODY)


def heard(monkeypatch, who: Heard) -> list[str]:
    calls: list[str] = []
    monkeypatch.setattr(addresses, "ask", lambda address, **_: calls.append(address) or who)
    return calls


def house(**known: object) -> None:
    Workshop.objects.update(**{"address": LAN, **known})


def is_pdf(answer) -> bool:
    return answer["Content-Type"] == "application/pdf" and answer.content.startswith(b"%PDF")


def test_an_address_that_answered_today_and_was_reached_prints_at_once(maker, path, now, asked):
    house(
        address_answered_at=now - timedelta(hours=24), address_reached_at=now - timedelta(days=90)
    )
    assert is_pdf(maker.get(path))
    assert asked == []


def test_an_older_answer_is_asked_for_again(maker, path, now, monkeypatch):
    calls = heard(monkeypatch, Heard.THIS)
    house(address_answered_at=now - timedelta(hours=25), address_reached_at=now)
    assert is_pdf(maker.get(path))
    assert calls == [LAN]
    assert Workshop.objects.get().address_answered_at == now


def test_without_an_address_it_says_so_and_prints_without_square_codes(maker, path, asked):
    page = maker.get(path)
    assert page.status_code == 409
    assert "This workshop has no address" in page.text
    assert 'href="/house/address/"' in page.text
    assert "Print without square codes" in page.text
    assert "Check again" not in page.text
    assert is_pdf(maker.get(f"{path}?anyway=yes"))
    assert asked == []


@pytest.mark.parametrize(
    ("who", "said"),
    [
        (Heard.NOBODY, "Nobody answered"),
        (Heard.ANOTHER, "Another workshop answered"),
        (Heard.SOMETHING, "Something else answered"),
        (Heard.NO_NAME, "is not known on this network"),
        (Heard.UNTRUSTED, "does not trust"),
    ],
)
def test_whoever_else_is_there_is_said_and_three_ways_on_are_shown(
    maker, path, monkeypatch, who, said
):
    heard(monkeypatch, who)
    house()
    page = maker.get(path)
    assert page.status_code == 409
    assert said in page.text
    assert f'href="{path}">Check again' in page.text
    assert 'href="?anyway=yes">Print all the same' in page.text
    assert 'href="/house/address/">Set the address' in page.text


def test_check_again_prints_once_it_answers(maker, path, now, monkeypatch):
    heard(monkeypatch, Heard.NOBODY)
    house(address_reached_at=now)
    assert maker.get(path).status_code == 409
    heard(monkeypatch, Heard.THIS)
    assert is_pdf(maker.get(path))


def test_an_address_that_no_other_device_reached_is_said(maker, path, now, asked):
    house(address_answered_at=now)
    page = maker.get(path)
    assert page.status_code == 409
    assert "no other device has opened a page there yet" in page.text
    assert is_pdf(maker.get(f"{path}?anyway=yes"))


def test_printed_all_the_same_it_is_asked_about_again_next_time(maker, path, now, asked):
    house(address_answered_at=now)
    maker.get(f"{path}?anyway=yes")
    assert maker.get(path).status_code == 409


def test_the_address_for_show_is_said_once_and_prints(maker, path, asked):
    house(address=SHOW)
    page = maker.get(path)
    assert page.status_code == 409
    assert "The demo’s address is for show" in page.text
    assert "Set the address" not in page.text
    assert is_pdf(maker.get(f"{path}?anyway=yes"))
    assert is_pdf(maker.get(path))
    assert asked == []


def test_paper_without_a_square_code_is_printed_at_once(maker: Client, trial, candle, asked):
    house()
    assert is_pdf(maker.get(f"/trials/{trial.pk}/pour-sheet.pdf"))
    assert asked == []


@pytest.mark.parametrize("query", ["", "?anyway=yes"])
def test_nobody_but_the_maker_makes_the_server_ask(nose, stranger, path, asked, query):
    house()
    assert nose.get(path + query).status_code == 403
    assert stranger.get(path + query).status_code == 302
    assert asked == []
