"""The fixed cast of every promise: owner, helper, assessor, stranger; a clock that stands still."""

from datetime import UTC, datetime

import pytest
from django.test import Client

from throwbench.workshop.house.models import Person, Role, Room, Workshop

NOW = datetime(2027, 5, 24, 9, 5, tzinfo=UTC)
"""11:05 in Oslo."""
BACKEND = "throwbench.workshop.house.sign_in.OneTimeLink"


@pytest.fixture
def now() -> datetime:
    return NOW


@pytest.fixture(autouse=True)
def _still_clock(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every request of a test is made at `NOW`."""
    monkeypatch.setattr("throwbench.web.middleware.timezone.now", lambda: NOW)


@pytest.fixture
def workshop(db: None) -> Workshop:
    return Workshop.objects.create(id=1, name="Saltmyr Lysstøperi", zone="Europe/Oslo")


@pytest.fixture
def owner(workshop: Workshop) -> Person:
    return Person.objects.create(name="Ragnhild", role=Role.OWNER)


@pytest.fixture
def assessor(workshop: Workshop) -> Person:
    return Person.objects.create(name="Odd", role=Role.ASSESSOR)


@pytest.fixture
def helper(workshop: Workshop) -> Person:
    return Person.objects.create(name="Isak", role=Role.HELPER)


@pytest.fixture
def kitchen(workshop: Workshop) -> Room:
    return Room.objects.create(name="kitchen", kind="living room", has_door=True, airing_h=4)


def signed_in(person: Person) -> Client:
    client = Client()
    client.force_login(person, backend=BACKEND)
    return client


@pytest.fixture
def maker(owner: Person) -> Client:
    """A browser in which the owner is signed in."""
    return signed_in(owner)


@pytest.fixture
def nose(assessor: Person) -> Client:
    """A browser in which an assessor is signed in."""
    return signed_in(assessor)


@pytest.fixture
def stranger(workshop: Workshop) -> Client:
    """A browser in which nobody is signed in."""
    return Client()
