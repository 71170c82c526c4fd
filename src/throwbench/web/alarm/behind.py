"""A clock that was put back: what was noted lies in its future, and no put-out time holds."""

from datetime import datetime

from django.db.models import Max
from django.utils import timezone

from throwbench.documents.words import date_words
from throwbench.workshop.house.models import Entry
from throwbench.workshop.trials.models import Burn
from throwbench.workshop.trials.times import clock_is_behind


def clock_behind(now: datetime) -> str:
    """What is said of it, from the candle lit last, else from the newest note; else nothing."""
    lit = Burn.objects.filter(out_at=None).select_related("candle").order_by("-lit_at").first()
    if lit is not None:
        what, at = f"{lit.candle.code} was lit on", lit.lit_at
    else:
        newest = Entry.objects.aggregate(at=Max("at"))["at"]
        what, at = "the newest note is of", newest or now
    return behind_words(what, at, now=now) if clock_is_behind(at, now) else ""


def behind_words(what: str, at: datetime, *, now: datetime) -> str:
    """'This machine's clock shows 23 May 2027, 11:05; D5Q was lit on 24 May 2027, 09:05. …'."""
    return (
        f"This machine’s clock shows {_moment(now)}; {what} {_moment(at)}. Put the clock right. "
        "Until then no put-out time here holds: go by your own timer."
    )


def _moment(at: datetime) -> str:
    local = timezone.localtime(at)
    return f"{date_words(local.date())}, {local:%H:%M}"
