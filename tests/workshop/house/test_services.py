"""Begin, people, rooms, settings and limits: what each does, and what each refuses."""

import pytest
from django.core.exceptions import ValidationError

from throwbench.science.errors import SaidError
from throwbench.workshop.house import services
from throwbench.workshop.house.models import HouseLimit, Person, Role, Room, Workshop

pytestmark = pytest.mark.django_db


def test_a_new_folder_has_an_owner_without_a_name():
    owner = services.first_owner()
    assert (owner.name, owner.role) == ("The maker", Role.OWNER)


def test_the_first_owner_is_made_once():
    assert services.first_owner() == services.first_owner()
    assert Person.objects.count() == 1


def test_to_begin_names_the_workshop_and_its_owner(now):
    owner = services.begin(
        name=" Saltmyr ",
        owner_name="Ragnhild",
        zone="europe/oslo",
        units="metric",
        now=now,
        owner=services.first_owner(),
    )
    assert Person.objects.get() == owner
    assert owner.name == "Ragnhild"
    assert (Workshop.objects.get().name, Workshop.objects.get().zone) == ("Saltmyr", "Europe/Oslo")


def test_to_begin_without_an_owner_makes_one(now):
    owner = services.begin(
        name="Saltmyr", owner_name="Ragnhild", zone="Europe/Oslo", units="metric", now=now
    )
    assert owner.role == Role.OWNER


def test_a_workshop_begins_once(workshop, now):
    with pytest.raises(SaidError, match="has begun already"):
        services.begin(name="X", owner_name="Y", zone="Europe/Oslo", units="metric", now=now)


def test_an_unknown_zone_is_refused_and_nothing_begins(now):
    with pytest.raises(SaidError, match="no zone “Torvøya”"):
        services.begin(name="X", owner_name="Y", zone="Torvøya", units="metric", now=now)
    assert not Workshop.objects.exists()
    assert not Person.objects.exists()


def test_a_person_is_added(owner, now):
    maren = services.add_person(name=" Maren ", role="assessor", who=owner, now=now)
    assert (maren.name, maren.makes) == ("Maren", False)


def test_a_name_is_taken_once(owner, now):
    with pytest.raises(ValidationError, match="Somebody of that name is here already"):
        services.add_person(name="Ragnhild", role="assessor", who=owner, now=now)


def test_an_empty_name_is_refused(owner, now):
    with pytest.raises(ValidationError):
        services.add_person(name="  ", role="assessor", who=owner, now=now)


def test_a_role_outside_the_three_is_refused(owner, now):
    with pytest.raises(ValidationError):
        services.add_person(name="Maren", role="guest", who=owner, now=now)


def test_nobody_is_named_like_a_blanked_person(owner, now):
    with pytest.raises(SaidError, match="how a blanked person is shown"):
        services.add_person(name="Nose 7", role="assessor", who=owner, now=now)


def test_blanking_takes_the_name_and_keeps_the_row(owner, assessor, now):
    services.blank_person(assessor, who=owner, now=now)
    kept = Person.objects.get(pk=assessor.pk)
    assert kept.name == f"Nose {assessor.pk}"
    assert (kept.is_active, kept.blanked_at) == (False, now)
    assert not Person.objects.filter(name="Odd").exists()


def test_blanking_twice_keeps_the_first_time(owner, assessor, now):
    services.blank_person(assessor, who=owner, now=now)
    services.blank_person(assessor, who=owner, now=now.replace(hour=20))
    assert Person.objects.get(pk=assessor.pk).blanked_at == now


def test_the_last_owner_stays(owner, helper, now):
    with pytest.raises(SaidError, match="Ragnhild is the last owner"):
        services.blank_person(owner, who=owner, now=now)
    assert Person.objects.get(pk=owner.pk).name == "Ragnhild"


