"""Timers: deadlines that a maker sets beside those of the lit candles."""

import uuid
from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import QuerySet

from throwbench.science.errors import UnclearError
from throwbench.science.words import plain
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person, Timer

LONGEST_MIN = 24 * 60
DONE_FOR = timedelta(hours=12)


def running_timers() -> QuerySet[Timer]:
    """What was set and is not done, the first due first."""
    return Timer.objects.filter(done_at=None).select_related("set_by")


def done_timers(now: datetime) -> QuerySet[Timer]:
    """What was done in the last hours, the latest first."""
    found = Timer.objects.filter(done_at__gt=now - DONE_FOR).select_related("set_by")
    return found.order_by("-done_at", "-id")


@transaction.atomic
def set_timer(
    *, what: str, minutes: float, who: Person, now: datetime, entry: uuid.UUID | None = None
) -> None:
    """Set a timer of some minutes, counted from `now`.

    Raises
    ------
    UnclearError
        It has no words, or is shorter than a minute or longer than a day.
    """
    words = what.strip()
    told = {"what": words, "minutes": minutes}
    if not words:
        raise UnclearError(
            "The timer has no words.",
            "It says what is due, in up to 80 letters.",
            "Name it, as “stir”.",
        )
    if not 1 <= minutes <= LONGEST_MIN:
        raise UnclearError(
            f"The timer is {plain(minutes)} min;",
            "possible is 1 min to 24 h.",
            "Give it other minutes.",
        )
    if seen_before(entry, what="set_timer", content=told, who=who, now=now):
        return
    timer = Timer(what=words, due_at=now + timedelta(minutes=minutes), set_by=who, set_at=now)
    timer.full_clean()
    timer.save()


@transaction.atomic
def timer_done(timer: Timer, *, who: Person, now: datetime, entry: uuid.UUID | None = None) -> None:
    """It was done. What is done already stays done at its first time."""
    if seen_before(entry, what="timer_done", content={"timer": timer.pk}, who=who, now=now):
        return
    Timer.objects.filter(pk=timer.pk, done_at=None).update(done_at=now)
