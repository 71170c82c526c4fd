"""One nose answers at one tag: once, at a time that is kept, with what is known of the moment."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from uuid import UUID

from django.db import transaction
from django.db.models import Q

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person
from throwbench.workshop.panel.asks import ATTRIBUTES
from throwbench.workshop.panel.models import Asks, Score, Seat, Sitting, Sniff, Way
from throwbench.workshop.panel.services.noses import must_be_open
from throwbench.workshop.trials.models import Trial

A_DAY = timedelta(hours=24)
"""A sniff longer ago says nothing about the air since."""


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
    now: datetime,
    entry: UUID | None = None,
) -> Sniff:
    """Keep one nose's answers at one tag; None is "cannot tell".

    Minutes lit and in clean air [min] that are not given are reckoned from `at`, except for a
    slip: it is typed in later.

    Raises
    ------
    UnclearError
        The panel is closed, the nose sits out, or a score is missing or off the scale.
    ValidationError
        This nose has answered here already.
    EntryConflictError
        The same page was sent before, with other answers.
    """
    told = {"scores": dict(scores), "word": word.strip(), "recognised": recognised}
    content = {"sitting": sitting.pk, "seat": seat.pk, **told}
    if seen_before(entry, what="sniff", content=content, who=typed_by, now=now):
        return Sniff.objects.get(sitting=sitting, seat=seat)
    _may_answer(sitting, seat)
    _on_the_scale(seat, scores)
    reckoned = way != Way.SLIP
    sniff = Sniff(
        sitting=sitting,
        seat=seat,
        at=at,
        way=way,
        word=word.strip(),
        recognised=recognised,
        tired=tired,
        typed_by=typed_by,
        minutes_lit=_minutes_lit(seat, at) if minutes_lit is None and reckoned else minutes_lit,
        clean_air_min=_clean_air_min(sitting, at)
        if clean_air_min is None and reckoned
        else clean_air_min,
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


def _may_answer(sitting: Sitting, seat: Seat) -> None:
    must_be_open(sitting.panel)
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


def _on_the_scale(seat: Seat, scores: Mapping[str, int | None]) -> None:
    wanted = [str(attribute) for attribute in ATTRIBUTES[seat.panel.asks]]
    if sorted(scores) != sorted(wanted):
        raise UnclearError(
            "An answer is missing or was not asked for.",
            "Each question has a step or “cannot tell”.",
            "Answer all of them.",
        )
    for value in scores.values():
        step_of(seat.panel.trial, value)


def _minutes_lit(seat: Seat, at: datetime) -> float | None:
    """Since the candle was lit; None for what does not burn."""
    if seat.candle is None or seat.panel.asks == Asks.UNLIT:
        return None
    still = Q(out_at=None) | Q(out_at__gte=at)
    burn = seat.candle.burns.filter(still, lit_at__lte=at).first()
    return None if burn is None else _minutes(at - burn.lit_at)


def _clean_air_min(sitting: Sitting, at: datetime) -> float | None:
    """Since this nose's last sniff anywhere; None where there was none that day."""
    before = (
        Sniff.objects.filter(sitting__assessor=sitting.assessor_id, at__gte=at - A_DAY, at__lte=at)
        .exclude(way=Way.SLIP)
        .order_by("-at")
        .first()
    )
    return None if before is None else _minutes(at - before.at)


def _minutes(lasted: timedelta) -> float:
    return round(lasted / timedelta(minutes=1), 1)