def test_an_owner_beside_another_can_be_blanked(owner, now):
    services.add_person(name="Maren", role="owner", who=owner, now=now)
    services.blank_person(owner, who=owner, now=now)
    assert Person.objects.get(pk=owner.pk).blanked_at == now


def test_a_blanked_owner_does_not_count_as_one(owner, now):
    maren = services.add_person(name="Maren", role="owner", who=owner, now=now)
    services.blank_person(owner, who=owner, now=now)
    with pytest.raises(SaidError, match="Maren is the last owner"):
        services.blank_person(maren, who=maren, now=now)


def test_a_room_may_be_half_known(owner, now):
    room = services.add_room(name="loft", kind="large room", who=owner, now=now)
    assert (room.has_door, room.airing_h) == (None, None)


def test_a_room_is_named_once(owner, kitchen, now):
    with pytest.raises(ValidationError, match="A room of that name is here already"):
        services.add_room(name="kitchen", kind="small room", who=owner, now=now)


def test_a_room_can_be_known_better(owner, kitchen, now):
    services.change_room(kitchen, airing_h=2.0, has_door=False, who=owner, now=now)
    kept = Room.objects.get()
    assert (kept.airing_h, kept.has_door, kept.kind) == (2.0, False, "living room")


def test_a_setting_changes_and_the_others_stay(owner, now):
    services.change_settings(units="ounces", who=owner, now=now)
    kept = Workshop.objects.get()
    assert (kept.units, kept.zone, kept.name) == ("ounces", "Europe/Oslo", "Saltmyr Lysstøperi")


def test_a_setting_that_does_not_exist_is_a_slip_of_the_caller(owner, now):
    with pytest.raises(TypeError, match="invented"):
        services.change_settings(invented=True, who=owner, now=now)


def test_a_house_limit_is_set_once_and_changed(owner, now):
    services.set_house_limit(rule="flame-height", value=60.0, who=owner, now=now)
    services.set_house_limit(rule="flame-height", value=50.0, who=owner, now=now)
    assert [(limit.rule, limit.value) for limit in HouseLimit.objects.all()] == [
        ("flame-height", 50.0)
    ]


def test_a_house_limit_is_given_up(owner, now):
    services.set_house_limit(rule="flame-height", value=60.0, who=owner, now=now)
    services.set_house_limit(rule="flame-height", value=None, who=owner, now=now)
    assert not HouseLimit.objects.exists()


@pytest.mark.parametrize("rule", ["relights", "soot-index", "sparkle"])
def test_a_limit_that_cannot_be_set_is_refused(owner, now, rule):
    with pytest.raises(SaidError, match="no limit that can be set"):
        services.set_house_limit(rule=rule, value=1.0, who=owner, now=now)


@pytest.mark.parametrize("value", [0.0, -3.0, float("nan")])
def test_a_limit_is_above_zero(owner, now, value):
    with pytest.raises(SaidError, match="above zero"):
        services.set_house_limit(rule="flame-height", value=value, who=owner, now=now)


def test_a_helper_adds_a_nose(helper, now):
    assert services.add_person(name="Maren", role="assessor", who=helper, now=now).pk


def test_a_helper_makes_no_owner(helper, now):
    with pytest.raises(SaidError, match="Only an owner adds or blanks an owner"):
        services.add_person(name="Maren", role="owner", who=helper, now=now)


def test_a_helper_blanks_no_owner(owner, helper, now):
    services.add_person(name="Maren", role="owner", who=owner, now=now)
    with pytest.raises(SaidError, match="Only an owner adds or blanks an owner"):
        services.blank_person(owner, who=helper, now=now)


@pytest.mark.parametrize(("rule", "most"), [("flame-height", 750.0), ("vessel-temperature", 250.0)])
def test_a_limit_that_would_never_bar_is_refused(owner, now, rule, most):
    services.set_house_limit(rule=rule, value=most, who=owner, now=now)
    with pytest.raises(SaidError, match="never bar anything"):
        services.set_house_limit(rule=rule, value=most + 1, who=owner, now=now)
