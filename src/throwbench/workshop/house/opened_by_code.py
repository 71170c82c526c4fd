"""What a typed code opens: at most ten wrong ones in ten minutes for the whole workshop."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db import transaction

from throwbench.workshop.house.models import WrongCode
from throwbench.workshop.house.typed_code import as_meant, digest_of_code

MOST = 10
WITHIN = timedelta(minutes=10)
KEPT = timedelta(days=1)
"""How long a wrong one is kept; only those of the last `WITHIN` count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """What a browser then keeps, under which name, and the name of the page it goes to."""

    kept_as: str
    digest: str
    then: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What came of a code: what it opens, how many tries are left, until when there is a wait."""

    opened: Opened | None = None
    left: int = MOST
    wait_until: datetime | None = None


Way = Callable[[str, datetime], Opened | None]
WAYS: list[Way] = []
"""Each slice that gives codes out adds its own: from the digest of a code to what it opens."""


@transaction.atomic
def try_code(typed: str, *, now: datetime) -> Tried:
    """What the code opens. While there is a wait the right one opens nothing either."""
    before = state(now)
    if before.wait_until is not None:
        return before
    digest = digest_of_code(as_meant(typed))
    opened = next((found for way in WAYS if (found := way(digest, now)) is not None), None)
    if opened is not None:
        return Tried(opened=opened, left=before.left)
    WrongCode.objects.filter(at__lt=now - KEPT).delete()
    WrongCode.objects.create(at=now)
    return state(now)


def state(now: datetime) -> Tried:
    """How many tries are left, and until when there is a wait."""
    found = WrongCode.objects.filter(at__gt=now - WITHIN, at__lte=now).order_by("-at")
    wrong = list(found.values_list("at", flat=True)[:MOST])
    if len(wrong) < MOST:
        return Tried(left=MOST - len(wrong))
    return Tried(left=0, wait_until=wrong[-1] + WITHIN)
