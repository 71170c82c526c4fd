"""Planning a trial: the question, its candidates, what each is made of, and the seal."""

from datetime import date, datetime
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import ProtectedError

from throwbench.science.errors import UnclearError
from throwbench.science.load import below_card
from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Fixing, Oil, Vessel, Wax, Wick
from throwbench.workshop.trials.models import Band, Candidate, Combination, SealBreak, Trial
from throwbench.workshop.trials.services.candles import make_candle, swap_tags
from throwbench.workshop.trials.times import pour_first

__all__ = [
    "add_candidate",
    "add_combination",
    "break_seal",
    "change_plan",
    "combination_for",
    "fix_plan",
    "make_candle",
    "plan_trial",
    "set_band",
    "swap_tags",
    "take_out",
]


@transaction.atomic
def plan_trial(
    *,
    name: str,
    question: str = "",
    choose: int = 1,
    load_percent: float | None = None,
    fill_mg: int | None = None,
    residue_mg: int | None = None,
    pot_residue_mg: int | None = None,
    wax: Wax | None = None,
    vessel: Vessel | None = None,
    pour_on: date | None = None,
    decide_on: date | None = None,
    sealed: bool = False,
    scale_low: int = 1,
    scale_high: int = 5,
    who: Person,
    now: datetime,
) -> Trial:
    """A new trial. `load_percent` is of wax.

    Raises
    ------
    OutOfRangeError
        The load is above the wax card's maximum.
    UnclearError
        The decision is before the pour.
    """
    trial = Trial(
        name=name.strip(),
        question=question.strip(),
        choose=choose,
        load_percent=load_percent,
        fill_mg=fill_mg,
        residue_mg=residue_mg,
        pot_residue_mg=pot_residue_mg,
        wax=wax,
        vessel=vessel,
        pour_on=pour_on,
        decide_on=decide_on,
        sealed=sealed,
        scale_low=scale_low,
        scale_high=scale_high,
        made_at=now,
        made_by=who,
    )
    return _kept(trial)


@transaction.atomic
def change_plan(trial: Trial, *, who: Person, now: datetime, **fields: Any) -> Trial:
    """Another question, number, load, fill, wax, vessel or day; what is poured stays as it is.

    Raises
    ------
    UnclearError
        A seal is not taken off in passing, or the decision is before the pour.
    """
    if trial.is_sealed and fields.get("sealed") is False:
        raise UnclearError(
            f"{trial} is sealed.",
            "A seal opens when the last panel is closed, or with a reason.",
            "Leave it sealed, or open the seal on its own page.",
        )
    for field, value in fields.items():
        setattr(trial, field, value)
    return _kept(trial)


@transaction.atomic
def set_band(
    trial: Trial, *, low: float, high: float, room_kind: str = "", who: Person, now: datetime
) -> Band:
    """What hot throw is right: in one kind of room, or without a kind in all rooms."""
    if low < trial.scale_low or high > trial.scale_high:
        raise ValidationError(
            f"The band is {low:g} to {high:g}; the scale of this trial goes from "
            f"{trial.scale_low} to {trial.scale_high}. Stay inside the scale."
        )
    band = trial.bands.filter(room_kind=room_kind).first() or Band(trial=trial)
    band.room_kind, band.low, band.high = room_kind, low, high
    band.full_clean()
    band.save()
    return band


@transaction.atomic
def add_candidate(
    trial: Trial,
    *,
    oil: Oil,
    role: str = "candidate",
    group: str = "",
    who: Person,
    now: datetime,
) -> Candidate:
    """An oil to compare, or the reference candle; of one `group` at most one joins."""
    candidate = Candidate(
        trial=trial, oil=oil, role=role, group=group.strip(), position=trial.candidates.count() + 1
    )
    candidate.full_clean()
    candidate.save()
    return candidate


