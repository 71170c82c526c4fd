"""One test candle: what it is made of unless sealed, its pour, its cure, and its history."""

from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Q

from throwbench import records
from throwbench.documents.words import day_words
from throwbench.workshop.house.corrections import corrections_of, said_of
from throwbench.workshop.house.models import Correction
from throwbench.workshop.trials.models import Pour, Swap, TestCandle, Weighing
from throwbench.workshop.trials.selectors.broken import (
    judged,
    put_out_words,
    to_be_put_out,
    why_not_again,
)
from throwbench.workshop.trials.selectors.cure_page import READY, Cure, cure_of
from throwbench.workshop.trials.selectors.made_of import combination_of
from throwbench.workshop.trials.selectors.readings import ReadingRow, readings_of
from throwbench.workshop.trials.times import local_day


@dataclass(frozen=True, slots=True, kw_only=True)
class Happened:
    """One line of the history."""

    at: datetime
    what: str
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighingRow:
    """One weighing; `wrong` is the correction that came after it."""

    weighing: Weighing
    wrong: Correction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CandlePage:
    candle: TestCandle
    is_sealed: bool
    made_of: records.Combination | None
    said: str
    weighings: tuple[WeighingRow, ...]
    temperatures: tuple[ReadingRow, ...]
    cure: Cure | None
    put_out: str
    """What a lit candle is put out for at once; empty where it burns well."""
    history: tuple[Happened, ...]

    @property
    def step(self) -> str:
        """Where on the road of its trial it is."""
        if self.cure is None:
            return "pour"
        return "burns" if self.cure.state == READY else "cure"


def candle_page(candle: TestCandle, today: date) -> CandlePage:
    """The page of a candle; of a sealed trial it names no oil, supplier or load."""
    is_sealed = candle.combination.candidate.trial.is_sealed
    pour = candle.pour
    weighings = list(pour.weighings.select_related("who")) if pour else []
    slips = corrections_of(weighings)
    readings = readings_of(pour) if pour else ()
    misread = [row.wrong for row in readings if row.wrong is not None]
    cure = cure_of(candle, today)
    return CandlePage(
        candle=candle,
        is_sealed=is_sealed,
        made_of=None if is_sealed else combination_of(candle),
        said=_spent(candle, today) or _said(candle, cure, is_sealed=is_sealed),
        weighings=tuple(_row(each, slips) for each in weighings),
        temperatures=readings,
        cure=cure,
        put_out=_put_out(candle, today),
        history=tuple(
            _history(candle, pour, [] if is_sealed else slips + misread, is_sealed=is_sealed)
        ),
    )


def _spent(candle: TestCandle, today: date) -> str:
    """That a candle is not lit again by the limits; one that was ended says its own reason."""
    if candle.ended_at is not None:
        return ""
    found = judged([candle], today).get(candle.code)
    again = " Do not light it again." if found and found.broken else ""
    why = why_not_again(found)
    return f"{candle} {why}.{again}" if why else ""


def _put_out(candle: TestCandle, today: date) -> str:
    over = to_be_put_out(candle.burns.filter(out_at=None), today)
    return "".join(put_out_words(candle.code, words) for words in over.values())


def _said(candle: TestCandle, cure: Cure | None, *, is_sealed: bool) -> str:
    what = "a sealed candle" if is_sealed else candle.combination.candidate.oil.name
    if candle.ended_at is not None:
        return f"{candle} was {what}: {candle.ended_because or 'it is no longer lit'}."
    if cure is None:
        return f"{candle} is {what}, not poured yet."
    if cure.days is None:
        return f"{candle} is {what}, on day {cure.day}; how long it cures is not known."
    if cure.state == "ready":
        return f"{candle} is {what}, cured {cure.days} days and ready."
    return f"{candle} is {what}, on day {cure.day} of {cure.days}."


def _row(each: Weighing, slips: list[Correction]) -> WeighingRow:
    wrong = next((slip for slip in slips if slip.row == each.pk), None)
    return WeighingRow(weighing=each, wrong=wrong)


def _history(
    candle: TestCandle, pour: Pour | None, slips: list[Correction], *, is_sealed: bool
) -> list[Happened]:
    """In the order of time; of a sealed trial without what could tell the oil."""
    told = [Happened(at=candle.made_at, what="Planned, and given its code.")]
    if pour is not None:
        told.append(Happened(at=pour.begun_at, what=f"Pitcher begun by {pour.begun_by}."))
    if pour is not None and pour.poured_at is not None:
        note = "" if is_sealed else pour.note
        told.append(Happened(at=pour.poured_at, what=_poured(candle, pour), why=note))
    told += [_slip(slip) for slip in slips]
    told += [_swap(candle, swap) for swap in swaps_of(candle)]
    told += [_correction(slip) for slip in corrections_of([candle])]
    return sorted(told, key=lambda one: one.at)


def _poured(candle: TestCandle, pour: Pour) -> str:
    """An earlier day than the one it was noted on is said."""
    day = candle.poured_on
    if pour.poured_at is None or day is None or day == local_day(pour.poured_at):
        return f"Poured by {pour.poured_by}."
    return f"Poured on {day_words(day)}; noted by {pour.poured_by}."


def swaps_of(candle: TestCandle) -> list[Swap]:
    """Every time its tag was swapped with another one."""
    found = Swap.objects.filter(Q(first=candle) | Q(second=candle))
    return list(found.select_related("first", "second", "who").order_by("at"))


def _swap(candle: TestCandle, swap: Swap) -> Happened:
    other = swap.second if swap.first_id == candle.pk else swap.first
    return Happened(
        at=swap.at, what=f"Tags of {candle} and {other} were swapped; put right by {swap.who}.",
        why=swap.why,
    )  # fmt: skip


def _slip(slip: Correction) -> Happened:
    what = "reading" if slip.field == "celsius" else "weighing"
    said = said_of(slip)
    return Happened(
        at=slip.at,
        what=f"A {what} first typed as {said.was} was {said.became}; put right by {slip.who}.",
        why=slip.why,
    )


def _correction(slip: Correction) -> Happened:
    said = said_of(slip)
    what = f"{said.name}: {said.was} became {said.became}, by {slip.who}."
    return Happened(at=slip.at, what=what, why=slip.why)
