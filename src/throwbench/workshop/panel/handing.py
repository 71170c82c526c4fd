"""Handing a phone round: from then on nobody is signed in on it, and four digits lead back."""

import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth import login, logout
from django.http import HttpRequest
from django.utils.crypto import constant_time_compare, salted_hmac

from throwbench.workshop.house.models import Person
from throwbench.workshop.panel.models import Panel
from throwbench.workshop.panel.road import NOSE, PANEL, SENT

BACKEND = "throwbench.workshop.house.sign_in.OneTimeLink"
WAY_BACK = "way back"
TRIES = 5
WAIT = timedelta(minutes=10)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What came of a code: who is back, or how often it can be tried, or until when it cannot."""

    person: Person | None = None
    left: int = TRIES
    wait_until: datetime | None = None


def hand_round(request: HttpRequest, panel: Panel, who: Person) -> str:
    """Sign out, keep only the panel, and return the code that leads back; only its hash stays."""
    code = f"{secrets.randbelow(10_000):04d}"
    salt = secrets.token_hex(16)
    logout(request)
    request.session[PANEL] = panel.pk
    request.session[WAY_BACK] = {"person": who.pk, "salt": salt, "hash": _hash(salt, code)}
    return code


def state(request: HttpRequest, now: datetime) -> Tried:
    """How many tries are left, and whether there is a wait."""
    kept = request.session[WAY_BACK]
    wait_until = datetime.fromisoformat(kept["wait"]) if "wait" in kept else None
    if wait_until is not None and wait_until <= now:
        return Tried()
    return Tried(left=TRIES - kept.get("wrong", 0), wait_until=wait_until)


def take_back(request: HttpRequest, code: str, now: datetime) -> Tried:
    """The right code signs the maker in again and ends the round; wrong ones end in a wait."""
    before = state(request, now)
    if before.wait_until is not None:
        return before
    kept = request.session[WAY_BACK]
    person = Person.objects.filter(pk=kept["person"], is_active=True).first()
    if person and constant_time_compare(_hash(kept["salt"], code.strip()), kept["hash"]):
        for key in (PANEL, WAY_BACK, NOSE, SENT):
            request.session.pop(key, None)
        login(request, person, backend=BACKEND)
        return Tried(person=person)
    return _wrong(request, before.left - 1, now)


def _wrong(request: HttpRequest, left: int, now: datetime) -> Tried:
    known = {name: request.session[WAY_BACK][name] for name in ("person", "salt", "hash")}
    wait_until = None if left else now + WAIT
    noted = {"wrong": TRIES - left} if left else {"wait": (now + WAIT).isoformat()}
    request.session[WAY_BACK] = {**known, **noted}
    return Tried(left=left, wait_until=wait_until)


def _hash(salt: str, code: str) -> str:
    return salted_hmac(salt, code, algorithm="sha256").hexdigest()
