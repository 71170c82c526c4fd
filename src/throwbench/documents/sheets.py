"""The words and tables of the report's sheets."""

from typing import Any

from throwbench.documents.nameless import scale_use
from throwbench.documents.rows import PLACES, limit_words
from throwbench.documents.widths import printable
from throwbench.documents.words import (
    attribute_words,
    attributes,
    charted,
    figure,
    number,
    of_100,
    pick_words,
)
from throwbench.verdict.result import CandidateVerdict, Interval, Verdict

NONE_BROKEN = (
    "“None broken” says what was tried. Two clean candles are compatible with a true failure "
    "rate of 78 %; 29 are needed for under 10 %."
)


def lead(verdict: Verdict, *, about: str) -> str:
    """Say how many oils of how many suppliers were compared, on how many scores."""
    compared = _compared(verdict)
    suppliers = {one.supplier for one in compared if one.supplier}
    oils = f"{number(len(compared)).capitalize()} fragrance oil{_s(len(compared))}"
    whose = f" from {number(len(suppliers))} supplier{_s(len(suppliers))}" if suppliers else ""
    counted = f"{verdict.counted} scores are counted, {verdict.not_counted} are shown only."
    return " ".join(part for part in (f"{oils}{whose}.", about, counted) if part)


def oils(verdict: Verdict) -> str:
    """'The nine oils', 'The oil': the head beside the chart."""
    count = len(_compared(verdict))
    return "The oil" if count == 1 else f"The {number(count)} oils"


def limits(verdict: Verdict) -> tuple[str, ...]:
    """Return what binds the pick, and what 'none broken' is worth."""
    return (*verdict.holds, NONE_BROKEN)


def not_tried(verdict: Verdict) -> str:
    """Name the rules that a workshop cannot try."""
    if not verdict.not_tried:
        return ""
    return f"Not tried, for a laboratory: {', '.join(verdict.not_tried)}."


def sure(verdict: Verdict) -> tuple[str, ...]:
    """Return how the order came about and how far it can be trusted."""
    loss = verdict.loss_steps
    lost = () if loss is None else (f"The pick gives away {loss:.2f} steps on average.",)
    return (f"Ranked by {verdict.ranked_by}.", *lost, *scale_use(verdict.noses))


def stands_out(candidate: CandidateVerdict) -> tuple[str, ...]:
    """Return what is said of one oil beside its figures; split opinions first."""
    split = () if candidate.split is None else (f"Opinions split: {candidate.split}.",)
    return (*split, *candidate.reasons)


def figures(verdict: Verdict) -> dict[str, Any]:
    """Return the chart's figures as a table, with those of a second attribute beside them."""
    first = charted(verdict)
    others = [name for name in ("liking", "hot_throw") if name in attributes(verdict)]
    second = next((name for name in others if name != first), None)
    head = ["Oil", "Place", attribute_words(first).capitalize(), "8 in 10", "19 in 20"]
    if second:
        head += [attribute_words(second).capitalize(), "8 in 10"]
    head += [f"In {pick_words(verdict)}, of 100", "Scores"]
    rows = [
        [
            printable(one.candidate),
            PLACES[one.place][0],
            *_scores(one, first, outer=True),
            *(_scores(one, second, outer=False) if second else ()),
            "none" if one.chance_to_belong is None else of_100(one.chance_to_belong),
            str(_counted(one, first)),
        ]
        for one in verdict.candidates
    ]
    scale = f"Scores stand on {verdict.scale[0]} to {verdict.scale[1]}."
    return {"head": head, "rows": rows, "note": " ".join((scale, *_places(verdict)))}


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


def _scores(candidate: CandidateVerdict, attribute: str, *, outer: bool) -> tuple[str, ...]:
    result = candidate.of(attribute)
    if result is None:
        return ("not ranked", "none", "none") if outer else ("none", "none")
    told = (figure(result.expected), _span(result.eight_in_ten))
    return (*told, _span(result.nineteen_in_twenty)) if outer else told


def _span(interval: Interval) -> str:
    return f"{figure(interval.low)}–{figure(interval.high)}"


def _places(verdict: Verdict) -> tuple[str, ...]:
    """Say that the chances add up to the places, where they do: a theme may leave one empty."""
    total = sum(one.chance_to_belong or 0.0 for one in verdict.candidates)
    if abs(total - verdict.choose) > 0.05:
        return ()
    return (f"The chances add up to {number(verdict.choose)} place{_s(verdict.choose)}.",)


def _compared(verdict: Verdict) -> list[CandidateVerdict]:
    return [one for one in verdict.candidates if one.place != "reference"]


def _counted(candidate: CandidateVerdict, attribute: str) -> int:
    result = candidate.of(attribute)
    return 0 if result is None else len(result.counted)


def _s(count: int) -> str:
    return "" if count == 1 else "s"
