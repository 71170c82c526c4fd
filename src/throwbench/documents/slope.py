"""Cold against hot throw: one line for each oil, the one that is spoken of in flame."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from throwbench.documents import layout, marks
from throwbench.documents.inline import drawn
from throwbench.documents.marks import Datum, Layer
from throwbench.documents.tokens import WEB, Theme
from throwbench.documents.widths import width_px
from throwbench.documents.words import figure
from throwbench.verdict.result import Band, Verdict

_TOP, _BOTTOM, _HEIGHT = 26.0, 262.0, 276.0
_WIDE, _NARROW = (190.0, 370.0, 560.0), (44.0, 276.0, 320.0)
"""Place of the two axes, and the whole width [px]; the narrow one names the oil spoken of only."""
_LINE = 18.0
_LEADER = 14.0
"""From a dot to its label runs a fine line as long as this [px], where names stand beside it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """The middle of what is believed of one oil, unlit and lit."""

    oil: str
    cold: float
    hot: float


def ends(verdict: Verdict) -> tuple[Ends, ...]:
    """Return the oils of which both are known."""
    found = ((one, one.of("cold_throw"), one.of("hot_throw")) for one in verdict.candidates)
    return tuple(
        Ends(oil=one.candidate, cold=cold.middle, hot=hot.middle)
        for one, cold, hot in found
        if cold is not None and hot is not None
    )


def slope(
    oils: Sequence[Ends],
    *,
    spoken_of: str,
    scale: tuple[int, int],
    band: Band | None,
    narrow: bool = False,
    theme: Theme = WEB,
) -> str:
    """Return the chart as an SVG that fills the width of its place."""
    cold_x, hot_x, width = _NARROW if narrow else _WIDE
    place = _Place(scale=_cropped(scale, oils, band), cold_x=cold_x, hot_x=hot_x)
    others = [one for one in oils if one.oil != spoken_of]
    this = [one for one in oils if one.oil == spoken_of]
    named = this if narrow else list(oils)
    layers = [
        *_ground(place, band, theme=theme),
        *place.lines(others, colour=theme.ink_3, width=1.25, dot=30),
        *place.lines(this, colour=theme.flame, width=3, dot=110),
        *_band_label(place, band, theme=theme),
        *_names(place, named, spoken_of, short=narrow, theme=theme),
    ]
    return drawn(layers, box=(0.0, 0.0, width, _HEIGHT))


def _cropped(scale: tuple[int, int], oils: Sequence[Ends], band: Band | None) -> tuple[int, int]:
    """The whole steps that hold all ends and the band: each end carries its value."""
    values = [value for one in oils for value in (one.cold, one.hot)]
    values += [band.low, band.high] if band else []
    if not values:
        return scale
    low, high = max(scale[0], floor(min(values))), min(scale[1], ceil(max(values)))
    return (low, high) if low < high else scale


@dataclass(frozen=True, slots=True, kw_only=True)
class _Place:
    scale: tuple[int, int]
    cold_x: float
    hot_x: float

    def y(self, score: float) -> float:
        low, high = self.scale
        return _BOTTOM - (score - low) / (high - low) * (_BOTTOM - _TOP)

    def lines(self, oils: list[Ends], *, colour: str, width: float, dot: float) -> list[Layer]:
        lines: list[Datum] = []
        dots: list[Datum] = []
        for one in oils:
            cold, hot = self.y(one.cold), self.y(one.hot)
            lines.append({"x": self.cold_x, "x2": self.hot_x, "y": cold, "y2": hot})
            dots += [{"x": self.cold_x, "y": cold}, {"x": self.hot_x, "y": hot}]
        return [
            marks.rules(lines, colour=colour, width=width),
            marks.spots(dots, colour=colour, size=dot),
        ]


def _ground(place: _Place, band: Band | None, *, theme: Theme) -> list[Layer]:
    low, high = place.scale
    grid: list[Datum] = [
        {"x": place.cold_x, "x2": place.hot_x, "y": place.y(step), "y2": place.y(step)}
        for step in range(low, high + 1)
    ]
    axes: list[Datum] = [
        {"x": x, "x2": x, "y": _TOP - 8, "y2": _BOTTOM + 8} for x in (place.cold_x, place.hot_x)
    ]
    heads: list[Datum] = [
        {"x": place.cold_x, "y": 12, "text": "cold throw"},
        {"x": place.hot_x, "y": 12, "text": "hot throw"},
    ]
    return [
        *_band(place, band, theme=theme),
        marks.rules(grid, colour=theme.rule, width=1),
        marks.rules(axes, colour=theme.ink, width=1),
        marks.texts(heads, colour=theme.ink, size=layout.TEXT, weight=600, align="center"),
    ]