@transaction.atomic
def take_out(candidate: Candidate, *, who: Person, now: datetime) -> None:
    """A candidate that was planned and not made yet leaves the plan.

    Raises
    ------
    UnclearError
        It has test candles or a pitcher, or something rests on it: what happened stays.
    """
    has_candles = candidate.combinations.filter(candles__isnull=False).exists()
    if has_candles or candidate.pours.exists():
        raise UnclearError(
            f"{candidate} has test candles.",
            "Only an oil without test candles leaves a plan.",
            "Leave it in; you can drop it at the verdict.",
        )
    try:
        candidate.combinations.all().delete()
        candidate.delete()
    except ProtectedError as error:
        raise UnclearError(
            f"Something was decided of {candidate}.",
            "Only an oil of which nothing is noted leaves a plan.",
            "Leave it in; you can drop it at the verdict.",
        ) from error


@transaction.atomic
def add_combination(
    candidate: Candidate,
    *,
    wax: Wax,
    load_percent: float,
    wick: Wick,
    vessel: Vessel,
    fixing: Fixing | None = None,
    fill_mg: int | None = None,
    fill_mm: float | None = None,
    who: Person,
    now: datetime,
) -> Combination:
    """What a test candle of this oil is made of. `load_percent` is of wax.

    Raises
    ------
    OutOfRangeError
        The load is above the wax card's maximum.
    """
    _below_card(load_percent, wax)
    made = Combination(
        candidate=candidate,
        wax=wax,
        load_percent=load_percent,
        wick=wick,
        vessel=vessel,
        fixing=fixing,
        fill_mg=fill_mg,
        fill_mm=fill_mm,
    )
    made.full_clean()
    made.save()
    return made


@transaction.atomic
def combination_for(
    candidate: Candidate,
    *,
    wax: Wax,
    load_percent: float,
    wick: Wick,
    vessel: Vessel,
    fixing: Fixing | None = None,
    fill_mg: int | None = None,
    fill_mm: float | None = None,
    who: Person,
    now: datetime,
) -> Combination:
    """The combination as planned before, or a new one."""
    there = candidate.combinations.filter(
        wax=wax, load_percent=load_percent, wick=wick, vessel=vessel, fixing=fixing
    ).first()
    return there or add_combination(
        candidate,
        wax=wax,
        load_percent=load_percent,
        wick=wick,
        vessel=vessel,
        fixing=fixing,
        fill_mg=fill_mg,
        fill_mm=fill_mm,
        who=who,
        now=now,
    )


@transaction.atomic
def fix_plan(trial: Trial, *, who: Person, now: datetime) -> Trial:
    """From here on the plan has test candles: one of each combination that has none yet.

    Raises
    ------
    UnclearError
        No candidate has a wick yet.
    """
    planned = Combination.objects.filter(candidate__trial=trial).order_by(
        "candidate__position", "pk"
    )
    if not planned:
        raise UnclearError(
            "No candidate has a wick yet.",
            "A test candle is an oil, a load, a wax, a wick and a vessel.",
            "Choose a wick for at least one oil.",
        )
    for combination in planned.filter(candles__isnull=True):
        make_candle(combination, who=who, now=now)
    trial.fixed_at = trial.fixed_at or now
    trial.save(update_fields=["fixed_at"])
    return trial


@transaction.atomic
def break_seal(trial: Trial, *, why: str, who: Person, now: datetime) -> SealBreak:
    """Open a sealed trial before its sittings are closed; who and why stays visible.

    Raises
    ------
    UnclearError
        The trial is not sealed, or there is no reason.
    """
    if not trial.is_sealed:
        raise UnclearError(
            f"{trial} is not sealed.", "Only a sealed trial is opened.", "Its names show already."
        )
    if not why.strip():
        raise UnclearError(
            "There is no reason.", "A seal is opened with one.", "Say why in a few words."
        )
    trial.unsealed_at = now
    trial.save(update_fields=["unsealed_at"])
    return SealBreak.objects.create(trial=trial, who=who, at=now, why=why.strip())


def _kept(trial: Trial) -> Trial:
    if trial.load_percent is not None and trial.wax is not None:
        _below_card(trial.load_percent, trial.wax)
    pour_first(trial.pour_on, trial.decide_on)
    trial.full_clean()
    trial.save()
    return trial


def _below_card(load_percent: float, wax: Wax) -> None:
    if wax.max_load_percent is not None:
        below_card(load_percent=load_percent, card_maximum_percent=wax.max_load_percent)
