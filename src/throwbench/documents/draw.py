"""From the chart's data to an SVG that the screen shows and Typst sets."""

from typing import Any

import vl_convert


def svg(spec: dict[str, Any]) -> str:
    """Return the drawing of a Vega-Lite `spec`.

    Notes
    -----
    The texts stay text: the faces are chosen by who shows the drawing, and the documents show
    it with the shipped ones. Not to be called in a forked child, where the engine hangs.
    """
    drawn: str = vl_convert.vegalite_to_svg(spec)
    return drawn
