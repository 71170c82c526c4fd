"""Slips on paper: typed in fast, and put right where they were typed wrong."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.corrections import put_right
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.panel.models import Seat, Sitting, Sniff, Way
from throwbench.workshop.panel.services.answering import answer, step_of


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedSlip:
    """What stands on one slip."""

    seat: Seat
    scores: Mapping[str, int | None]
    word: str = ""
    recognised: bool | None = None


@transaction.atomic
def type_slips(
    sitting: Sitting,
    slips: Sequence[TypedSlip],
    *,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> list[Sniff]:
    """All slips of one assessor that were typed at once, or none of them."""
    content = {
        "sitting": sitting.pk,
        "slips": [[slip.seat.pk, dict(slip.scores), slip.word, slip.recognised] for slip in slips],
    }
    if seen_before(entry, what="slips", content=content, who=who, now=now):
        return []
    return [
        answer(
            sitting,
            slip.seat,
            scores=slip.scores,
            word=slip.word,
            recognised=slip.recognised,
            at=now,
            way=Way.SLIP,
            typed_by=who,
            now=now,
        )
        for slip in slips
    ]


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
