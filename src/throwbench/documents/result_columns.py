"""The columns in which a verdict is told oil by oil: the one list for every face of it.

A face is the table for a spreadsheet, the report on paper, the answer of the command, and the page.
A new column stands in the list once, with the faces that show it; `EVERYWHERE` are all of them.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Literal

from throwbench.documents.rows import limit_words
from throwbench.documents.words import (
    attribute_words,
    attributes,
    charted,
    compared,
    figure,
    of_100,
    pick_words,
    shown_scores,
)
from throwbench.records.attribute import LIT
from throwbench.verdict.places import WORDS
from throwbench.verdict.result import AttributeResult, CandidateVerdict, Interval, Verdict
from throwbench.verdict.words import in_100, number

Face = Literal["table", "report", "command", "page"]
EVERYWHERE: tuple[Face, ...] = ("table", "report", "command", "page")
Cell = str | int | float | None


@dataclass(frozen=True, slots=True)
class ResultColumn:
    """One thing that is told of each oil.

    name : in the table; the page has a cell of its own for some names, and a plain one for others.
    of : the cell of an oil, None where there is no such value. head : above it on paper and page;
    in the command it begins the line. meaning : for who reads the table.
    """

    name: str
    of: Callable[[CandidateVerdict], Cell]
    on: tuple[Face, ...] = EVERYWHERE
    head: str = ""
    meaning: str = ""


def columns_on(face: Face, verdict: Verdict) -> tuple[ResultColumn, ...]:
    """The columns that a face shows of a verdict, in their order."""
    return tuple(column for column in result_columns(verdict) if face in column.on)


def shown(cell: Cell) -> str:
    """A cell as people read it: a figure to a tenth, "none" where there is no value."""
    if cell is None:
        return "none"
    return figure(cell) if isinstance(cell, float) else str(cell)


def result_columns(verdict: Verdict) -> tuple[ResultColumn, ...]:
    """All of them. What a verdict asks decides some heads, and which attributes have columns."""
    in_pick = pick_words(verdict)
    chances = compared(verdict)

    def belongs(one: CandidateVerdict) -> str | None:
        chance = one.chance_to_belong if chances else None
        return None if chance is None else of_100(chance)

    def best(one: CandidateVerdict) -> str | None:
        chance = one.chance_best if chances else None
        return None if chance is None else of_100(chance)

    def belongs_in_words(one: CandidateVerdict) -> str | None:
        place = f"in the {number(verdict.choose)}" if verdict.choose > 1 else "the best"
        chance = one.chance_to_belong if chances else None
        return None if chance is None else f"{place}: {in_100(chance)}"

    return (
        ResultColumn("oil", lambda one: one.candidate, ("table", "report"), "Oil", _AS_IN_FILES),
        ResultColumn("supplier", lambda one: one.supplier, ("table",), "", _AS_IN_FILES),
        ResultColumn("theme", lambda one: one.group, ("table",), "", _AS_IN_FILES),
        ResultColumn("place", lambda one: one.place, ("table",), "", ", ".join(WORDS)),
        ResultColumn("place", lambda one: WORDS[one.place].short, ("report",), "Place"),
        ResultColumn(
            "chance", belongs, ("page",), f"Chance to belong in {in_pick}" if chances else "Chance"
        ),
        ResultColumn(
            "limits", _limits, ("table", "page"), "Limits", "state and evidence of each combination"
        ),
        ResultColumn(
            "burns_well",
            lambda one: "; ".join(one.burns_well),
            ("table", "page"),
            "Burns well",
            "how the wick does, in words",
        ),
        *(column for attribute in attributes(verdict) for column in scored(attribute)),
        *_charted(verdict),
        ResultColumn("worth_steps", lambda one: one.worth, ("table",), "", "expected worth"),
        ResultColumn("chance_to_belong_of_100", belongs, ("table",), "", _OF_100),
        ResultColumn("chance_to_belong", belongs_in_words, ("command",)),
        *(
            [ResultColumn("chance_to_belong", belongs, ("report",), f"In {in_pick}, of 100")]
            if chances
            else []
        ),
        ResultColumn("chance_best_of_100", best, ("table",), "", _OF_100),
        ResultColumn("scores", lambda one: _counted(one, charted(verdict)), ("report",), "Scores"),
        ResultColumn(
            "swap_costs_steps",
            lambda one: one.swap_cost,
            ("table",),
            "",
            "what the pick loses if this oil is swapped across its edge",
        ),
        ResultColumn("opinions", lambda one: one.split, ("table",), "", "where noses split"),
        ResultColumn(
            "opinions", lambda one: one.split and f"opinions split: {one.split}", ("command",)
        ),
        ResultColumn(
            "reasons", lambda one: " ".join(one.reasons), ("table",), "", "what stands out"
        ),
        ResultColumn("note", lambda _: verdict.caution, ("table",), "", "the caution"),
    )


_AS_IN_FILES = "as in the files"
_OF_100 = 'a count of 100; its ends are "over 99" and "under 1"; empty where nothing is compared'


def scored(attribute: str) -> tuple[ResultColumn, ...]:
    """What the table says of one attribute."""

    def column(name: str, of: Callable[[AttributeResult], Cell], meaning: str) -> ResultColumn:
        return ResultColumn(f"{attribute}_{name}", _of(attribute, of), ("table",), "", meaning)

    def raw(place: int) -> Callable[[CandidateVerdict], str]:
        return lambda one: " ".join(map(str, shown_scores(one, attribute)[place]))

    return (
        column("expected", lambda its: its.expected, "mean of the expected score"),
        column("middle", lambda its: its.middle, "median of the expected score"),
        column(
            "8_in_10_low", lambda its: its.eight_in_ten.low, "the box of the chart: its lower end"
        ),
        column("8_in_10_high", lambda its: its.eight_in_ten.high, "and its upper end"),
        column(
            "19_in_20_low",
            lambda its: its.nineteen_in_twenty.low,
            "the line of the chart: its lower end",
        ),
        column("19_in_20_high", lambda its: its.nineteen_in_twenty.high, "and its upper end"),
        column("in_band_of_100", _in_band, "chance that the expected hot throw is right"),
        ResultColumn(f"{attribute}_scores", raw(0), ("table",), "", "the raw scores that count"),
        ResultColumn(
            f"{attribute}_not_counted", raw(1), ("table",), "", "those that are only shown"
        ),
    )


def _charted(verdict: Verdict) -> Iterator[ResultColumn]:
    """The chart's figures on paper, with those of a second attribute beside them."""
    first = charted(verdict)
    yield from _interval(first, missing="not ranked")
    outer = _of(first, lambda its: _span(its.nineteen_in_twenty))
    yield ResultColumn(f"{first}_19_in_20", outer, ("report",), "19 in 20")
    others = (name for name in LIT if name in attributes(verdict) and name != first)
    for second in islice(others, 1):
        yield from _interval(second)


