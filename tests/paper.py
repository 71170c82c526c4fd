"""What a printed document shows: its words, its ink in mm, its boxes, its codes."""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt
import pypdfium2
import pypdfium2.raw as pdfium
import zxingcpp

DPI = 300
MM = DPI / 25.4
"""Picture elements per mm."""
Ink = npt.NDArray[np.bool_]


def pages(made: bytes) -> list[str]:
    """The words of each page on one line, spaces plain and breaking places gone."""
    said = []
    for page in pypdfium2.PdfDocument(made):
        text = page.get_textpage().get_text_range()
        said.append(" ".join(text.replace("\u200b", "").replace("\u00a0", " ").split()))
    return said


def title(made: bytes) -> str:
    return str(pypdfium2.PdfDocument(made).get_metadata_dict()["Title"])


def grey(made: bytes, page: int, *, dpi: int = DPI) -> npt.NDArray[np.uint8]:
    """The page as printed, black 0 to white 255."""
    drawn = pypdfium2.PdfDocument(made)[page].render(scale=dpi / 72, grayscale=True)
    return np.array(drawn.to_numpy()).squeeze()


def ink(made: bytes, page: int, *, below: int = 128) -> Ink:
    """Where the page, printed at 300 dpi, is darker than a grey."""
    return grey(made, page) < below


def runs_mm(line: Ink) -> list[tuple[float, float]]:
    """Where ink begins and ends along a line [mm]."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(np.int8), [0]))))
    return [(begin / MM, end / MM) for begin, end in zip(edges[::2], edges[1::2], strict=True)]


def longest_mm(line: Ink) -> float:
    return max((end - begin for begin, end in runs_mm(line)), default=0.0)


def middles_mm(line: Ink) -> list[float]:
    return [(begin + end) / 2 for begin, end in runs_mm(line)]


def at(mm: float) -> int:
    """The row or column of the picture at so many mm."""
    return round(mm * MM)


def codes(made: bytes, page: int) -> list[zxingcpp.Barcode]:
    """The QR codes that a reader finds on the printed page."""
    return list(zxingcpp.read_barcodes(grey(made, page)))


def boxes_mm(made: bytes, page: int) -> list[tuple[float, float]]:
    """Width and height of each drawn path."""
    return [
        ((right - left) / 72 * 25.4, (top - bottom) / 72 * 25.4)
        for left, bottom, right, top in _bounds(made, page, pdfium.FPDF_PAGEOBJ_PATH)
    ]


def text_stays_mm(made: bytes) -> float:
    """The least distance of any text from an edge of its page."""
    least = np.inf
    for number, page in enumerate(pypdfium2.PdfDocument(made)):
        width, height = page.get_size()
        for left, bottom, right, top in _bounds(made, number, pdfium.FPDF_PAGEOBJ_TEXT):
            least = min(least, left, bottom, width - right, height - top)
    return float(least) / 72 * 25.4


def for_keeping(made: bytes) -> bool:
    """Whether it says PDF/A-2 and PDF/UA-1, and is tagged."""
    flat = made.replace(b"\n", b"")
    kept = b"<pdfaid:part>2</pdfaid:part>" in flat and b"<pdfuaid:part>1</pdfuaid:part>" in flat
    document = pypdfium2.PdfDocument(made)  # a name, so that it stays open
    return kept and pdfium.FPDFCatalog_IsTagged(document.raw) == 1


def _bounds(made: bytes, page: int, kind: int) -> Iterator[tuple[float, float, float, float]]:
    document = pypdfium2.PdfDocument(made)
    for item in document[page].get_objects(filter=[kind], max_depth=15):
        yield item.get_bounds()
