"""The table: one row per oil, for a spreadsheet."""

import csv
import io

from throwbench.documents.rows import limit_words
from throwbench.documents.words import attributes, compared, of_100, shown_scores
from throwbench.formats.formula import guarded
from throwbench.verdict.result import CandidateVerdict, Verdict

_SCORED = (
    "expected",
    "middle",
    "8_in_10_low",
    "8_in_10_high",
    "19_in_20_low",
    "19_in_20_high",
    "in_band_of_100",
    "scores",
    "not_counted",
)


def table(verdict: Verdict) -> str:
    """Return the verdict as CSV text: a head and one row per oil, each with the caution.

    Notes
    -----
    A text that a spreadsheet would take for a formula gets a leading apostrophe. An empty cell
    means that there is no such value: an oil that is not ranked, or alone, has no chances.
    """
    scored = attributes(verdict)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(_head(scored))
    chances = compared(verdict)
    for one in verdict.candidates:
        writer.writerow([*_row(one, scored, chances=chances), verdict.caution])
    return out.getvalue()


def _head(scored: tuple[str, ...]) -> list[str]:
    return [
        "oil",
        "supplier",
        "theme",
        "place",
        "limits",
        "burns_well",
        *(f"{attribute}_{name}" for attribute in scored for name in _SCORED),
        "worth_steps",
        "chance_to_belong_of_100",
        "chance_best_of_100",
        "swap_costs_steps",
        "opinions",
        "reasons",
        "note",
    ]


def _row(one: CandidateVerdict, scored: tuple[str, ...], *, chances: bool) -> list[str]:
    return [
        guarded(one.candidate),
        guarded(one.supplier or ""),
        guarded(one.group or ""),
        one.place,
        guarded(_limits(one)),
        guarded("; ".join(one.burns_well)),
        *(cell for attribute in scored for cell in _scored(one, attribute)),
        _number(one.worth),
        _chance(one.chance_to_belong if chances else None),
        _chance(one.chance_best if chances else None),
        _number(one.swap_cost),
        guarded(one.split or ""),
        guarded(" ".join(one.reasons)),
    ]


def _limits(one: CandidateVerdict) -> str:
    told = [limit_words(limits, several=True) for limits in one.limits]
    return "; ".join(f"{said.words}: {said.evidence}" for said in told)


def _scored(one: CandidateVerdict, attribute: str) -> list[str]:
    scores = [" ".join(map(str, part)) for part in shown_scores(one, attribute)]
    result = one.of(attribute)
    if result is None:
        return [*[""] * (len(_SCORED) - 2), *scores]
    box, outer = result.eight_in_ten, result.nineteen_in_twenty
    values = (result.expected, result.middle, box.low, box.high, outer.low, outer.high)
    return [*map(_number, values), _chance(result.chance_in_band), *scores]


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:.3f}"


def _chance(value: float | None) -> str:
    return "" if value is None else of_100(value)
