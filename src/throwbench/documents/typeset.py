"""Typst with the shipped faces and nothing else; a warning is an error."""

import json
from collections.abc import Mapping
from datetime import UTC, date, datetime
from functools import cache
from typing import TYPE_CHECKING, Any, Literal

import typst

from throwbench.documents.widths import FONTS

if TYPE_CHECKING:
    from typst import PDFStandard

PDF_STANDARDS: "list[PDFStandard]" = ["a-2a", "ua-1"]
"""For keeping (PDF/A) and for who reads with a screen reader (PDF/UA)."""

PICTURE_PPI = 192.0
"""Two picture elements per CSS px."""


class TypesettingError(RuntimeError):
    """Typst warned. The document might differ from what it should be, so there is none."""


@cache
def fonts() -> typst.Fonts:
    return typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONTS)]
    )


def typeset(
    template: str, data: Mapping[str, Any], *, form: Literal["pdf", "png"], day: date
) -> bytes:
    """Set `data` with the shipped `template`.

    Notes
    -----
    The data travels as JSON, never as markup: no name of an oil can be read as a command.
    The same data and day give the same bytes.

    Raises
    ------
    TypesettingError
        Typst warned, of an unknown font for example.
    """
    made, warnings = typst.compile_with_warnings(
        str(FONTS.parent / template),
        root=str(FONTS.parent),
        font_paths=fonts(),
        sys_inputs={"data": json.dumps(data)},
        format=form,
        ppi=PICTURE_PPI if form == "png" else None,
        pdf_standards=PDF_STANDARDS if form == "pdf" else [],
        timestamp=datetime(day.year, day.month, day.day, tzinfo=UTC),
    )
    if warnings:
        said = "; ".join(warning.message for warning in warnings)
        raise TypesettingError(
            f"{template} was set with warnings: {said}. A document may not differ from its "
            "template. Mend the template, or put the missing font back into documents/fonts."
        )
    return made
