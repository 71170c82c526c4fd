"""Personal links: one sitting each, on the assessor's own phone, by a link or a typed code."""

import secrets
from datetime import datetime

from django.db import transaction

from throwbench.workshop.house.opened_by_code import Opened
from throwbench.workshop.house.sign_in import WayIn, digest_of
from throwbench.workshop.house.typed_code import digest_of_code, new_code
from throwbench.workshop.panel.models import Sitting
from throwbench.workshop.panel.services.noses import must_be_open

KEPT_AS = "personal link"
"""Under which name a browser keeps the digest of its link."""


@transaction.atomic
def personal_way_in(sitting: Sitting, *, now: datetime) -> WayIn:
    """A new token and code for one sitting, shown once; older ones end. Only hashes are kept.

    Raises
    ------
    UnclearError
        The panel is closed.
    """
    must_be_open(sitting.panel, now=now)
    way = WayIn(token=secrets.token_urlsafe(24), code=new_code())
    sitting.link_hash = digest_of(way.token)
    sitting.code_hash = digest_of_code(way.code)
    sitting.save(update_fields=["link_hash", "code_hash"])
    return way


def personal_link(sitting: Sitting, *, now: datetime) -> str:
    """The token of a new personal link."""
    return personal_way_in(sitting, now=now).token


def by_code(digest: str, now: datetime) -> Opened | None:
    """What a typed code opens: the sitting of an open panel that its link opens."""
    sitting = Sitting.objects.filter(code_hash=digest, panel__closed_at=None).first()
    if sitting is None:
        return None
    return Opened(kept_as=KEPT_AS, digest=sitting.link_hash, then="panel:mine")
