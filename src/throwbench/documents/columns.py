"""The columns of the chart beside the strip: oil and place, chance, limits."""

from throwbench.documents import layout, marks
from throwbench.documents.layout import Limit, Placed
from throwbench.documents.marks import Datum, Layer
from throwbench.documents.rows import Mark
from throwbench.documents.tokens import Theme
from throwbench.documents.widths import printable, width_px
from throwbench.rules.result import State


def heads(title: tuple[str, ...], *, top: float, choose: str | None, theme: Theme) -> list[Layer]:
    """The finding on top, and the names of the columns; None names no column of chances."""
    said: list[Datum] = [{"x": 0, "y": 14 + 20 * i, "text": text} for i, text in enumerate(title)]
    names: list[Datum] = [
        {"x": 0, "y": top + 57, "text": "oil"},
        {"x": layout.LIMITS, "y": top + 57, "text": "limits"},
    ]
    if choose is not None:
        names += [
            {"x": layout.CHANCE, "y": top + 43, "text": "in the"},
            {"x": layout.CHANCE, "y": top + 57, "text": choose.removeprefix("the ")},
        ]
    return [
        marks.texts(said, colour=theme.ink, size=15, weight=600),
        marks.texts(names, colour=theme.ink_3, size=layout.SMALL),
    ]


def hairlines(placed: tuple[Placed, ...], *, theme: Theme) -> list[Layer]:
    """One hairline above each row, and one under the last."""
    ends = [row.top for row in placed] + [row.top + row.height for row in placed[-1:]]
    lines: list[Datum] = [{"x": 0, "x2": layout.WIDTH, "y": y, "y2": y} for y in ends]
    return [marks.rules(lines, colour=theme.rule, width=1)]


def oils(placed: tuple[Placed, ...], *, theme: Theme) -> list[Layer]:
    """The name, the word and shape of its place, and the lines between groups."""
    names: list[Datum] = []
    cuts: list[Datum] = []
    for row in placed:
        for index, text in enumerate(row.name):
            names.append({"x": 0, "y": row.head + 17 + 17 * index, "text": text})
        for x, lines in zip((0.0, layout.CHANCE), row.cut, strict=True):
            cuts += [{"x": x, "y": row.top + 13 + 15 * i, "text": t} for i, t in enumerate(lines)]
    return [
        marks.names(names, colour=theme.ink, size=layout.NAME_SIZE),
        marks.texts(cuts, colour=theme.ink_3, size=layout.SMALL),
        *_places(placed, theme=theme),
    ]


def _places(placed: tuple[Placed, ...], *, theme: Theme) -> list[Layer]:
    colours: dict[Mark | None, str] = {
        "joins": theme.sea,
        "again": theme.ink,
        "dropped": theme.ink_2,
        None: theme.ink_2,
    }
    layers = []
    for mark, colour in colours.items():
        rows = [row for row in placed if row.row.mark == mark]
        indent = 0 if mark is None else 18
        words: list[Datum] = [
            {"x": indent, "y": row.head + 16 + 17 * len(row.name), "text": row.row.place}
            for row in rows
        ]
        layers.append(marks.texts(words, colour=colour, size=layout.SMALL, weight=600))
        if mark is not None:
            spots: list[Datum] = [{"x": 6.5, "y": float(word["y"]) - 4.5} for word in words]
            layers.append(marks.shapes(spots, shape=mark, colour=colour))
    return layers


def not_ranked(placed: tuple[Placed, ...], *, theme: Theme) -> list[Layer]:
    """The words that stand in place of an interval, on a patch that hides the lines."""
    middle = sum(layout.STRIP) / 2
    rows = [row for row in placed if row.row.result is None]
    words: list[Datum] = [
        {"x": middle, "y": row.head + 17, "text": row.row.instead} for row in rows
    ]
    patches: list[Datum] = []
    for row in rows:
        half = width_px(text=row.row.instead, face="words", size_px=layout.SMALL) / 2 + 4
        patches.append(
            {"x": middle - half, "x2": middle + half, "y": row.head + 5, "y2": row.head + 21}
        )
    return [
        marks.boxes(patches, color=theme.paper),
        marks.texts(words, colour=theme.ink, size=layout.SMALL, align="center"),
    ]


def chances(placed: tuple[Placed, ...], *, theme: Theme) -> list[Layer]:
    """The chance to belong, as a count of 100."""
    ranked = [row for row in placed if row.row.chance]
    figures: list[Datum] = [
        {"x": layout.CHANCE, "y": row.head + 17, "text": row.row.chance} for row in ranked
    ]
    units: list[Datum] = [
        {"x": layout.CHANCE, "y": row.head + 33, "text": "in 100"} for row in ranked
    ]
    return [
        marks.names(figures, colour=theme.ink, size=layout.NAME_SIZE),
        marks.texts(units, colour=theme.ink_2, size=layout.SMALL),
    ]


def limits(placed: tuple[Placed, ...], *, theme: Theme) -> list[Layer]:
    """What was tried and what broke: the heaviest thing on the page where a limit is broken."""
    heads: dict[str, list[Datum]] = {"none broken": [], "broken": [], "not yet known": []}
    spots: dict[str, list[Datum]] = {state: [] for state in heads}
    frames: dict[str, list[Datum]] = {state: [] for state in heads}
    evidence: list[Datum] = []
    for row in placed:
        top = row.head + 4.0
        for limit in row.limits:
            heads[limit.state] += _lines(limit.head, top=top + 13.5, step=18)
            spots[limit.state].append({"x": layout.LIMITS + 8, "y": top + 9.0})
            frames[limit.state].append(_frame(limit, top=top))
            evidence += _lines(limit.evidence, top=top + 18 * len(limit.head) + 12, step=15)
            top += limit.height
        if not row.limits:
            evidence.append(
                {"x": layout.LIMITS, "y": row.head + 17, "text": "not part of this trial"}
            )
    return [
        marks.boxes(frames["broken"], color=theme.ink, cornerRadius=3),
        marks.boxes(
            frames["not yet known"],
            filled=False,
            stroke=theme.ink_3,
            strokeWidth=1,
            strokeDash=[3, 2.5],
            cornerRadius=3,
        ),
        *_states(heads, spots, theme=theme),
        marks.texts(evidence, colour=theme.ink_2, size=layout.SMALL),
    ]


def _states(
    heads: dict[str, list[Datum]], spots: dict[str, list[Datum]], *, theme: Theme
) -> list[Layer]:
    colours: dict[State, str] = {
        "none broken": theme.sea,
        "broken": theme.paper,
        "not yet known": theme.ink,
    }
    layers = []
    for state, colour in colours.items():
        layers.append(marks.texts(heads[state], colour=colour, size=layout.SMALL, weight=600))
        layers.append(marks.shapes(spots[state], shape=state, colour=colour))
    points: list[Datum] = [dict(spot) for spot in spots["not yet known"]]
    layers.append(marks.dot_in_middle(points, colour=theme.ink))
    return layers


def _lines(lines: tuple[str, ...], *, top: float, step: float) -> list[Datum]:
    return [
        {"x": layout.LIMIT_TEXT, "y": top + step * index, "text": printable(text)}
        for index, text in enumerate(lines)
    ]


def _frame(limit: Limit, *, top: float) -> Datum:
    """The box around the state's words, as wide as they are."""
    widest = max(
        width_px(text=text, face="words_strong", size_px=layout.SMALL) for text in limit.head
    )
    end = layout.LIMIT_TEXT + widest + 7.0
    return {"x": layout.LIMITS, "x2": end, "y": top, "y2": top + 18.0 * len(limit.head)}
