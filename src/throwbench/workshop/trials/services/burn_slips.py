"""Slips of the pen in burns and checks, put right with a reason; the first entry stays visible."""

from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction

from throwbench import records
from throwbench.science.errors import UnclearError
from throwbench.workshop.house.corrections import corrections_of, put_right
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.trials.asking import ask, figures_asked
from throwbench.workshop.trials.looking import end_asked, look_asked, room_asked
from throwbench.workshop.trials.models import Burn, Check
from throwbench.workshop.trials.services.ending import follow_up, reopen
from throwbench.workshop.trials.sights import BEGUN, ENDS, LOOKS, is_text


@transaction.atomic
def put_check_right(
    check: Check,
    *,
    field: str,
    value: Any,
    why: str,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Correction:
    """Change one of `LOOKS` in a check. None takes it back: it was not looked at.

    Raises
    ------
    UnclearError
        No reason, no such field, or a figure that is not possible.
    QuestionsError
        The new figure is unusual and `sure` is not said.
    """
    _is_one_of(field, LOOKS)
    content = {"check": check.pk, "field": field, "value": value, "why": why}
    if seen_before(entry, what="put a check right", content=content, who=who, now=now):
        return corrections_of([check])[-1]
    if value is not None:
        beside = {"flare_up_s": check.flare_up_s} if field == "flare_up" else {}
        ask(look_asked(check.burn, check.at, {**beside, field: value}), sure=sure)
    return put_right(check, field=field, value=_empty(field, value), why=why, who=who, now=now)


@transaction.atomic
def put_burn_right(
    burn: Burn,
    *,
    field: str,
    value: Any,
    why: str,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Correction:
    """Change one figure or sight of a burn. None takes it back: it was not looked at.

    Raises
    ------
    UnclearError
        No reason, no such field, or a figure that is not possible.
    QuestionsError
        The new figure is unusual and `sure` is not said.
    """
    _is_one_of(field, (*BEGUN, *ENDS, "put_out"))
    content = {"burn": burn.pk, "field": field, "value": value, "why": why}
    if seen_before(entry, what="put a burn right", content=content, who=who, now=now):
        return corrections_of([burn])[-1]
    if value is not None:
        asked = list(end_asked(burn, burn.out_at, {field: value}))
        if field in ("room_c", "trim_mm"):
            asked += figures_asked(records.Burn, {field: value})
        if field == "room_c":
            asked += room_asked(burn, value)
        ask(asked, sure=sure)
    done = put_right(burn, field=field, value=_empty(field, value), why=why, who=who, now=now)
    follow_up(burn, who=who, now=now)
    reopen(burn)
    return done


def _is_one_of(field: str, allowed: tuple[str, ...]) -> None:
    if field not in allowed:
        raise UnclearError(
            f"“{field}” cannot be put right.",
            f"These can: {', '.join(allowed)}.",
            "Choose one of them.",
        )


def _empty(field: str, value: Any) -> Any:
    return "" if value is None and is_text(field) else value