def _interval(attribute: str, *, missing: Cell = None) -> Iterator[ResultColumn]:
    head = attribute_words(attribute).capitalize()
    expected = _of(attribute, lambda its: its.expected, missing=missing)
    box = _of(attribute, lambda its: _span(its.eight_in_ten))
    yield ResultColumn(attribute, expected, ("report",), head)
    yield ResultColumn(f"{attribute}_8_in_10", box, ("report",), "8 in 10")


def _of(
    attribute: str, of: Callable[[AttributeResult], Cell], *, missing: Cell = None
) -> Callable[[CandidateVerdict], Cell]:
    def cell(one: CandidateVerdict) -> Cell:
        result = one.of(attribute)
        return missing if result is None else of(result)

    return cell


def _limits(one: CandidateVerdict) -> str:
    told = [limit_words(limits, several=True) for limits in one.limits]
    return "; ".join(f"{said.words}: {said.evidence}" for said in told)


def _in_band(result: AttributeResult) -> str | None:
    return None if result.chance_in_band is None else of_100(result.chance_in_band)


def _counted(one: CandidateVerdict, attribute: str) -> int:
    result = one.of(attribute)
    return 0 if result is None else len(result.counted)


def _span(interval: Interval) -> str:
    return f"{figure(interval.low)}–{figure(interval.high)}"