def _band(place: _Place, band: Band | None, *, theme: Theme) -> list[Layer]:
    if band is None:
        return []
    left, right = place.hot_x - 30, place.hot_x
    top, bottom = place.y(band.high), place.y(band.low)
    wash: list[Datum] = [{"x": left, "x2": right, "y": top, "y2": bottom}]
    edges: list[Datum] = [{"x": left, "x2": right, "y": y, "y2": y} for y in (top, bottom)]
    return [marks.boxes(wash, color=theme.band), marks.rules(edges, colour=theme.flame, width=1.25)]


def _band_label(place: _Place, band: Band | None, *, theme: Theme) -> list[Layer]:
    """Above the band, on a patch that hides the lines behind it."""
    if band is None:
        return []
    words = f"right: {figure(band.low)} to {figure(band.high)}"
    right, y = place.hot_x - 8, place.y(band.high) - 8
    left = right - width_px(text=words, face="words_strong", size_px=layout.TEXT)
    patch: list[Datum] = [{"x": left - 4, "x2": right + 4, "y": y - 14, "y2": y + 5}]
    label: list[Datum] = [{"x": right, "y": y, "text": words}]
    return [
        marks.boxes(patch, color=theme.paper),
        marks.texts(label, colour=theme.ember, size=layout.TEXT, weight=600, align="right"),
    ]


def _names(
    place: _Place, oils: list[Ends], spoken_of: str, *, short: bool, theme: Theme
) -> list[Layer]:
    """The names beside both ends, apart from each other, with their figures."""
    layers = []
    apart = 12 if short else 16 + _LEADER
    sides = (("cold", place.cold_x, -1, "right"), ("hot", place.hot_x, 1, "left"))
    for side, axis, out, align in sides:
        x = axis + out * apart
        ordered = sorted(oils, key=lambda one: -float(getattr(one, side)))
        heights = _apart([place.y(float(getattr(one, side))) for one in ordered])
        if not short:
            layers.append(_leaders(place, ordered, heights, side=side, out=out, theme=theme))
        for one, y in zip(ordered, heights, strict=True):
            value = figure(getattr(one, side))
            named = f"{one.oil} {value}" if side == "cold" else f"{value} {one.oil}"
            told: list[Datum] = [{"x": x, "y": y + 5, "text": value if short else named}]
            mine = one.oil == spoken_of
            colour = theme.ink if mine else theme.ink_3
            weight = 600 if mine else 400
            size = layout.TEXT
            layers.append(marks.texts(told, colour=colour, size=size, weight=weight, align=align))
    return layers


def _leaders(
    place: _Place, oils: list[Ends], heights: list[float], *, side: str, out: int, theme: Theme
) -> Layer:
    """A fine line from each dot to its label."""
    axis = place.cold_x if side == "cold" else place.hot_x
    near, far = axis + out * 8, axis + out * (12 + _LEADER)
    lines: list[Datum] = [
        {"x": near, "y": place.y(float(getattr(one, side))), "x2": far, "y2": y}
        for one, y in zip(oils, heights, strict=True)
    ]
    return marks.rules(lines, colour=theme.ink_3, width=0.75)


def _apart(heights: list[float]) -> list[float]:
    """Labels from the top down, each as near to its point as it can be without touching another.

    Least squares under an order: what is left of a height without the lines above it may not fall.
    """
    from scipy.optimize import isotonic_regression  # noqa: PLC0415

    if not heights:
        return []
    lines = [index * _LINE for index in range(len(heights))]
    free = [y - line for y, line in zip(heights, lines, strict=True)]
    room = _HEIGHT - 8.0 - lines[-1]
    fitted = isotonic_regression(free).x
    return [min(max(float(y), _TOP), room) + line for y, line in zip(fitted, lines, strict=True)]
