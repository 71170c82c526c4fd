"""The one chart: verdict in, Vega-Lite out, as plain data for screen, picture and paper."""

from typing import Any

from throwbench.documents import columns, layout, strip
from throwbench.documents.inline import SCHEMA
from throwbench.documents.layout import place_rows
from throwbench.documents.rows import Row, rows
from throwbench.documents.strip import Strip
from throwbench.documents.tokens import Theme
from throwbench.documents.widths import wrap
from throwbench.documents.words import (
    attribute_words,
    charted,
    compared,
    drawn_band,
    figure,
    pick_words,
)
from throwbench.verdict.result import Verdict

_TITLE_SIZE = 15.0


def chart(
    verdict: Verdict, *, theme: Theme, first: int = 0, stop: int | None = None
) -> dict[str, Any]:
    """Return the chart of the rows from `first` up to `stop` as a Vega-Lite spec.

    Notes
    -----
    Scores stand in the data on the maker's scale; only texts, shapes and heights are pixels.
    The axis stands on top of each part; the finding only above the first.
    """
    scale = Strip.of(verdict)
    title = _title_lines(verdict) if first == 0 else ()
    head = 20.0 * len(title) + (8.0 if title else 0.0)
    top = head + 66.0
    placed = place_rows(rows(verdict)[first:stop], top=top, step_px=scale.step_px)
    bottom = placed[-1].top + placed[-1].height if placed else top
    choose = pick_words(verdict) if compared(verdict) else None
    return {
        "$schema": SCHEMA,
        "description": described(verdict),
        "width": layout.WIDTH,
        "height": bottom + 1.0,
        "padding": 0,
        "autosize": {"type": "none"},
        "background": "transparent",
        "config": {"aria": False, "view": {"stroke": None}},
        "layer": [
            *strip.ground(scale, top=top, bottom=bottom, theme=theme),
            *columns.heads(title, top=head, choose=choose, theme=theme),
            *strip.axis(scale, top=head, theme=theme),
            *columns.hairlines(placed, theme=theme),
            *strip.intervals(scale, placed, theme=theme),
            *strip.raw_scores(scale, placed, theme=theme),
            *columns.oils(placed, theme=theme),
            *columns.not_ranked(placed, theme=theme),
            *columns.chances(placed, theme=theme),
            *columns.limits(placed, theme=theme),
        ],
    }


def parts(verdict: Verdict, *, first_px: float, next_px: float) -> tuple[tuple[int, int], ...]:
    """Return the runs of rows that fit under `first_px` and then `next_px` of height each."""
    placed = place_rows(rows(verdict), top=0.0, step_px=Strip.of(verdict).step_px)
    starts = [0]
    for index, row in enumerate(placed):
        room = first_px if len(starts) == 1 else next_px
        if row.top + row.height - placed[starts[-1]].top > room and index > starts[-1]:
            starts.append(index)
    return tuple(zip(starts, [*starts[1:], len(placed)], strict=True))


def finding(verdict: Verdict) -> str:
    """Return the chart's title: what it shows, as a sentence."""
    attribute = charted(verdict)
    name = attribute_words(attribute).capitalize()
    ranked = [
        (one.candidate, one.of(attribute)) for one in verdict.candidates if one.place != "reference"
    ]
    results = [(oil, result) for oil, result in ranked if result is not None]
    if not results:
        return f"{name}: no score counts yet."
    band = drawn_band(verdict)
    if band is None:
        oil, best = max(results, key=lambda pair: pair[1].expected)
        if len(results) == 1:
            return f"{name}: {oil} at {figure(best.expected)}, nothing to compare it with."
        return f"{name}: {oil} stands highest, at {figure(best.expected)}."
    right = sum(band.low <= result.expected <= band.high for _, result in results)
    where = f" for the {band.room}" if band.room else ""
    return f"{name} is right{where} in {right} of {len(results)} oils."


def legend(verdict: Verdict) -> str:
    """Return the line under the chart: how to read it."""
    band = drawn_band(verdict)
    where = f" for the {band.room}" if band is not None and band.room else ""
    filled = f"Filled: where it is right{where}. " if band is not None else ""
    chances = f"In {pick_words(verdict)}: chance to belong, of 100. " if compared(verdict) else ""
    return (
        f"Box: 8 times in 10 the truth is in it. Line: 19 in 20. {filled}"
        f"Dots: scores that count; open: shown, not counted. {chances}"
        "None broken says what was tried: gross faults only."
    )


def described(verdict: Verdict) -> str:
    """Return the chart in words, with its values, for who cannot see it."""
    band = drawn_band(verdict)
    right = f" Right: {figure(band.low)} to {figure(band.high)}." if band is not None else ""
    said = " ".join(_row_words(row) for row in rows(verdict))
    return f"{finding(verdict)}{right} {said}"


def _row_words(row: Row) -> str:
    limits = ", ".join(f"{one.words}: {one.evidence}" for one in row.limits)
    told = [row.place, interval_words(row)]
    told += [f"{row.chance} in 100"] if row.chance else []
    return f"{row.oil}: {', '.join(told)}; limits: {limits or 'not part of this trial'}."


def interval_words(row: Row) -> str:
    """Return the middle and both intervals of one oil, or what stands in their place."""
    result = row.result
    if result is None:
        return row.instead
    box, outer = result.eight_in_ten, result.nineteen_in_twenty
    return (
        f"{figure(result.middle)}, 8 times in 10 between {figure(box.low)} and "
        f"{figure(box.high)}, 19 in 20 between {figure(outer.low)} and {figure(outer.high)}"
    )


def _title_lines(verdict: Verdict) -> tuple[str, ...]:
    return wrap(
        text=finding(verdict), face="words_strong", size_px=_TITLE_SIZE, within_px=layout.WIDTH
    )
