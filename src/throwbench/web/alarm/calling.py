"""What this machine says when something is due, and a while before."""

from collections.abc import Sequence

from django.utils import timezone

from throwbench.verdict.words import listed
from throwbench.web.alarm.deadlines import NO_ROOM, Deadline

FIRE = "Wax on fire: lid on, no water."


def now_due(found: Sequence[Deadline]) -> tuple[str, str]:
    """Title and words: 'Put out W8R now', 'Boat-shed loft: out by 13:05, with Odd. …'."""
    return _title(found, burns="Put out {} now", timers="{} now"), _words(found)


def soon_due(found: Sequence[Deadline]) -> tuple[str, str]:
    """The first word, before the time."""
    return _title(found, burns="Soon out: {}", timers="Soon: {}"), _words(found)


def _title(found: Sequence[Deadline], *, burns: str, timers: str) -> str:
    lit = [one.name for one in found if one.is_burn]
    timed = [one.name for one in found if not one.is_burn]
    said = [burns.format(listed(lit))] if lit else []
    return "; ".join([*said, timers.format(listed(timed))] if timed else said)


def _words(found: Sequence[Deadline]) -> str:
    places = dict.fromkeys(one.behind or _place(one) for one in found)
    fire = [FIRE] if any(one.is_burn for one in found) else []
    return " ".join([*places, *fire])


def _place(one: Deadline) -> str:
    clock = f"{timezone.localtime(one.due):%H:%M}"
    if not one.is_burn:
        return f"Timer for {clock}."
    where = "" if one.where == NO_ROOM else f"{one.where}: "
    who = f", with {one.handed_to}" if one.handed_to else ""
    said = f"{where}out by {clock}{who}."
    return said[:1].upper() + said[1:]
