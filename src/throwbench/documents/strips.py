"""The chart in pieces for a page: its axis, its ground, and one strip for each oil."""

from dataclasses import dataclass, replace

from throwbench.documents import columns, layout, strip
from throwbench.documents.chart import interval_words
from throwbench.documents.inline import drawn
from throwbench.documents.layout import place_rows
from throwbench.documents.rows import Row, rows
from throwbench.documents.strip import Strip
from throwbench.documents.tokens import WEB, Theme
from throwbench.documents.words import attribute_words, charted, drawn_band, figure
from throwbench.verdict.result import Verdict

AXIS_PX = 72.0
GROUND_PX = 40.0
LEAST_PX = 26.0
_LEFT, _WIDTH = layout.STRIP[0], layout.STRIP[1] - layout.STRIP[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """Drawings that share one scale and one width. `ground` lies under each of the strips."""

    axis: str
    ground: str
    oils: tuple[str, ...]
    """One for each oil, in the order of the verdict."""


def strips(verdict: Verdict, *, theme: Theme = WEB) -> Strips:
    """Return axis, ground and strips, each an SVG that fills the width of its place."""
    scale = Strip.of(verdict)
    axis = [
        *strip.ground(scale, top=AXIS_PX - 4, bottom=AXIS_PX, theme=theme),
        *strip.axis(scale, top=0.0, theme=theme),
    ]
    ground = strip.ground(scale, top=0.0, bottom=GROUND_PX, theme=theme)
    return Strips(
        axis=drawn(axis, box=(_LEFT, 0.0, _WIDTH, AXIS_PX)),
        ground=drawn(ground, box=(_LEFT, 0.0, _WIDTH, GROUND_PX), stretched=True),
        oils=tuple(_oil(scale, row, theme=theme) for row in rows(verdict)),
    )


def said(verdict: Verdict) -> tuple[str, ...]:
    """Return each strip in words, with its values, for who cannot see it."""
    name = attribute_words(charted(verdict)).capitalize()
    band = drawn_band(verdict)
    right = f"; right is {figure(band.low)} to {figure(band.high)}" if band is not None else ""
    return tuple(f"{name} {interval_words(row)}{right}. {_raw(row)}" for row in rows(verdict))


def _oil(scale: Strip, row: Row, *, theme: Theme) -> str:
    placed = place_rows((replace(row, cut=None),), top=0.0, step_px=scale.step_px)
    height = max(LEAST_PX, layout.DOTS_FROM + layout.DOT_LINE * placed[0].dot_lines)
    layers = [
        *strip.intervals(scale, placed, theme=theme),
        *strip.raw_scores(scale, placed, theme=theme),
        *columns.not_ranked(placed, theme=theme),
    ]
    return drawn(layers, box=(_LEFT, 0.0, _WIDTH, height))


def _raw(row: Row) -> str:
    counted = ", ".join(map(str, row.counted)) or "none"
    shown = f" Shown, not counted: {', '.join(map(str, row.not_counted))}."
    return f"Scores that count: {counted}.{shown if row.not_counted else ''}"
