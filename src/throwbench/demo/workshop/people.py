"""Saltmyr Lysstøperi: its people, rooms and settings."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import TypedDict

from throwbench.demo.truths import NOSES
from throwbench.demo.workshop.times import ZONE, at
from throwbench.workshop.house import services
from throwbench.workshop.house.address import keep_address
from throwbench.workshop.house.models import Person, Room, RoomKind, Workshop

ADDRESS = "http://saltmyr.example:8650"
"""Tags carry it; names under .example are reserved, so that it leads nowhere."""
BEGAN = date(2026, 8, 17)


class By(TypedDict):
    """Who did something, and when: what every service is told."""

    who: Person
    now: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    owner: Person
    noses: dict[str, Person]
    rooms: dict[str, Room]


def people() -> House:
    """Ragnhild, six noses and three rooms."""
    now = at(BEGAN)
    owner = services.begin(
        name="Saltmyr Lysstøperi", owner_name="Ragnhild", zone=ZONE, units="metric", now=now
    )
    Workshop.objects.update(invented=True)
    keep_address(ADDRESS, who=owner, now=now)
    noses = {
        name: services.add_person(name=name, role="assessor", who=owner, now=now) for name in NOSES
    }
    rooms = {
        name: services.add_room(name=name, kind=kind, has_door=door, airing_h=4, who=owner, now=now)
        for name, kind, door in (
            ("loft", RoomKind.LARGE, False),
            ("kitchen", RoomKind.LIVING, True),
            ("back room", RoomKind.SMALL, True),
        )
    }
    return House(owner=owner, noses=noses, rooms=rooms)
