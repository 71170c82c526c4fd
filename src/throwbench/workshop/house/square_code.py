"""A square code that a phone's camera reads, drawn for a page."""

import segno
from django.utils.safestring import SafeString


def square_code(text: str) -> SafeString:
    """The code as SVG, dark on white in either light, with the quiet zone it needs."""
    code = segno.make(text, error="m", micro=False)
    return SafeString(code.svg_inline(border=4, light="#fff", omitsize=True, svgclass="square"))
