"""Opening a panel and closing it; a sealed trial stays sealed in between."""

import random
from collections.abc import Sequence
from datetime import date, datetime
from uuid import UUID

from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.panel.lit_seats import may_be_sniffed_lit
from throwbench.workshop.panel.models import Asks, Panel, Seat, Sitting
from throwbench.workshop.panel.tags import checked_tags, fresh_tags
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.codes import CHANCE
from throwbench.workshop.trials.models import TestCandle, Trial

Places = Sequence[tuple[TestCandle | Oil, Room]]


@transaction.atomic
def open_panel(
    trial: Trial,
    *,
    day: date,
    asks: str,
    seats: Places,
    assessors: Sequence[Person],
    clean_air_min: int = 5,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
    tags: Sequence[str] | None = None,
    chance: random.Random = CHANCE,
) -> Panel:
    """A panel with a fresh tag for each candle or blotter; a sealed trial is sealed again.

    `clean_air_min` [min] lies between two candles. A page sent twice opens one panel. Where tags
    are drawn, so is the order in which they are shown: that of the plan would tell the oil.

    Raises
    ------
    UnclearError
        Nobody sits, nothing is sniffed, a candle is another trial's or was poured later, or one
        may not be sniffed lit there (`may_be_sniffed_lit`).
    """
    content = {
        "trial": trial.pk,
        "day": day,
        "asks": asks,
        "seats": [[type(what).__name__, what.pk, room.pk] for what, room in seats],
        "assessors": [person.pk for person in assessors],
        "clean_air_min": clean_air_min,
        "tags": tags and list(tags),
    }
    if seen_before(entry, what="panel", content=content, who=who, now=now):
        return trial.panels.filter(opened_by=who, day=day, asks=asks).latest("opened_at")
    _something_to_do(seats, assessors)
    _fit(trial, day, asks, seats)
    if asks == Asks.LIT:
        lit = [(what, room) for what, room in seats if isinstance(what, TestCandle)]
        may_be_sniffed_lit(lit, day=day, now=now)
    if tags is None:
        seats, tags = chance.sample(seats, len(seats)), fresh_tags(trial, len(seats), chance=chance)
    in_front = checked_tags(tags, len(seats))
    panel = Panel(
        trial=trial, day=day, asks=asks, clean_air_min=clean_air_min, opened_at=now, opened_by=who
    )
    panel.full_clean()
    panel.save()
    _seat(panel, seats, in_front)
    for assessor in assessors:
        add_sitting(panel, assessor)
    _seal_again(trial)
    return panel


@transaction.atomic
def close_panel(panel: Panel, *, who: Person, now: datetime) -> Panel:
    """No more answers; the last open panel of a sealed trial unseals it."""
    if panel.closed_at is not None:
        return panel
    panel.closed_at = now
    panel.save(update_fields=["closed_at"])
    trial = panel.trial
    trial.refresh_from_db(fields=["unsealed_at"])
    if trial.is_sealed and not trial.panels.filter(closed_at=None).exists():
        trial.unsealed_at = now
        trial.save(update_fields=["unsealed_at"])
    return panel


def add_sitting(panel: Panel, assessor: Person) -> Sitting:
    """The assessor's sitting at this panel."""
    sitting = Sitting(panel=panel, assessor=assessor)
    sitting.full_clean()
    sitting.save()
    return sitting


def _seal_again(trial: Trial) -> None:
    """Whatever opened it before: from now on somebody sniffs blind."""
    trial.refresh_from_db(fields=["unsealed_at"])
    if trial.sealed and trial.unsealed_at is not None:
        trial.unsealed_at = None
        trial.save(update_fields=["unsealed_at"])


def _seat(panel: Panel, seats: Places, tags: Sequence[str]) -> None:
    for position, ((what, room), tag) in enumerate(zip(seats, tags, strict=True)):
        of = {"candle": what} if isinstance(what, TestCandle) else {"oil": what}
        seat = Seat(panel=panel, room=room, tag=tag, position=position, **of)
        seat.full_clean()
        seat.save()


def _something_to_do(seats: Places, assessors: Sequence[Person]) -> None:
    if not seats:
        raise UnclearError(
            "Nothing is sniffed.", "A panel has at least one candle or blotter.", "Choose one."
        )
    if not assessors:
        raise UnclearError("Nobody sits.", "A panel has at least one assessor.", "Choose who sits.")


def _fit(trial: Trial, day: date, asks: str, seats: Places) -> None:
    candles = [what for what, _ in seats if isinstance(what, TestCandle)]
    if len(candles) != (0 if asks == Asks.BLOTTER else len(seats)):
        raise UnclearError(
            "Candles and blotters are mixed up.",
            "A panel from the blotter has oils; all others have candles.",
            "Open one panel for each.",
        )
    for candle in candles:
        _of_this_trial(candle, trial, day)


def _of_this_trial(candle: TestCandle, trial: Trial, day: date) -> None:
    if candle.combination.candidate.trial_id != trial.pk:
        raise UnclearError(
            f"{candle} is of another trial.", "A panel is of one trial.", "Check the code."
        )
    if candle.poured_on is not None and candle.poured_on > day:
        raise UnclearError(
            f"{candle} was poured on {candle.poured_on.day} {candle.poured_on:%B %Y}.",
            "A candle is sniffed after that.",
            "Check the day.",
        )
