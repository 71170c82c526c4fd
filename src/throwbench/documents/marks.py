"""Vega-Lite layers as plain data. Pixels unless a layer is told to use the score scale."""

from typing import Any

Layer = dict[str, Any]
Datum = dict[str, float | str]

_PX: Layer = {"type": "quantitative", "scale": None, "axis": None}

SHAPES = {
    "none broken": "M-.35-.8H.35L.8-.35V.35L.35.8H-.35L-.8.35V-.35Z",
    "broken": "M-.35-.8H.35L.8-.35V.35L.35.8H-.35L-.8.35V-.35Z M-.3-.3L.3.3M.3-.3L-.3.3",
    "not yet known": "M-.35-.8H.35L.8-.35V.35L.35.8H-.35L-.8.35V-.35Z",
    "joins": "M0 .7V-.6M-.55-.05L0-.6L.55-.05",
    "again": "M.65 0A.65 .65 0 1 1 .45-.47M.55-.8V-.4H.15",
    "dropped": "M-.8 0H.2M-.2-.4L.2 0L-.2.4M.7-.6V.6",
}
"""Strokes in a field of 2 by 2 around its middle; the octagon belongs to limits alone."""


def texts(
    data: list[Datum],
    *,
    colour: str,
    size: float,
    face: str = "'Source Sans 3'",
    weight: int = 400,
    align: str = "left",
) -> Layer:
    """One layer of single-line texts: `x`, `y` and `text` of each datum."""
    mark = {
        "type": "text",
        "font": face,
        "fontSize": size,
        "fontWeight": weight,
        "align": align,
        "baseline": "alphabetic",
        "color": colour,
    }
    text = {"field": "text", "type": "nominal"}
    return _layer(data, mark, {**_place(None), "text": text})


def names(data: list[Datum], *, colour: str, size: float) -> Layer:
    """Names and figures, in Besley; what it lacks is set in Source Sans 3."""
    return texts(data, colour=colour, size=size, face="Besley, 'Source Sans 3'", weight=500)


def rules(data: list[Datum], *, colour: str, width: float, scale: Layer | None = None) -> Layer:
    """Lines from `x`, `y` to `x2`, `y2`."""
    mark = {"type": "rule", "color": colour, "strokeWidth": width}
    return _layer(data, mark, {**_place(scale), **_ends(data)})


def boxes(data: list[Datum], *, scale: Layer | None = None, **mark: Any) -> Layer:
    """Rectangles from `x`, `y` to `x2`, `y2`."""
    return _layer(data, {"type": "rect", **mark}, {**_place(scale), **_ends(data)})


def dots(data: list[Datum], *, colour: str, filled: bool, scale: Layer) -> Layer:
    """Raw scores: 6 px across, filled where the score counts."""
    mark: Layer = {"type": "point", "shape": "circle", "size": 33 if filled else 26, "opacity": 1}
    if filled:
        mark |= {"fill": colour, "strokeWidth": 0}
    else:
        mark |= {"filled": False, "stroke": colour, "strokeWidth": 1.2}
    return _layer(data, mark, _place(scale))


def spots(data: list[Datum], *, colour: str, size: float) -> Layer:
    """Filled circles of `size` px² at the ends of lines."""
    mark = {"type": "point", "shape": "circle", "size": size, "fill": colour, "strokeWidth": 0}
    return _layer(data, {**mark, "opacity": 1}, _place(None))


def shapes(data: list[Datum], *, shape: str, colour: str) -> Layer:
    """The shape of a state, 14 px across."""
    mark = {
        "type": "point",
        "shape": SHAPES[shape],
        "size": 196,
        "filled": False,
        "stroke": colour,
        "strokeWidth": 1.4,
        "strokeCap": "round",
        "strokeJoin": "round",
        "opacity": 1,
    }
    if shape == "not yet known":
        mark["strokeDash"] = [2.4, 2.2]
    return _layer(data, mark, _place(None))


def dot_in_middle(data: list[Datum], *, colour: str) -> Layer:
    """The dot in the dashed octagon of what is not yet known."""
    mark = {"type": "point", "shape": "circle", "size": 7, "fill": colour, "strokeWidth": 0}
    return _layer(data, {**mark, "opacity": 1}, _place(None))


def _place(scale: Layer | None) -> Layer:
    across = _PX if scale is None else {"type": "quantitative", "scale": scale, "axis": None}
    return {"x": {"field": "x", **across}, "y": {"field": "y", **_PX}}


def _ends(data: list[Datum]) -> Layer:
    return {end: {"field": end} for end in ("x2", "y2") if data and end in data[0]}


def _layer(data: list[Datum], mark: Layer, encoding: Layer) -> Layer:
    return {"data": {"values": data}, "mark": mark, "encoding": encoding}
