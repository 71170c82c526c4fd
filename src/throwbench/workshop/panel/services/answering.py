"""One nose answers at one tag: once, at a time that is kept, with what is known of the moment."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from uuid import UUID

from django.db import transaction
from django.utils.timezone import localtime

from throwbench.records.attribute import KINDS
from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person
from throwbench.workshop.house.press import current_press
from throwbench.workshop.panel.models import Panel, Score, Seat, Sitting, Sniff
from throwbench.workshop.panel.services.noses import must_be_open
from throwbench.workshop.trials.models import Trial

SLACK = timedelta(minutes=2)
"""So much before the opening is a clock that was put right meanwhile."""


@transaction.atomic
def answer(
    sitting: Sitting,
    seat: Seat,
    *,
    scores: Mapping[str, int | None],
    at: datetime,
    way: str,
    word: str = "",
    recognised: bool | None = None,
    tired: bool | None = None,
    minutes_lit: float | None = None,
    clean_air_min: float | None = None,
    typed_by: Person | None = None,
    is_timed: bool = True,
    now: datetime,
    entry: UUID | None = None,
) -> Sniff:
    """Keep one nose's answers at one tag; None is "cannot tell".

    Minutes lit and in clean air [min] are kept where they are given; otherwise they are reckoned
    when they are read (`selectors.moments`), since answers and burns arrive in any order.

    Raises
    ------
    UnclearError
        The panel is closed or was not open yet, the nose sits out, or a score is missing or off the
        scale.
    ValidationError
        This nose has answered here already.
    EntryConflictError
        The same page was sent before, with other answers.
    """
    told = {
        "scores": dict(scores), "word": word.strip(), "recognised": recognised, "tired": tired,
    }  # fmt: skip
    content = {"sitting": sitting.pk, "seat": seat.pk, **told}
    if seen_before(entry, what="sniff", content=content, who=typed_by, now=now):
        return Sniff.objects.get(sitting=sitting, seat=seat)
    _may_answer(sitting, seat, now=now)
    _on_the_scale(seat, scores)
    sniff = Sniff(
        sitting=sitting,
        seat=seat,
        at=at,
        way=way,
        word=word.strip(),
        recognised=recognised,
        tired=tired,
        typed_by=typed_by,
        is_timed=is_timed,
        minutes_lit=minutes_lit,
        clean_air_min=clean_air_min,
    )
    sniff.full_clean()
    sniff.save()
    Score.objects.bulk_create(
        Score(sniff=sniff, attribute=attribute, value=value) for attribute, value in scores.items()
    )
    return sniff


def step_of(trial: Trial, value: int | None) -> int | None:
    """The score itself, where it is a step of the scale or "cannot tell".

    Raises
    ------
    UnclearError
        Where it is not.
    """
    if value is not None and not trial.scale_low <= value <= trial.scale_high:
        raise UnclearError(
            f"The score is {value}.",
            f"A score is a whole step from {trial.scale_low} to {trial.scale_high}.",
            "Give one of them, or “cannot tell”.",
        )
    return value


def _may_answer(sitting: Sitting, seat: Seat, *, now: datetime) -> None:
    must_be_open(sitting.panel, now=now)
    _must_have_begun(sitting.panel, now=now)
    if seat.panel_id != sitting.panel_id:
        raise UnclearError(
            f"{seat} stands at another panel.",
            "A nose answers at the tags of its own sitting.",
            "Check the tag.",
        )
    if sitting.sits_out:
        raise UnclearError(
            f"{sitting.assessor} sits out.",
            "Who sits out does not answer.",
            "Take the sitting out back first, on the panel's page.",
        )


def _must_have_begun(panel: Panel, *, now: datetime) -> None:
    """A device says itself when it was pressed; nobody answered before there was a tag.

    The workshop's own clock may have been put back since: a plain form is sent now.
    """
    if current_press() is None or now >= panel.opened_at - SLACK:
        return
    opened, pressed = (f"{localtime(one):%-d %B, %H:%M}" for one in (panel.opened_at, now))
    raise UnclearError(
        f"By this device’s clock it was pressed on {pressed}; the panel was opened on {opened}.",
        "An answer is pressed while the panel is open.",
        "Open the tag’s page and answer anew, or tell the maker.",
    )


def _on_the_scale(seat: Seat, scores: Mapping[str, int | None]) -> None:
    if sorted(scores) != sorted(KINDS[seat.panel.asks].names):
        raise UnclearError(
            "An answer is missing or was not asked for.",
            "Each question has a step or “cannot tell”.",
            "Answer all of them.",
        )
    for value in scores.values():
        step_of(seat.panel.trial, value)
