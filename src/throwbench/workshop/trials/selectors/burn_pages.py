"""Burns as pages show them: a candle's log, one burn, and how far each candle of a trial is."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, Literal

from django.core.paginator import Page, Paginator
from django.db.models import Count

from throwbench import records
from throwbench.records import Column, columns
from throwbench.rules.judge import judge_candle
from throwbench.rules.limit import limits_on
from throwbench.rules.result import CandleLimits
from throwbench.rules.turn import by_candle
from throwbench.science.words import plain
from throwbench.workshop.house.models import Correction
from throwbench.workshop.house.selectors import counted, house_limits
from throwbench.workshop.trials.models import Burn, BurnKind, Check, TestCandle, Trial
from throwbench.workshop.trials.selectors.burns import as_records, slip_words, slips_of
from throwbench.workshop.trials.selectors.made_of import combination_of, shown_of
from throwbench.workshop.trials.sights import told_of

A_PAGE = 25
Known = Literal["measured", "seen", "not seen"]
SPACE = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True)
class Cell:
    """One thing that could be looked at, and how it is known."""

    name: str
    words: str
    known: Known
    is_rest: bool = False
    """It says what all that was left blank says: no change, or not seen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLog:
    check: Check
    cells: tuple[Cell, ...]

    @property
    def rest(self) -> str:
        """What all that was left blank says; empty where nothing was."""
        return next((cell.words for cell in self.cells if cell.is_rest), "")


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnLog:
    """One burn: how it went, each look at it, how it ended, and what was put right."""

    burn: Burn
    checks: tuple[CheckLog, ...]
    ends: tuple[Cell, ...]
    slips: tuple[tuple[str, Correction], ...]


def logs_of(candle: TestCandle) -> tuple[BurnLog, ...]:
    """Every burn of a candle, the last one first."""
    return _logs(Burn.objects.filter(candle=candle).order_by("-number"))


def log_of(burn: Burn) -> BurnLog:
    return _logs(Burn.objects.filter(pk=burn.pk))[0]


def _logs(found: Any) -> tuple[BurnLog, ...]:
    rows = list(found.select_related("candle", "room").prefetch_related("checks__who"))
    slips = slips_of(rows)
    return tuple(
        BurnLog(
            burn=burn,
            checks=tuple(
                CheckLog(check=check, cells=tuple(cells_of(check))) for check in burn.checks.all()
            ),
            ends=tuple(_ends(burn)),
            slips=tuple((slip_words(slip), slip) for slip in slips.get(burn.pk, ())),
        )
        for burn in rows
    )


def cells_of(check: Check) -> Iterator[Cell]:
    """What a check tells; where nothing is said, "no change" says that it was looked at."""
    blank = Cell("", "no change", "seen") if check.no_change else Cell("", "not seen", "not seen")
    yield from _cells(check, records.Check, blank, order=_by_kind)


def _ends(burn: Burn) -> Iterator[Cell]:
    if burn.out_at is None:
        return
    blank = Cell("", "not seen", "not seen")
    yield Cell("how it ended", burn.get_put_out_display() or "not seen", "seen")
    yield from _cells(burn, records.Burn, blank, order=_figures_last)


def _cells(
    row: Check | Burn, record: type, blank: Cell, *, order: Callable[[Column], int]
) -> Iterator[Cell]:
    """What a person told, as the record lists it."""
    told = told_of(row, record)
    for column in sorted(columns(record), key=order):
        if column.short:
            value = told[column.name]
            words = blank.words if value is None else _words(column, value)
            known = blank.known if value is None else "measured" if column.unit else "seen"
            yield Cell(column.short, words, known, is_rest=value is None)


def _by_kind(column: Column) -> int:
    """Yes or no, then figures, then words."""
    return 2 if column.words else 1 if column.unit else 0


def _figures_last(column: Column) -> int:
    return 1 if column.unit else 0


def _words(column: Column, value: Any) -> str:
    if column.unit:
        return f"{plain(value)}{SPACE}{column.unit}"
    if column.name == "vessel_damage" and value == "none":
        return "whole"
    word = {True: "yes", False: "no"}.get(value, value)
    return column.said.get(word, word)


@dataclass(frozen=True, slots=True, kw_only=True)
class CandleRow:
    """How far one candle is burned, and what its limits still wait for."""

    candle: TestCandle
    kinds: str
    hours: timedelta
    lit: Burn | None
    limits: CandleLimits

    @property
    def burns(self) -> int:
        return self.limits.burns

    @property
    def next_words(self) -> str:
        """What would settle it; empty where nothing is missing."""
        if self.candle.ended_at is not None:
            return f"Ended: {self.candle.ended_because}."
        if self.limits.broken:
            return "It broke a limit: the verdict says what that bars."
        return self.limits.missing or ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnsPage:
    sentence: str
    rows: tuple[CandleRow, ...]
    page: Page[TestCandle]
    lit: tuple[Burn, ...]


def burns_page(trial: Trial, *, day: date, number: str = "") -> BurnsPage:
    """One page of a trial's candles with their burns, judged on a day."""
    page = Paginator(shown_of(trial), A_PAGE).get_page(number or 1)
    candles = list(page.object_list)
    of_trial = Burn.objects.filter(candle__combination__candidate__trial=trial)
    lit = tuple(of_trial.filter(out_at=None).select_related("candle").order_by("out_by_at"))
    totals = of_trial.aggregate(burns=Count("pk"), burned=Count("candle", distinct=True))
    return BurnsPage(
        sentence=_sentence(page.paginator.count, totals["burns"], totals["burned"], len(lit)),
        rows=tuple(_rows(candles, lit, day)),
        page=page,
        lit=lit,
    )


def _sentence(candles: int, burns: int, burned: int, lit: int) -> str:
    if not candles:
        return "There is no test candle to burn yet."
    if not burns:
        return f"{counted(candles, 'test candle', 'test candles').capitalize()}, none lit so far."
    said = (
        f"{counted(burned, 'candle', 'candles').capitalize()} of {candles} burned so far, "
        f"in {counted(burns, 'burn', 'burns')}"
    )
    return f"{said}; {counted(lit, 'one is', 'are')} lit now." if lit > 1 else _one_lit(said, lit)


def _one_lit(said: str, lit: int) -> str:
    return f"{said}; one is lit now." if lit else f"{said}."


def _rows(candles: Sequence[TestCandle], lit: Iterable[Burn], day: date) -> Iterator[CandleRow]:
    found = as_records(Burn.objects.filter(candle__in=candles))
    logs = by_candle(found)
    limits = limits_on(day, house=house_limits())
    lit_by = {burn.candle_id: burn for burn in lit}
    for candle in candles:
        burns = logs.get(candle.code, [])
        made_of = combination_of(candle)
        yield CandleRow(
            candle=candle,
            kinds=_kinds([burn.kind for burn in burns]),
            hours=sum((burn.out_at - burn.lit_at for burn in burns), timedelta()),
            lit=lit_by.get(candle.pk),
            limits=judge_candle(candle.code, burns, combination=made_of, limits=limits),
        )


def _kinds(kinds: Sequence[str | None]) -> str:
    """'6 wick, 2 nose'."""
    short = {BurnKind.WICK: "wick", BurnKind.NOSE: "nose", BurnKind.LONG: "long"}
    counts = [(kinds.count(kind), word) for kind, word in short.items()]
    return ", ".join(f"{count} {word}" for count, word in counts if count)
