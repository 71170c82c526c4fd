"""Tags to cut out or stick on: for the shelf of cure, under the base, and in front of a candle.

Without any tag there is one empty sheet.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from throwbench.documents.bench import NOT_KNOWN, PT_PER_PX, PX_PER_MM, fitting_pt
from throwbench.documents.qr import qr
from throwbench.documents.slips import three_digits
from throwbench.documents.typeset import typeset
from throwbench.documents.widths import printable, wrap
from throwbench.documents.words import date_words
from throwbench.science.words import counted, plain

WIDTH_MM, HEIGHT_MM = 63.5, 38.1
"""Size of a tag: that of a usual sheet of 21 labels (from memory)."""
COLUMNS, ROWS = 3, 7
LEFT_MM, TOP_MM, GAP_MM = 7.2, 15.15, 2.55
"""Edges of that sheet, and what lies between its columns (from memory)."""
QR_MM = 30.0
"""Room for a QR code, its quiet zone with it."""
URL_PT, URL_MM, URL_LINES = 6.5, 27.0, 2
"""Size of the address under a code, how wide a line of it may be, and how many have room."""
CODE_MM = 27.0
"""Room for the printed code beside its QR code."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfTag:
    """A candle in its cure. `url` is where its page is; None is not known.

    With an empty `url` the tag has no square code.
    """

    code: str
    url: str
    poured_on: date | None = None
    cure_days: int | None = None

    @property
    def not_before(self) -> date | None:
        """The first day that counts as cured."""
        if self.poured_on is None or self.cure_days is None:
            return None
        return self.poured_on + timedelta(days=self.cure_days)


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeTag:
    """What is stuck under the base: the printed code, the oil, and where its page is."""

    code: str
    url: str
    oil: str = ""


def shelf_tags(tags: Sequence[ShelfTag], *, day: date) -> bytes:
    """Return the tags for the shelf of cure as a PDF; no oil stands on them.

    Raises
    ------
    UnclearError
        An address that is too long for a code of this size.
    TypesettingError
        The sheets cannot be set as they should be.
    """
    return _set("shelf", [_shelf(tag) for tag in tags], title="Shelf tags", day=day)


def code_tags(tags: Sequence[CodeTag], *, day: date) -> bytes:
    """Return the stickers for under the base as a PDF: the only ones that name the oil.

    Raises
    ------
    UnclearError
        An address that is too long for a code of this size.
    TypesettingError
        The sheets cannot be set as they should be.
    """
    return _set("code", [_code(tag) for tag in tags], title="Code tags", day=day)


def front_tags(tags: Sequence[str], *, day: date) -> bytes:
    """Return the tags for the front as a PDF: a sitting's own three digits and nothing else.

    Raises
    ------
    UnclearError
        A tag that is not three digits.
    TypesettingError
        The sheets cannot be set as they should be.
    """
    return _set("front", [{"tag": three_digits(tag)} for tag in tags], title="Tags", day=day)


def _set(kind: str, tags: list[dict[str, Any]], *, title: str, day: date) -> bytes:
    data = {
        "title": title,
        "day": [day.year, day.month, day.day],
        "kind": kind,
        "tags": tags,
        "grid": {
            "width": WIDTH_MM,
            "height": HEIGHT_MM,
            "columns": COLUMNS,
            "rows": ROWS,
            "left": LEFT_MM,
            "top": TOP_MM,
            "gap": GAP_MM,
        },
        "size": (
            f"Each {plain(WIDTH_MM)} × {plain(HEIGHT_MM)} mm, {COLUMNS * ROWS} on a sheet. "
            "Print at 100 %, nothing fitted to the page."
        ),
    }
    return typeset("tags.typ", data, form="pdf", day=day)


def _shelf(tag: ShelfTag) -> dict[str, Any]:
    cured = tag.not_before
    poured = NOT_KNOWN if tag.poured_on is None else date_words(tag.poured_on)
    cure = NOT_KNOWN if tag.cure_days is None else counted(tag.cure_days, "day")
    return {
        **_coded(tag.code, tag.url, most_pt=24),
        "lines": [f"poured: {poured}", f"cure: {cure}"],
        "not_before": "" if cured is None else date_words(cured),  # then there is a line for a pen
    }


def _code(tag: CodeTag) -> dict[str, Any]:
    return {**_coded(tag.code, tag.url, most_pt=32), "oil": printable(tag.oil)}


def _coded(code: str, url: str, *, most_pt: float) -> dict[str, Any]:
    return {
        "code": printable(code),
        "code_pt": fitting_pt(code, most_pt=most_pt, within_mm=CODE_MM),
        "qr": _drawn(url) if url else None,
        "url": _short(url),
        "url_pt": URL_PT,
    }


def _drawn(url: str) -> dict[str, Any]:
    drawn = qr(url, within_mm=QR_MM)
    return {"svg": drawn.svg, "size": drawn.size_mm, "alt": printable(f"QR code: {url}")}


def _short(url: str) -> list[str]:
    """The address in the lines that fit under its code; a longer one is not typed by hand."""
    said = url.partition("://")[2] or url
    lines = wrap(text=said, face="words", size_px=URL_PT / PT_PER_PX, within_px=URL_MM * PX_PER_MM)
    return list(lines) if len(lines) <= URL_LINES else []
