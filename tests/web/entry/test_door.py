"""Entries that a device kept: noted once, answered in JSON, with an echo to forget them by."""

import hashlib
import json
import uuid
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from django.test import Client

from throwbench.web.entry.keys import workshop_mark
from throwbench.workshop.house.models import Entry, Person, Role, Room, Workshop

NOW = datetime(2027, 5, 24, 9, 5, tzinfo=UTC)


@pytest.fixture(autouse=True)
def _still(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: NOW)


@pytest.fixture
def maker(db: None) -> Client:
    Workshop.objects.create(id=1, name="Saltmyr Lysstøperi", zone="Europe/Oslo")
    person = Person.objects.create(name="Ragnhild", role=Role.OWNER)
    client = Client()
    client.force_login(person, backend="throwbench.workshop.house.sign_in.OneTimeLink")
    return client


def ms(moment: datetime) -> int:
    return round(moment.timestamp() * 1000)


def hello(client: Client) -> Any:
    return client.get("/entries/")


def test_a_stranger_is_told_to_sign_in_and_not_sent_elsewhere(db):
    answer = hello(Client())
    assert answer.status_code == 401
    assert answer.json()["outcome"] == "sign in"


def test_the_page_learns_whose_it_is(maker):
    assert hello(maker).json()["key"].startswith(f"{workshop_mark()}-person-")
