"""People, rooms, settings, entries and corrections; timers and what became of the alarm."""

from throwbench.workshop.house.models.alarm import Heard, Ring, Rung, There, Timer, Unwatched, Watch
from throwbench.workshop.house.models.house import (
    Correction,
    Entry,
    HouseLimit,
    Person,
    Role,
    Room,
    RoomKind,
    SignInLink,
    Units,
    Workshop,
)
from throwbench.workshop.house.wrong_code import WrongCode

__all__ = [
    "Correction",
    "Entry",
    "Heard",
    "HouseLimit",
    "Person",
    "Ring",
    "Role",
    "Room",
    "RoomKind",
    "Rung",
    "SignInLink",
    "There",
    "Timer",
    "Units",
    "Unwatched",
    "Watch",
    "Workshop",
    "WrongCode",
]
