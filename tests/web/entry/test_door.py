"""The door without a workshop behind it: a stranger is told to sign in and not sent elsewhere."""

import pytest
from django.test import Client

from throwbench.web.entry.keys import handed_panel, is_a_persons, workshop_mark
from throwbench.workshop.house.models import Person, Role


def test_a_stranger_is_told_to_sign_in_and_not_sent_elsewhere(db):
    answer = Client().get("/entries/")
    assert (answer.status_code, answer.json()["outcome"]) == (401, "sign in")


def test_the_door_is_there_before_the_workshop_has_begun(db):
    owner = Person.objects.create(name="Ragnhild", role=Role.OWNER)
    client = Client()
    client.force_login(owner, backend="throwbench.workshop.house.sign_in.OneTimeLink")
    told = client.get("/entries/").json()
    assert told["key"] == f"{workshop_mark()}-person-{owner.pk}"
    assert len(told["token"]) >= 32


@pytest.mark.parametrize("method", ["put", "patch", "delete"])
def test_nothing_else_goes_through_it(db, method):
    owner = Person.objects.create(name="Ragnhild", role=Role.OWNER)
    client = Client()
    client.force_login(owner, backend="throwbench.workshop.house.sign_in.OneTimeLink")
    assert getattr(client, method)("/entries/").status_code == 405


def test_a_key_says_what_kind_it_is():
    mark = workshop_mark()
    assert handed_panel(f"{mark}-panel-7") == 7
    for other in (f"{mark}-panel-", f"{mark}-panel-7x", f"{mark}-person-7", "0-panel-7", ""):
        assert handed_panel(other) is None
    assert is_a_persons(f"{mark}-person-7")
    assert not is_a_persons(f"{mark}-link-7")
