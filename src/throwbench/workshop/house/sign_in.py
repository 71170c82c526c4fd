"""One-time links: only the hash is kept, and a POST spends it. A short code leads to the link."""

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.backends import BaseBackend
from django.db import transaction
from django.http import HttpRequest

from throwbench.workshop.house.models import Person, SignInLink
from throwbench.workshop.house.opened_by_code import Opened
from throwbench.workshop.house.typed_code import digest_of_code, new_code

VALID = timedelta(minutes=30)
KEPT_AS = "sign-in link"
"""Under which name a browser keeps the digest of the link that was opened; never the token."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayIn:
    """A token for an address, and a short code for who types. Each is shown once."""

    token: str
    code: str


def make_way_in(person: Person, *, now: datetime, valid: timedelta = VALID) -> WayIn:
    """A new link of a person with its code; the database keeps a hash of each."""
    way = WayIn(token=secrets.token_urlsafe(24), code=new_code())
    SignInLink.objects.create(
        person=person,
        token_hash=digest_of(way.token),
        code_hash=digest_of_code(way.code),
        made_at=now,
        expires_at=now + valid,
    )
    return way


def make_link(person: Person, *, now: datetime, valid: timedelta = VALID) -> str:
    """The token of a new link."""
    return make_way_in(person, now=now, valid=valid).token


def by_code(digest: str, now: datetime) -> Opened | None:
    """What a typed code opens: the very page that its link opens."""
    link = _unspent(now=now, code_hash=digest)
    if link is None:
        return None
    return Opened(kept_as=KEPT_AS, digest=link.token_hash, then="house:enter")


def digest_of(token: str) -> str:
    """What may be kept of a token: nobody can make the link from it."""
    return hashlib.sha256(token.encode()).hexdigest()


def invited(digest: str, *, now: datetime) -> Person | None:
    """Whom the link lets in; None if it was used, is too old, or never was one."""
    link = _unspent(now=now, token_hash=digest)
    return link.person if link else None


@transaction.atomic
def spend(digest: str, *, now: datetime) -> Person | None:
    """The person of an unspent link, which is spent by it; else None."""
    link = _unspent(now=now, token_hash=digest)
    if link is None:
        return None
    link.spent_at = now
    link.save(update_fields=["spent_at"])
    return link.person


def _unspent(*, now: datetime, **by: str) -> SignInLink | None:
    return (
        SignInLink.objects.select_related("person")
        .filter(
            spent_at=None,
            expires_at__gt=now,
            person__is_active=True,
            person__blanked_at=None,
            **by,
        )
        .first()
    )


class OneTimeLink(BaseBackend):
    """Signs in by a spent link only; there are no passwords."""

    def authenticate(self, request: HttpRequest | None, **_: object) -> Person | None:
        return None

    def get_user(self, user_id: int) -> Person | None:
        return Person.objects.filter(pk=user_id, is_active=True, blanked_at=None).first()
