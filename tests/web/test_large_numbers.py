"""A number that no row can have is not there, wherever it stands in an address or a form."""

import pytest
from django.test import Client
from django.urls import reverse

from throwbench.workshop.house.models import Person, Role, Workshop

BACKEND = "throwbench.workshop.house.sign_in.OneTimeLink"
LARGE = int("9" * 25)

pytestmark = pytest.mark.django_db


@pytest.fixture
def maker() -> Client:
    Workshop.objects.create(id=1, name="Saltmyr Lysstøperi")
    client = Client()
    owner = Person.objects.create(name="Ragnhild", role=Role.OWNER)
    client.force_login(owner, backend=BACKEND)
    return client


@pytest.mark.parametrize(
    ("name", "numbers"),
    [
        ("panel:panel", (LARGE, 1)),
        ("panel:panel", (1, LARGE)),
        ("trials:bench", (LARGE, 1)),
        ("trials:trial", (LARGE,)),
        ("shelf:blend_change", (LARGE,)),
    ],
)
def test_in_an_address(maker, name, numbers):
    assert maker.get(reverse(name, args=numbers)).status_code == 404


def test_in_a_form(maker):
    answer = maker.post(reverse("trials:all_out"), {"burns": [LARGE]})
    assert answer.status_code in (200, 404)
