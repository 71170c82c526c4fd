"""What happened to the alarm: it rang, it was heard, somebody is there, nobody watched."""

import uuid
from collections.abc import Iterable
from datetime import datetime

from django.db import transaction

from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Heard, Person, Ring, Rung, There, Unwatched, Watch


@transaction.atomic
def note_ring(
    *, deadline: str, due_at: datetime, rung: str, at: datetime, trouble: str = ""
) -> Ring:
    """One rung rang for a deadline, or could not; the first time is kept."""
    told = {"at": at, "trouble": trouble[:200]}
    kept, _ = Ring.objects.get_or_create(deadline=deadline, due_at=due_at, rung=rung, defaults=told)
    return kept


@transaction.atomic
def note_page_rang(
    *, deadline: str, due_at: datetime, who: Person, now: datetime, entry: uuid.UUID | None = None
) -> None:
    """An open page rang. Several pages may: the first is kept."""
    told = {"deadline": deadline, "due_at": due_at}
    if not seen_before(entry, what="page_rang", content=told, who=who, now=now):
        note_ring(deadline=deadline, due_at=due_at, rung=Rung.PAGE, at=now)


@transaction.atomic
def note_calendar(found: Iterable[tuple[str, datetime]], *, now: datetime) -> None:
    """A calendar file with these deadlines was made; the first time is kept."""
    for deadline, due_at in found:
        note_ring(deadline=deadline, due_at=due_at, rung=Rung.CALENDAR, at=now)


@transaction.atomic
def note_heard(
    *,
    rung: str,
    heard: bool,
    who: Person,
    now: datetime,
    entry: uuid.UUID | None = None,
) -> None:
    """Somebody tried a rung and says whether it was heard."""
    told = {"rung": rung, "heard": heard}
    if not seen_before(entry, what="heard", content=told, who=who, now=now):
        Heard.objects.create(**told, who=who, at=now)


@transaction.atomic
def note_there(*, who: Person, now: datetime, entry: uuid.UUID | None = None) -> None:
    """Somebody is there: what is due now is silent from now on; it stays due."""
    if not seen_before(entry, what="there", content={}, who=who, now=now):
        There.objects.create(who=who, at=now)


@transaction.atomic
def note_watch(*, at: datetime) -> None:
    """The server looked at the deadlines."""
    Watch.objects.update_or_create(id=1, defaults={"last_at": at})


@transaction.atomic
def note_unwatched(*, from_at: datetime, to_at: datetime) -> None:
    """From then to then something was lit or timed, and this machine did not watch."""
    Unwatched.objects.create(from_at=from_at, to_at=to_at)
    note_watch(at=to_at)
