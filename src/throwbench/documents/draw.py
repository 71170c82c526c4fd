"""From the chart's data to an SVG that the screen shows and Typst sets."""

import re
from typing import Any

import vl_convert

_NOT_XML = re.compile(r"[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What no SVG can hold, such as a control character pasted into a name."""


def svg(spec: dict[str, Any]) -> str:
    """Return the drawing of a Vega-Lite `spec`.

    Notes
    -----
    The texts stay text: the faces are chosen by who shows the drawing, and the documents show
    it with the shipped ones. Not to be called in a forked child, where the engine hangs. A
    character that XML does not have would end the whole process; a question mark stands for it.
    """
    drawn: str = vl_convert.vegalite_to_svg(_drawable(spec))
    return drawn


def _drawable(value: Any) -> Any:
    if isinstance(value, str):
        return _NOT_XML.sub("\N{REPLACEMENT CHARACTER}", value)
    if isinstance(value, dict):
        return {key: _drawable(inner) for key, inner in value.items()}
    return [_drawable(inner) for inner in value] if isinstance(value, list | tuple) else value
