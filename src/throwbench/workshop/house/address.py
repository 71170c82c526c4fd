"""The workshop's address: kept, checked, and who reached it. Printed square codes lead there."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.conf import settings
from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.alive import Heard, ask
from throwbench.workshop.house.machine import checked_address, host_of
from throwbench.workshop.house.models import Person, Role, Workshop

FRESH = timedelta(hours=24)
"""So long an answer counts for what is printed."""
NOTED_EVERY = timedelta(days=1)
OWN = Workshop.objects.filter(id=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What is known of the address of a workshop."""

    address: str
    answered_at: datetime | None
    reached_at: datetime | None
    is_for_show: bool
    is_fresh: bool

    @property
    def is_good(self) -> bool:
        """It answered within a day, and another device was there."""
        return bool(self.address and self.is_fresh and self.reached_at)


def standing_of(here: Workshop, *, now: datetime) -> Standing:
    """What the row says; nobody is asked."""
    answered = here.address_answered_at
    return Standing(
        address=here.address,
        answered_at=answered,
        reached_at=here.address_reached_at,
        is_for_show=is_for_show(here.address),
        is_fresh=answered is not None and now - FRESH <= answered <= now,
    )


def is_for_show(address: str) -> bool:
    """Names under .example are reserved (RFC 2606) and lead nowhere."""
    return bool(address) and host_of(address).endswith(".example")


@transaction.atomic
def keep_address(address: str, *, who: Person, now: datetime) -> Workshop:
    """Set the address (empty: none); what was found at another one counts no more.

    Raises
    ------
    UnclearError
        `who` is no owner, or it is no address of a machine.
    """
    if who.role != Role.OWNER:
        raise UnclearError(
            f"{who.name} is a {who.role}.",
            "Only an owner sets the workshop’s address.",
            "Ask an owner to do it.",
        )
    here = Workshop.objects.get(id=1)
    wanted = checked_address(address) if address.strip() else ""
    if wanted != here.address:
        here.address = wanted
        here.address_answered_at = here.address_reached_at = None
        here.full_clean()
        here.save()
    answer_to_it(wanted)
    return here


def check_address(here: Workshop, *, now: datetime) -> Heard | None:
    """Ask at the address, which takes some seconds at most; None where there is none to ask at."""
    if not here.address or is_for_show(here.address):
        return None
    authority = settings.AUTHORITY
    heard = ask(here.address, authority=authority.der if authority else b"")
    note_answer(here, now=now if heard == Heard.THIS else None)
    return heard


def note_answer(here: Workshop, *, now: datetime | None) -> None:
    """This workshop answered at its address `now`, or did not. Of an address meanwhile given up
    nothing is noted."""
    here.address_answered_at = now
    OWN.filter(address=here.address).update(address_answered_at=now)


def note_reached(here: Workshop, *, now: datetime) -> None:
    """Another device opened a page at the address."""
    here.address_reached_at = now
    OWN.filter(address=here.address).update(address_reached_at=now)


def is_noted(here: Workshop, *, now: datetime) -> bool:
    """Whether it was noted today already that another device was there."""
    reached = here.address_reached_at
    return reached is not None and now - NOTED_EVERY < reached <= now


def answer_to_it(address: str) -> None:
    """From now on this server answers to the name, too."""
    host = host_of(address) if address else ""
    if host and host not in settings.ALLOWED_HOSTS:
        settings.ALLOWED_HOSTS.append(host)
