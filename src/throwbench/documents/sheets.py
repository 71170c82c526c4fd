"""The words and tables of the report's sheets."""

from typing import Any

from throwbench.documents.nameless import scale_use
from throwbench.documents.result_columns import columns_on, shown
from throwbench.documents.rows import limit_words
from throwbench.documents.widths import printable
from throwbench.documents.words import (
    compared,
    in_words,
)
from throwbench.science.clean import clean_needed, true_rate_compatible
from throwbench.science.words import counted
from throwbench.verdict.result import CandidateVerdict, Verdict
from throwbench.verdict.words import number, steps

CLEAN = 2
"""Clean candles whose worth is said: so many are usual."""
RATE = 0.10
"""A failure rate that sounds low, and the candles it takes to rule it out."""


def lead(verdict: Verdict) -> str:
    """Say how many oils of how many suppliers were compared, on how many scores."""
    oils = _candidates(verdict)
    suppliers = {one.supplier for one in oils if one.supplier}
    known = all(one.supplier for one in oils)
    whose = f" from {in_words(len(suppliers), 'supplier')}" if suppliers and known else ""
    said = in_words(len(oils), "fragrance oil")
    return (
        f"{said[:1].upper()}{said[1:]}{whose}. {counted(verdict.counted, 'score')} "
        f"{_are(verdict.counted)} counted, {verdict.not_counted} {_are(verdict.not_counted)} "
        "shown only."
    )


def oils(verdict: Verdict) -> str:
    """'The nine oils', 'The oil': the head beside the chart."""
    count = len(_candidates(verdict))
    return "The oil" if count == 1 else f"The {in_words(count, 'oil')}"


def limits(verdict: Verdict) -> tuple[str, ...]:
    """Return what binds the pick, and what 'none broken' is worth."""
    return (*verdict.holds, none_broken())


def none_broken() -> str:
    """Say how little a few clean candles rule out."""
    rate = 100 * true_rate_compatible(clean=CLEAN)
    return (
        f"“None broken” says what was tried. {number(CLEAN).capitalize()} clean candles are "
        f"compatible with a true failure rate of {rate:.0f} %; {clean_needed(rate=RATE)} are "
        f"needed for under {100 * RATE:.0f} %."
    )


def not_tried(verdict: Verdict) -> str:
    """Name the rules that a workshop cannot try."""
    if not verdict.not_tried:
        return ""
    return f"Not tried, for a laboratory: {', '.join(verdict.not_tried)}."


def sure(verdict: Verdict) -> tuple[str, ...]:
    """Return how the order came about and how far it can be trusted."""
    loss = verdict.loss_steps
    lost = () if loss is None else (f"On average the pick loses {steps(loss)} of worth.",)
    return (f"Ranked by {verdict.ranked_by}.", *lost, *scale_use(verdict.noses))


def stands_out(candidate: CandidateVerdict) -> tuple[str, ...]:
    """Return what is said of one oil beside its figures; split opinions first."""
    split = () if candidate.split is None else (f"Opinions split: {candidate.split}.",)
    return (*split, *candidate.reasons)


def figures(verdict: Verdict) -> dict[str, Any]:
    """Return the chart's figures as a table, with those of a second attribute beside them."""
    columns = columns_on("report", verdict)
    rows = [[printable(shown(column.of(one))) for column in columns] for one in verdict.candidates]
    head = [column.head for column in columns]
    return {"head": head, "rows": rows, "note": places_note(verdict)}


def places_note(verdict: Verdict) -> str:
    """Say on which scale scores stand, and what the chances add up to."""
    scale = f"Scores stand on {verdict.scale[0]} to {verdict.scale[1]}."
    return " ".join((scale, *_places(verdict)))


def tried(verdict: Verdict) -> list[list[str]]:
    """Return each oil with its limits, evidence beside them, and how it burns."""
    return [
        [printable(one.candidate), _limits_cell(one), printable("; ".join(one.burns_well))]
        for one in verdict.candidates
    ]


def _limits_cell(candidate: CandidateVerdict) -> str:
    several = len(candidate.limits) > 1
    cells = []
    for one in candidate.limits:
        said = limit_words(one, several=several)
        cells.append(f"{said.words}: {said.evidence}")
    return printable("; ".join(cells) or "not part of this trial")


def _places(verdict: Verdict) -> tuple[str, ...]:
    """Say that the chances add up to the places, where they do: a theme may leave one empty."""
    total = sum(one.chance_to_belong or 0.0 for one in verdict.candidates)
    if not compared(verdict) or abs(total - verdict.choose) > 0.05:
        return ()
    return (f"The chances add up to {in_words(verdict.choose, 'place')}.",)


def _candidates(verdict: Verdict) -> list[CandidateVerdict]:
    return [one for one in verdict.candidates if one.place != "reference"]


def _are(count: int) -> str:
    return "is" if count == 1 else "are"
