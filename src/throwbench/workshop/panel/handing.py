"""Handing a phone round: from then on nobody is signed in on it, and four digits lead back."""

import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth import login, logout
from django.contrib.sessions.backends.db import SessionStore
from django.db import transaction
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
    lock = SessionStore()
    lock.update({"person": who.pk, "salt": salt, "hash": _hash(salt, code)})
    lock.create()
    logout(request)
    request.session[PANEL] = panel.pk
    request.session[WAY_BACK] = lock.session_key
    return code


def state(request: HttpRequest, now: datetime) -> Tried:
    """How many tries are left, and whether there is a wait."""
    return _state(_lock_of(request), now)


@transaction.atomic
def take_back(request: HttpRequest, code: str, now: datetime) -> Tried:
    """The right code signs the maker in again and ends the round; wrong ones end in a wait."""
    lock = _lock_of(request)
    tried = _try(lock, code, now)
    if tried.person is not None:
        lock.delete()
        for key in (PANEL, WAY_BACK, NOSE, SENT):
            request.session.pop(key, None)
        login(request, tried.person, backend=BACKEND)
    return tried


@transaction.atomic
def maker_is_here(request: HttpRequest, code: str, now: datetime) -> Tried:
    """Whether the right code was typed; the round goes on, and wrong ones count all the same."""
    return _try(_lock_of(request), code, now)


def _try(lock: SessionStore, code: str, now: datetime) -> Tried:
    before = _state(lock, now)
    if before.wait_until is not None:
        return before
    person = Person.objects.filter(pk=lock.get("person", 0), is_active=True).first()
    if person and constant_time_compare(_hash(lock["salt"], code.strip()), lock["hash"]):
        return Tried(person=person)
    return _wrong(lock, before.left - 1, now)


def _lock_of(request: HttpRequest) -> SessionStore:
    """The code's hash and what was tried, in a row of its own.

    What a phone keeps is saved whole: a slow page of it would put back an older count. This row
    is written here only, one try at a time.
    """
    return SessionStore(session_key=request.session[WAY_BACK])


def _state(lock: SessionStore, now: datetime) -> Tried:
    wait_until = datetime.fromisoformat(lock["wait"]) if "wait" in lock else None
    if wait_until is not None and wait_until <= now:
        return Tried()
    return Tried(left=TRIES - lock.get("wrong", 0), wait_until=wait_until)


def _wrong(lock: SessionStore, left: int, now: datetime) -> Tried:
    wait_until = None if left else now + WAIT
    for key in ("wrong", "wait"):
        lock.pop(key, None)
    lock.update({"wrong": TRIES - left} if left else {"wait": (now + WAIT).isoformat()})
    lock.save()
    return Tried(left=left, wait_until=wait_until)


def _hash(salt: str, code: str) -> str:
    return salted_hmac(salt, code, algorithm="sha256").hexdigest()
