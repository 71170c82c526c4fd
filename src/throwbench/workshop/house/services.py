"""What the maker does in the house: begin, people, rooms, settings, limits."""

import re
from collections.abc import Mapping
from datetime import datetime
from typing import Any, TypeVar
from zoneinfo import available_timezones

from django.db import transaction
from django.db.models import Model

from throwbench.rules.limit import limits_on
from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import HouseLimit, Person, Role, Room, RoomKind, Workshop
from throwbench.workshop.house.names import as_kept

NAMELESS = "The maker"
"""The owner's name until the workshop is begun."""
SETTINGS = ("name", "zone", "units")
Row = TypeVar("Row", bound=Model)
MOST_TIMES = 10
"""A limit of the maker's own is at most so many times the one that comes with Throwbench."""
MOST_WITHOUT = 250.0
"""Where none comes with it, the temperature of the vessel [°C]: as hot as can be noted."""
_BLANK_NAME = re.compile(r"nose \d+", re.IGNORECASE)


@transaction.atomic
def first_owner() -> Person:
    """The owner who came first; in a new folder one without a name is made."""
    owner = Person.objects.filter(role=Role.OWNER, is_active=True).order_by("id").first()
    return owner or Person.objects.create(name=NAMELESS, role=Role.OWNER)


@transaction.atomic
def begin(
    *,
    name: str,
    owner_name: str,
    zone: str,
    units: str,
    room: str = "",
    now: datetime,
    owner: Person | None = None,
) -> Person:
    """Begin the one workshop of a folder; `owner` gets the name, or an owner is made.

    A `room` that is named is kept as a living room.

    Raises
    ------
    UnclearError
        The workshop has begun, or the zone is not known.
    """
    if Workshop.objects.exists():
        raise UnclearError(
            "This workshop has begun already.",
            "A folder holds one.",
            "Change its name under House, or begin another folder.",
        )
    _checked(Workshop(id=1, name=name.strip(), zone=known_zone(zone), units=units)).save()
    person = owner or Person(role=Role.OWNER)
    person.name = as_kept(owner_name)
    _checked(person).save()
    if room.strip():
        add_room(name=room, kind=RoomKind.LIVING, who=person, now=now)
    return person


@transaction.atomic
def add_person(*, name: str, role: str, who: Person, now: datetime) -> Person:
    """Somebody of the workshop; they come in by a one-time link."""
    kept = as_kept(name)
    if _BLANK_NAME.fullmatch(kept):
        raise UnclearError(
            f"“{kept}” is how a blanked person is shown.",
            "Any other name is allowed.",
            "Choose another.",
        )
    _may_touch(role, who=who)
    person = _checked(Person(name=kept, role=role))
    person.save()
    return person


@transaction.atomic
def blank_person(person: Person, *, who: Person, now: datetime) -> None:
    """Take a person's name out for good. What they did stays, under a number.

    Raises
    ------
    UnclearError
        It is the last owner, or an owner and `who` is none.
    """
    _may_touch(person.role, who=who)
    others = Person.objects.filter(role=Role.OWNER, is_active=True).exclude(pk=person.pk)
    if person.role == Role.OWNER and not others.exists():
        raise UnclearError(
            f"{person.name} is the last owner.",
            "A workshop has at least one.",
            "Add another owner first.",
        )
    if person.blanked_at is None:
        person.name = f"Nose {person.pk}"
        person.is_active = False
        person.blanked_at = now
        person.save()


@transaction.atomic
def add_room(
    *,
    name: str,
    kind: str,
    has_door: bool | None = None,
    airing_h: float | None = None,
    who: Person,
    now: datetime,
) -> Room:
    """A room; how long it airs [h] and whether it has a door may be unknown."""
    room = _checked(Room(name=name.strip(), kind=kind, has_door=has_door, airing_h=airing_h))
    room.save()
    return room


@transaction.atomic
def change_room(room: Room, *, who: Person, now: datetime, **fields: Any) -> None:
    """Change what is known of a room."""
    _set(room, fields, allowed=("name", "kind", "has_door", "airing_h"))


@transaction.atomic
def change_settings(*, who: Person, now: datetime, **fields: Any) -> None:
    """Change some of `SETTINGS`."""
    if "zone" in fields:
        fields["zone"] = known_zone(fields["zone"])
    _set(Workshop.objects.get(id=1), fields, allowed=SETTINGS)


@transaction.atomic
def set_house_limit(*, rule: str, value: float | None, who: Person, now: datetime) -> None:
    """Set the maker's own figure of a rule, in the rule's unit; without one the shipped holds.

    Raises
    ------
    UnclearError
        No limit of that name can be set, or the figure is not above zero, or so high that it
        would never bar anything.
    """
    if value is None:
        HouseLimit.objects.filter(rule=rule).delete()
        return
    limits_on(now.date(), house={rule: value})
    _demand_a_limit(rule, value, now=now)
    limit = HouseLimit.objects.filter(rule=rule).first() or HouseLimit(rule=rule)
    limit.value, limit.set_by, limit.set_at = value, who, now
    _checked(limit).save()


def _demand_a_limit(rule: str, value: float, *, now: datetime) -> None:
    """A figure beyond anything that burns is a slip, and a limit that never bars."""
    shipped = {item.rule.id: item.figure for item in limits_on(now.date())}.get(rule)
    most = MOST_WITHOUT if shipped is None else MOST_TIMES * shipped
    if value > most:
        raise UnclearError(
            f"A limit of {value:g} would never bar anything.",
            f"Your own goes up to {most:g} here.",
            "Check the figure and its unit.",
        )


def known_zone(zone: str) -> str:
    """A zone of the time-zone database, as it is spelled there.

    Raises
    ------
    UnclearError
        There is none of that name.
    """
    found = {name.casefold(): name for name in available_timezones()}.get(zone.strip().casefold())
    if found is None:
        raise UnclearError(
            f"There is no zone “{zone.strip()}”.",
            "A zone is a region and a city, as in Europe/Oslo.",
            "Choose one of the list.",
        )
    return found


def _may_touch(role: str, *, who: Person) -> None:
    """A helper does not make, blank or become an owner."""
    if role == Role.OWNER and who.role != Role.OWNER:
        raise UnclearError(
            f"{who.name} is a {who.role}.",
            "Only an owner adds or blanks an owner.",
            "Ask an owner to do it.",
        )


def _set(row: Room | Workshop, fields: Mapping[str, Any], *, allowed: tuple[str, ...]) -> None:
    unknown = set(fields) - set(allowed)
    if unknown:
        raise TypeError(f"no such fields: {', '.join(sorted(unknown))}")
    for field, value in fields.items():
        setattr(row, field, value.strip() if isinstance(value, str) else value)
    _checked(row).save()


def _checked(row: Row) -> Row:
    """The row itself, once the database's sentences have been heard."""
    row.full_clean(exclude=["password"] if isinstance(row, Person) else None)
    return row
