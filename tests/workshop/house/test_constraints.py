"""Each constraint of the house's tables: what it lets in, and its sentence."""

from datetime import timedelta

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from throwbench.workshop.house.models import (
    HouseLimit,
    Ring,
    Room,
    Timer,
    Unwatched,
    Watch,
    Workshop,
)

pytestmark = pytest.mark.django_db


def refuses(row, sentence: str) -> None:
    """The form hears the sentence, and the database itself refuses the row."""
    with pytest.raises(ValidationError, match=sentence):
        row.full_clean()
    with pytest.raises(IntegrityError), transaction.atomic():
        row.save()


def accepts(row) -> None:
    row.full_clean()
    row.save()


def test_a_folder_holds_one_workshop():
    accepts(Workshop(id=1, name="Saltmyr"))


def test_a_folder_refuses_a_second_workshop(workshop):
    refuses(Workshop(id=2, name="Another"), "A folder holds one workshop")


@pytest.mark.parametrize("hours", [None, 0, 4, 72])
def test_a_room_airs_for_hours(hours):
    accepts(Room(name="loft", kind="large room", airing_h=hours))


@pytest.mark.parametrize("hours", [-1, 73])
def test_a_room_that_never_airs_is_refused(hours):
    refuses(Room(name="loft", kind="large room", airing_h=hours), "airs for 0 to 72 h")


def test_a_house_limit_is_above_0(owner, now):
    accepts(HouseLimit(rule="flame-height", value=0.1, set_by=owner, set_at=now))


def test_a_house_limit_of_0_is_refused(owner, now):
    refuses(
        HouseLimit(rule="flame-height", value=0, set_by=owner, set_at=now),
        "A house limit is above 0",
    )


def test_another_room_has_another_name(kitchen):
    accepts(Room(name="back room", kind="small room"))


def test_a_second_room_of_one_name_is_refused(kitchen):
    refuses(Room(name="kitchen", kind="small room"), "A room of that name is here already")


@pytest.mark.parametrize("minutes", [1, 3, 1440])
def test_a_timer_ends_after_it_is_set(owner, now, minutes):
    due = now + timedelta(minutes=minutes)
    accepts(Timer(what="stir", set_by=owner, set_at=now, due_at=due))


@pytest.mark.parametrize("minutes", [0, -3])
def test_a_timer_that_ends_before_it_is_set_is_refused(owner, now, minutes):
    due = now + timedelta(minutes=minutes)
    refuses(Timer(what="stir", set_by=owner, set_at=now, due_at=due), "ends after it is set")


def ring(now, **other) -> Ring:
    return Ring(**{"deadline": "burn 1", "due_at": now, "rung": "page", "at": now, **other})


@pytest.mark.parametrize(
    "other", [{"deadline": "burn 2"}, {"rung": "machine"}, {"deadline": "timer 1"}]
)
def test_each_rung_is_noted_for_each_deadline(now, other):
    accepts(ring(now))
    accepts(ring(now, **other))
    accepts(ring(now, due_at=now + timedelta(hours=1)))


def test_a_rung_is_noted_once_a_deadline(now):
    accepts(ring(now))
    refuses(ring(now, at=now + timedelta(minutes=1)), "is noted already")


def test_a_folder_has_one_watch(now):
    accepts(Watch(id=1, last_at=now))
    refuses(Watch(id=2, last_at=now), "A folder has one watch")


def test_a_time_without_a_watch_has_a_length(now):
    accepts(Unwatched(from_at=now, to_at=now + timedelta(seconds=61)))


def test_a_time_without_a_watch_that_ends_before_it_begins_is_refused(now):
    refuses(Unwatched(from_at=now, to_at=now), "ends after it begins")
