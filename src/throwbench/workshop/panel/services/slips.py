"""Slips on paper: typed in fast, and put right where they were typed wrong."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, time
from uuid import UUID

from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.corrections import put_right
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.panel.models import Seat, Sitting, Sniff, Way
from throwbench.workshop.panel.services.answering import answer, step_of
from throwbench.workshop.panel.services.noses import note_nose
from throwbench.workshop.trials.times import CLOCKS_DIFFER, clock, local_day, zone


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedSlip:
    """What stands on one slip."""

    seat: Seat
    scores: Mapping[str, int | None]
    word: str = ""
    recognised: bool | None = None
    clock: time | None = None
    """The workshop's clock on the panel's day, as written; None where no time stands there."""


@transaction.atomic
def type_slips(
    sitting: Sitting,
    slips: Sequence[TypedSlip],
    *,
    tired: bool | None = None,
    perfume: bool | None = None,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> list[Sniff]:
    """All slips of one assessor that were typed at once, or none of them.

    Where a slip has no time, none is reckoned from it: neither clean air nor minutes lit.

    Raises
    ------
    UnclearError
        What `answer` raises, or a time that lies ahead or before the panel was opened.
    """
    content = {
        "sitting": sitting.pk,
        "nose": [tired, perfume],
        "slips": [_content(slip) for slip in slips],
    }
    if seen_before(entry, what="slips", content=content, who=who, now=now):
        return []
    note_nose(sitting, tired=tired, perfume=perfume, now=now)
    return [_typed(sitting, slip, who=who, now=now) for slip in slips]


def _content(slip: TypedSlip) -> list[object]:
    written = slip.clock and f"{slip.clock:%H:%M}"
    return [slip.seat.pk, dict(slip.scores), slip.word, slip.recognised, written]


def _typed(sitting: Sitting, slip: TypedSlip, *, who: Person, now: datetime) -> Sniff:
    return answer(
        sitting,
        slip.seat,
        scores=slip.scores,
        word=slip.word,
        recognised=slip.recognised,
        at=now if slip.clock is None else _written(slip, slip.clock, now=now),
        is_timed=slip.clock is not None,
        way=Way.SLIP,
        typed_by=who,
        now=now,
    )


def _written(slip: TypedSlip, at: time, *, now: datetime) -> datetime:
    """The moment that a slip tells."""
    panel = slip.seat.panel
    moment = datetime.combine(panel.day, at, tzinfo=zone())
    if moment > now + CLOCKS_DIFFER:
        raise UnclearError(
            f"The slip for {slip.seat.tag} says {at:%H:%M}, and it is {clock(now)}.",
            f"A slip was written on {panel.day:%-d %B} before it is typed.",
            "Check the time, or leave it empty.",
        )
    opened = panel.opened_at
    if moment < opened - CLOCKS_DIFFER and local_day(opened) == panel.day:
        raise UnclearError(
            f"The slip for {slip.seat.tag} says {at:%H:%M}, and the panel was opened at "
            f"{clock(opened)}.",
            "A slip is written after that.",
            "Check the time, or leave it empty.",
        )
    return moment


@transaction.atomic
def put_slip_right(
    sniff: Sniff,
    *,
    scores: Mapping[str, int | None],
    word: str = "",
    why: str,
    who: Person,
    now: datetime,
) -> list[Correction]:
    """Change what was typed wrong; the first entry stays beside it, with the reason.

    Raises
    ------
    UnclearError
        Nothing differs, there is no reason, or a score is off the scale.
    """
    trial = sniff.seat.panel.trial
    changed = [
        put_right(row, field="value", value=value, why=why, who=who, now=now)
        for row in sniff.scores.all()
        if (value := step_of(trial, scores[row.attribute])) != row.value
    ]
    if word.strip() != sniff.word:
        changed.append(
            put_right(sniff, field="word", value=word.strip(), why=why, who=who, now=now)
        )
    if not changed:
        raise UnclearError(
            "Nothing differs from what was noted.",
            "A slip is put right where it was typed wrong.",
            "Change what is wrong, or go back.",
        )
    return changed
