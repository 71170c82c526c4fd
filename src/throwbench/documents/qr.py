"""QR codes that a phone reads from paper, in mm."""

from dataclasses import dataclass
from io import BytesIO

import segno

from throwbench.science.errors import UnclearError

QUIET = 4
"""Modules of white around a code (ISO/IEC 18004, from memory)."""
LEAST_MM, MOST_MM = 0.5, 0.8
"""Side of a module [mm]: the least is a house rule, so that any printer draws it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class QrCode:
    """A drawing with its quiet zone, the side of it and of one module [mm]."""

    svg: str
    size_mm: float
    module_mm: float


def qr(text: str, *, within_mm: float) -> QrCode:
    """Return `text` as a QR code of error level M, as large as it may be.

    Raises
    ------
    UnclearError
        So much text that its modules would be under 0.5 mm.
    """
    code = segno.make_qr(text, error="m", boost_error=False)
    across, _ = code.symbol_size(border=QUIET)
    module_mm = min(within_mm / across, MOST_MM)
    if module_mm < LEAST_MM:
        raise UnclearError(
            f"'{text}' has {len(text)} characters.",
            f"A code of {within_mm:g} mm has room for {int(within_mm / LEAST_MM)} modules "
            f"across, and this one has {across}.",
            "Give the workshop a shorter address.",
        )
    drawn = BytesIO()
    code.save(drawn, kind="svg", border=QUIET, xmldecl=False, nl=False, omitsize=True)
    return QrCode(svg=drawn.getvalue().decode(), size_mm=module_mm * across, module_mm=module_mm)
