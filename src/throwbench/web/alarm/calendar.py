"""The calendar file: one event for each time at which candles have to be out.

Times are written in UTC (RFC 5545, 3.3.5, form 2): a put-out time is hours after the lighting, and
a change of clocks in between moves what the clock shows, not how long a candle burns.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import groupby

from django.db.models import Min
from icalendar import Alarm, Calendar, Event

from throwbench.verdict.words import listed
from throwbench.web.alarm.calling import FIRE
from throwbench.web.alarm.deadlines import FIRST_WORD, NO_ROOM, Deadline
from throwbench.workshop.trials.models import Burn

MAKER = "-//Throwbench//Put-out times//EN"
LARGEST_INTEGER = 2**31 - 1
"""Of the format (3.3.8)."""
LASTS = timedelta(minutes=15)
"""Some calendars do not ring for an event without a length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PutOut:
    """Candles that have to be out at one time."""

    number: int
    """Of the first burn that had to be out then, lit or not: a second file replaces the first."""
    due: datetime
    since: datetime
    codes: tuple[str, ...]
    rooms: tuple[str, ...]


def put_outs(lit: Iterable[Deadline]) -> tuple[PutOut, ...]:
    """The lit candles by the time at which they have to be out."""
    burns = sorted((one for one in lit if one.is_burn), key=lambda one: (one.due, one.name))
    first = _first_burns({one.due for one in burns})
    groups = [list(group) for _, group in groupby(burns, key=lambda one: one.due)]
    return tuple(
        PutOut(
            number=first[group[0].due],
            due=group[0].due,
            since=min(one.since for one in group),
            codes=tuple(one.name for one in group),
            rooms=tuple(dict.fromkeys(one.where for one in group if one.where != NO_ROOM)),
        )
        for group in groups
    )


def calendar_file(found: Iterable[PutOut], *, now: datetime, mark: str, demo: bool) -> bytes:
    """The file, as RFC 5545 has it. `mark` tells this workshop from others. No oil, no name of a
    person: the file leaves the workshop.

    Checked against: RFC 5545 (3.6: PRODID, VERSION; 3.6.1: UID, DTSTAMP; 3.6.6: TRIGGER, ACTION).
    """
    calendar = Calendar()
    calendar.add("prodid", MAKER)
    calendar.add("version", "2.0")
    for one in found:
        calendar.add_component(_event(one, now=now, mark=mark, demo=demo))
    return bytes(calendar.to_ical())


def _event(one: PutOut, *, now: datetime, mark: str, demo: bool) -> Event:
    said = f"{'Demo: put' if demo else 'Put'} out {listed(one.codes)}"
    event = Event()
    event.add("uid", f"put-out-{one.number}-{mark}@throwbench")
    event.add("dtstamp", now.astimezone(UTC))
    # Elapsed seconds only grow: a later file of the same candles wins (3.8.7.4).
    elapsed_s = round((now - one.since).total_seconds())
    event.add("sequence", min(max(0, elapsed_s), LARGEST_INTEGER))
    event.add("dtstart", one.due.astimezone(UTC))
    event.add("dtend", (one.due + LASTS).astimezone(UTC))
    event.add("summary", said)
    event.add("description", _description(demo=demo))
    if one.rooms:
        event.add("location", listed(one.rooms))
    event.add("transp", "TRANSPARENT")
    for before in (FIRST_WORD, timedelta(0)):
        event.add_component(_alarm(said, before))
    return event


def _alarm(said: str, before: timedelta) -> Alarm:
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("trigger", -before)
    alarm.add("description", said)
    return alarm


def _description(*, demo: bool) -> str:
    invented = "Demo: all of it is invented. " if demo else ""
    return f"{invented}Put out with the snuffer or the lid, never with water. {FIRE}"


def _first_burns(dues: Iterable[datetime]) -> Mapping[datetime, int]:
    """For each time the first burn that had to be out then; it may be out meanwhile."""
    found = Burn.objects.filter(out_by_at__in=list(dues)).values("out_by_at")
    return dict(found.annotate(first=Min("pk")).values_list("out_by_at", "first").order_by())
