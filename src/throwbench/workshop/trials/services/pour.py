"""One pitcher: wax and oil weighed, temperatures read, candles poured."""

from collections.abc import Sequence
from datetime import date, datetime
from uuid import UUID

from django.db import transaction

from throwbench.documents.words import day_words
from throwbench.science.errors import UnclearError
from throwbench.science.load import below_card, load_on_both_bases
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Lot, Wax
from throwbench.workshop.trials.models import (
    Candidate,
    Pour,
    Temperature,
    TestCandle,
    Weighing,
)
from throwbench.workshop.trials.pitcher import (
    ask_about_dose,
    ask_about_pouring,
    ask_about_wax,
)
from throwbench.workshop.trials.services.candles import may_be_lit
from throwbench.workshop.trials.services.weighed import as_weighed
from throwbench.workshop.trials.times import local_day
from throwbench.workshop.trials.windows import ask_about


@transaction.atomic
def begin_pour(
    candidate: Candidate,
    *,
    wax: Wax,
    load_percent: float,
    basis: str = "wax",
    wax_mg: int | None = None,
    wax_lot: Lot | None = None,
    oil_lot: Lot | None = None,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Pour:
    """A pitcher for one oil. `wax_mg` is what is planned; `basis` says what the load is of.

    Raises
    ------
    OutOfRangeError
        The load is above the wax card's maximum.
    """
    content = {
        "candidate": candidate.pk, "load": load_percent, "basis": basis, "wax_mg": wax_mg,
        "wax": wax.pk, "wax_lot": wax_lot and wax_lot.pk, "oil_lot": oil_lot and oil_lot.pk,
    }  # fmt: skip
    if seen_before(entry, what="begin a pitcher", content=content, who=who, now=now):
        return candidate.pours.order_by("-pk")[0]
    load = load_on_both_bases(percent=load_percent, basis=basis)  # type: ignore[arg-type]
    if wax.max_load_percent is not None:
        below_card(load_percent=load.of_wax_percent, card_maximum_percent=wax.max_load_percent)
    pour = Pour(
        candidate=candidate,
        wax=wax,
        wax_lot=wax_lot,
        oil_lot=oil_lot,
        load_percent=load_percent,
        basis=basis,
        wax_mg=wax_mg,
        begun_at=now,
        begun_by=who,
    )
    pour.full_clean()
    pour.save()
    return pour


@transaction.atomic
def weigh(
    pour: Pour,
    *,
    what: str,
    mg: int,
    scale_step_mg: int | None = None,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Weighing:
    """What the scale showed. A later, lower weighing of the wax took some back.

    Raises
    ------
    AskedError
        Unlikely, and the maker is not `sure` yet.
    """
    content = {"pour": pour.pk, "what": what, "mg": mg, "scale_step_mg": scale_step_mg}
    if seen_before(entry, what="weigh", content=content, who=who, now=now):
        return pour.weighings.filter(what=what).order_by("-pk")[0]
    _still_open(pour)
    if not sure:
        (ask_about_wax if what == "wax" else ask_about_dose)(pour, mg)
    weighing = Weighing(pour=pour, what=what, mg=mg, scale_step_mg=scale_step_mg, who=who, at=now)
    weighing.full_clean()
    weighing.save()
    return weighing


@transaction.atomic
def read_temperature(
    pour: Pour,
    *,
    step: str,
    celsius: float,
    instrument: str = "",
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Temperature:
    """One reading, with the instrument that gave it.

    Raises
    ------
    AskedError
        Outside the wax card's window, and the maker is not `sure` yet.
    """
    content = {"pour": pour.pk, "step": step, "celsius": celsius, "instrument": instrument}
    if seen_before(entry, what="read a temperature", content=content, who=who, now=now):
        return pour.temperatures.filter(step=step).order_by("-pk")[0]
    if not sure:
        ask_about(celsius, step=step, wax=pour.wax)
    reading = Temperature(
        pour=pour, step=step, celsius=celsius, instrument=instrument.strip(), who=who, at=now
    )
    reading.full_clean()
    reading.save()
    return reading


@transaction.atomic
def pour_candles(
    pour: Pour,
    *,
    candles: Sequence[TestCandle],
    stirred_s: int | None = None,
    note: str = "",
    poured_on: date | None = None,
    sure: bool = False,
    who: Person,
    now: datetime,
    entry: UUID | None = None,
) -> Pour:
    """These candles were poured from this pitcher, now or on the earlier day `poured_on`.

    A candle whose load as weighed departs from the plan gets a combination of its own.

    Raises
    ------
    UnclearError
        A day to come, no candle, one that is poured already or is of another oil, or a vessel
        that is never lit.
    AskedError
        More oil is in it than the wax takes, and the maker is not `sure` yet.
    """
    told = {"stirred_s": stirred_s, "note": note, "poured_on": poured_on}
    content = {"pour": pour.pk, "candles": [candle.pk for candle in candles], **told}
    if seen_before(entry, what="pour candles", content=content, who=who, now=now):
        return pour
    _can_be_poured(pour, candles)
    day = _not_to_come(poured_on or local_day(now), today=local_day(now))
    if not sure:
        ask_about_pouring(pour)
    pour.stirred_s, pour.note = stirred_s, note.strip()
    pour.poured_at, pour.poured_by = now, who
    pour.full_clean()
    pour.save()
    for candle in candles:
        candle.pour, candle.poured_on = pour, day
        candle.combination = as_weighed(candle.combination, pour)
        candle.save(update_fields=["pour", "poured_on", "combination"])
    return pour


def _still_open(pour: Pour) -> None:
    if pour.poured_at is not None:
        raise UnclearError(
            f"The {pour} was poured already.",
            "Nothing is weighed into an empty pitcher.",
            "A slip of the pen is put right on the candle’s page.",
        )


def _can_be_poured(pour: Pour, candles: Sequence[TestCandle]) -> None:
    if pour.poured_at is not None:
        raise UnclearError(
            f"The {pour} was poured already.", "A pitcher is poured once.", "Begin another pitcher."
        )
    if not candles:
        raise UnclearError(
            "No candle is chosen.", "A pour fills at least one.", "Tick the candles you poured."
        )
    for candle in candles:
        _belongs(candle, pour)


def _not_to_come(day: date, *, today: date) -> date:
    if day > today:
        raise UnclearError(
            f"The pour is dated {day_words(day)}; today is {day_words(today)}.",
            "A pour is of today or of an earlier day.",
            "Check the day.",
        )
    return day


def _belongs(candle: TestCandle, pour: Pour) -> None:
    if candle.pour_id is not None:
        raise UnclearError(
            f"{candle} was poured already.", "A candle is poured once.", "Check its code."
        )
    if candle.combination.candidate_id != pour.candidate_id:
        raise UnclearError(
            f"{candle} is planned with another oil.",
            "A pitcher fills the candles of its own oil.",
            "Check its code.",
        )
    if candle.piece is not None:
        may_be_lit(candle.piece, candle.combination)
