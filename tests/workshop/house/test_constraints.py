"""Each constraint of the house's tables: what it lets in, and its sentence."""

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from throwbench.workshop.house.models import HouseLimit, Room, Workshop

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


@pytest.mark.parametrize("hours", [0.25, 4, 24])
def test_a_burn_limit_lies_within_a_day(workshop, hours):
    workshop.burn_limit_h = hours
    accepts(workshop)


@pytest.mark.parametrize("hours", [0, -1, 24.5])
def test_a_burn_limit_outside_a_day_is_refused(workshop, hours):
    workshop.burn_limit_h = hours
    refuses(workshop, "above 0 h and at most 24 h")


@pytest.mark.parametrize("mm", [0.5, 5, 50])
def test_a_wick_has_a_trim(workshop, mm):
    workshop.trim_mm = mm
    accepts(workshop)


@pytest.mark.parametrize("mm", [0, -1, 51])
def test_a_trim_that_leaves_no_wick_is_refused(workshop, mm):
    workshop.trim_mm = mm
    refuses(workshop, "above 0 and at most 50 mm")


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
