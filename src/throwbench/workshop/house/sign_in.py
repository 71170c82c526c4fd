"""One-time links: only the hash is kept, and a POST spends it."""

import hashlib
import secrets
from datetime import datetime, timedelta

from django.contrib.auth.backends import BaseBackend
from django.db import transaction
from django.http import HttpRequest

from throwbench.workshop.house.models import Person, SignInLink

VALID = timedelta(minutes=30)


def make_link(person: Person, *, now: datetime, valid: timedelta = VALID) -> str:
    """A new token for a person. It is shown once; the database keeps its hash."""
    token = secrets.token_urlsafe(24)
    SignInLink.objects.create(
        person=person, token_hash=digest_of(token), made_at=now, expires_at=now + valid
    )
    return token


def digest_of(token: str) -> str:
    """What may be kept of a token: nobody can make the link from it."""
    return hashlib.sha256(token.encode()).hexdigest()


def invited(digest: str, *, now: datetime) -> Person | None:
    """Whom the link lets in; None if it was used, is too old, or never was one."""
    link = _unspent(digest, now=now)
    return link.person if link else None


@transaction.atomic
def spend(digest: str, *, now: datetime) -> Person | None:
    """The person of an unspent link, which is spent by it; else None."""
    link = _unspent(digest, now=now)
    if link is None:
        return None
    link.spent_at = now
    link.save(update_fields=["spent_at"])
    return link.person


def _unspent(digest: str, *, now: datetime) -> SignInLink | None:
    return (
        SignInLink.objects.select_related("person")
        .filter(
            token_hash=digest,
            spent_at=None,
            expires_at__gt=now,
            person__is_active=True,
            person__blanked_at=None,
        )
        .first()
    )


class OneTimeLink(BaseBackend):
    """Signs in by a spent link only; there are no passwords."""

    def authenticate(self, request: HttpRequest | None, **_: object) -> Person | None:
        return None

    def get_user(self, user_id: int) -> Person | None:
        return Person.objects.filter(pk=user_id, is_active=True, blanked_at=None).first()
