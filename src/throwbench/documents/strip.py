"""The strip of the chart: axis, band, intervals and raw scores, on the maker's whole scale."""

from dataclasses import dataclass

from throwbench.documents import layout, marks
from throwbench.documents.layout import Placed
from throwbench.documents.marks import Datum, Layer
from throwbench.documents.tokens import Theme
from throwbench.documents.widths import width_px
from throwbench.documents.words import charted, drawn_band, figure
from throwbench.records.attribute import COLD_THROW, HOT_THROW
from throwbench.verdict.result import AttributeResult, Band, Verdict

_THROW_LINES = (*((word,) for word in HOT_THROW.steps[:4]), ("over-", "powering"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """The scale of one verdict in pixels."""

    low: int
    high: int
    band: Band | None
    worded: bool

    @classmethod
    def of(cls, verdict: Verdict) -> "Strip":
        low, high = verdict.scale
        throw = charted(verdict) in (HOT_THROW.name, COLD_THROW.name)
        band = drawn_band(verdict)
        return cls(low=low, high=high, band=band, worded=throw and (low, high) == (1, 5))

    @property
    def step_px(self) -> float:
        return (layout.AXIS[1] - layout.AXIS[0]) / (self.high - self.low)

    @property
    def scale(self) -> Layer:
        return {
            "domain": [self.low, self.high],
            "range": list(layout.AXIS),
            "nice": False,
            "zero": False,
        }

    @property
    def ticks(self) -> range:
        """Whole steps; on a long scale every second, fifth or tenth of them."""
        span = self.high - self.low
        every = next((size for size in (1, 2, 5, 10) if span / size <= 10), span)
        return range(self.low, self.high + 1, every)

    def px(self, score: float) -> float:
        return layout.AXIS[0] + (score - self.low) * self.step_px


def axis(strip: Strip, *, top: float, theme: Theme) -> list[Layer]:
    """The scale's numbers and words above the rows, and the band's label, said once."""
    numbers: list[Datum] = []
    words: list[Datum] = []
    for index, tick in enumerate(strip.ticks):
        numbers.append({"x": strip.px(tick), "y": top + 14, "text": str(tick)})
        for line, word in enumerate(_THROW_LINES[index] if strip.worded else ()):
            words.append({"x": strip.px(tick), "y": top + 28 + 13 * line, "text": word})
    layers = [
        marks.texts(numbers, colour=theme.ink, size=layout.TEXT, align="center"),
        marks.texts(words, colour=theme.ink_3, size=layout.SMALL, align="center"),
    ]
    if strip.band is not None:
        layers.append(_band_label(strip, strip.band, y=top + 57, theme=theme))
    return layers


def _band_label(strip: Strip, band: Band, *, y: float, theme: Theme) -> Layer:
    text = f"right: {figure(band.low)} to {figure(band.high)}"
    half = width_px(text=text, face="words_strong", size_px=layout.TEXT) / 2
    middle = strip.px((band.low + band.high) / 2)
    middle = min(max(middle, layout.STRIP[0] + half), layout.STRIP[1] - half)
    return marks.texts(
        [{"x": middle, "y": y, "text": text}],
        colour=theme.ember,
        size=layout.TEXT,
        weight=600,
        align="center",
    )


def ground(strip: Strip, *, top: float, bottom: float, theme: Theme) -> list[Layer]:
    """The band's wash, a hairline at each whole step, and the band's two lines."""
    grid: list[Datum] = [{"x": tick, "y": top, "y2": bottom} for tick in strip.ticks]
    layers = [marks.rules(grid, colour=theme.rule, width=1, scale=strip.scale)]
    if strip.band is None:
        return layers
    low, high = strip.band.low, strip.band.high
    wash: list[Datum] = [{"x": low, "x2": high, "y": top, "y2": bottom}]
    edges: list[Datum] = [{"x": edge, "y": top - 4, "y2": bottom} for edge in (low, high)]
    return [
        marks.boxes(wash, scale=strip.scale, color=theme.band),
        *layers,
        marks.rules(edges, colour=theme.flame, width=1.25, scale=strip.scale),
    ]


def inside(result: AttributeResult, band: Band | None) -> tuple[float, float] | None:
    """Return the part of the 8-in-10 interval that lies in the band, or None."""
    if band is None:
        return None
    low = max(result.eight_in_ten.low, band.low)
    high = min(result.eight_in_ten.high, band.high)
    return (low, high) if low < high else None


def intervals(strip: Strip, placed: tuple[Placed, ...], *, theme: Theme) -> list[Layer]:
    """Box: 8 in 10, filled where it lies in the band; whiskers: 19 in 20; bar: the middle."""
    whiskers: list[Datum] = []
    whole: list[Datum] = []
    filled: list[Datum] = []
    bars: dict[bool, list[Datum]] = {True: [], False: []}
    for row in placed:
        result = row.row.result
        if result is None:
            continue
        top, middle, bottom = row.head + 6, row.head + 13, row.head + 20
        outer, box = result.nineteen_in_twenty, result.eight_in_ten
        whiskers.append({"x": outer.low, "x2": outer.high, "y": middle, "y2": middle})
        for end in (outer.low, outer.high):
            whiskers.append({"x": end, "x2": end, "y": middle - 4, "y2": middle + 4})
        whole.append({"x": box.low, "x2": box.high, "y": top, "y2": bottom})
        part = inside(result, strip.band)
        if part is not None:
            filled.append({"x": part[0], "x2": part[1], "y": top, "y2": bottom})
        on = part is not None and part[0] <= result.middle <= part[1]
        bars[on].append({"x": result.middle, "y": top + 1, "y2": bottom - 1})
    scale = strip.scale
    return [
        marks.rules(whiskers, colour=theme.ink, width=1.4, scale=scale),
        marks.boxes(whole, scale=scale, color=theme.paper),
        marks.boxes(filled, scale=scale, color=theme.sea),
        marks.boxes(whole, scale=scale, filled=False, stroke=theme.ink, strokeWidth=1.4),
        marks.rules(bars[False], colour=theme.ink, width=3, scale=scale),
        marks.rules(bars[True], colour=theme.paper, width=3, scale=scale),
    ]


def raw_scores(strip: Strip, placed: tuple[Placed, ...], *, theme: Theme) -> list[Layer]:
    """Each score is one dot under its step, side by side: counted filled, others open."""
    counted: list[Datum] = []
    shown: list[Datum] = []
    for row in placed:
        for score in range(strip.low, strip.high + 1):
            count = row.row.counted.count(score)
            spots = _spots(strip, row, score, count + row.row.not_counted.count(score))
            counted.extend(spots[:count])
            shown.extend(spots[count:])
    return [
        marks.dots(counted, colour=theme.ink_2, filled=True, scale=strip.scale),
        marks.dots(shown, colour=theme.ink_3, filled=False, scale=strip.scale),
    ]


def _spots(strip: Strip, row: Placed, score: int, count: int) -> list[Datum]:
    most = layout.abreast(strip.step_px)
    step = layout.DOT_STEP / strip.step_px
    spots: list[Datum] = []
    for index in range(count):
        line, place = divmod(index, most)
        in_line = min(most, count - line * most)
        across = score + (place - (in_line - 1) / 2) * step
        y = row.head + layout.DOTS_FROM + layout.DOT_LINE * line
        spots.append({"x": across, "y": y, "score": score})
    return spots
