"""A drawing made fit to stand in a page: it grows with its place and takes the page's colours."""

import re
from xml.etree import ElementTree

from throwbench.documents.draw import svg
from throwbench.documents.marks import Layer

SCHEMA = "https://vega.github.io/schema/vega-lite/v6.json"
_LONG = re.compile(r"-?\d+\.\d{3,}")
_INVISIBLE = {"background", "foreground"}
_DROPPED = ("role", "class", "width", "height", "version")
Box = tuple[float, float, float, float]
"""Left, top, width and height of the part that is shown [px]."""


def drawn(layers: list[Layer], *, box: Box, stretched: bool = False) -> str:
    """Return the layers as an SVG without a size of its own.

    Parameters
    ----------
    layers : in pixels of the whole chart
    box : the part that is shown
    stretched : fills its place in both directions, lines as thin as before; for what holds no text

    Notes
    -----
    Colours go through as they are, `var(--ink)` too. There is no style attribute, so a page may
    forbid them. It is hidden from who cannot see it: say its values beside it.
    """
    left, top, width, height = box
    spec = {
        "$schema": SCHEMA,
        "width": left + width,
        "height": top + height,
        "padding": 0,
        "autosize": {"type": "none"},
        "background": "transparent",
        "config": {"aria": False, "view": {"stroke": None}},
        "layer": layers,
    }
    return _fit(svg(spec), box=box, stretched=stretched)


def _fit(text: str, *, box: Box, stretched: bool) -> str:
    root = ElementTree.fromstring(text)
    for element in root.iter():
        element.tag = element.tag.rpartition("}")[2]
        for part in [child for child in element if child.get("class") in _INVISIBLE]:
            element.remove(part)
        if stretched and element.tag == "line":
            element.set("vector-effect", "non-scaling-stroke")
        for name in [n for n in element.attrib if n in _DROPPED or n.startswith("aria-")]:
            if element is root or name not in ("width", "height"):
                del element.attrib[name]
        for name, value in element.items():
            element.set(name, _LONG.sub(lambda found: f"{float(found[0]):.2f}", value))
    root.attrib |= {
        "class": "drawn",
        "viewBox": " ".join(f"{edge:g}" for edge in box),
        "aria-hidden": "true",
        "focusable": "false",
    }
    if stretched:
        root.set("preserveAspectRatio", "none")
    return ElementTree.tostring(root, encoding="unicode")
