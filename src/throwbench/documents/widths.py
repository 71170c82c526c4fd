"""How wide a text is in the shipped faces, and where to break it."""

import csv
import unicodedata
from functools import cache
from pathlib import Path
from typing import Literal

FONTS = Path(__file__).parent / "fonts"
Face = Literal["besley", "words", "words_strong"]

NO_LETTER = "□"
"""Stands where the shipped faces have no letter form; the table keeps the character itself."""


@cache
def _advances() -> dict[str, dict[str, int]]:
    with (FONTS / "widths.csv").open(encoding="utf-8", newline="") as lines:
        return {
            chr(int(row["character"], 16)): {
                face: int(row[face] or row["words"])
                for face in ("besley", "words", "words_strong")
                if row["words"]
            }
            for row in csv.DictReader(lines)
        }


def printable(text: str) -> str:
    """Return `text` on one line, with a square for each character that no shipped face has."""
    known = _advances()
    line = " ".join(unicodedata.normalize("NFC", text).split(" "))
    spaced = "".join(" " if letter in "\t\n\r\v\f" else letter for letter in line)
    return "".join(letter if known.get(letter) else NO_LETTER for letter in spaced)


def width_px(*, text: str, face: Face, size_px: float) -> float:
    """Return the width of `text` [px]: the sum of its advances, kerning left out.

    Notes
    -----
    A character that Besley lacks is set in Source Sans 3, as the documents do.

    Checked against: Typst's own measure of the same text, unkerned.
    """
    advances = _advances()
    return sum(advances[letter][face] for letter in printable(text)) * size_px / 1000.0


def wrap(*, text: str, face: Face, size_px: float, within_px: float) -> tuple[str, ...]:
    """Break `text` into lines of at most `within_px`; a word that is too long is cut."""
    lines: list[str] = []
    for word in _pieces(printable(text).split(" "), face=face, size_px=size_px, most=within_px):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_px(text=longer, face=face, size_px=size_px) <= within_px:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def _pieces(words: list[str], *, face: Face, size_px: float, most: float) -> list[str]:
    pieces = []
    for word in words:
        piece = ""
        for letter in word:
            if piece and width_px(text=piece + letter, face=face, size_px=size_px) > most:
                pieces.append(piece)
                piece = ""
            piece += letter
        pieces.append(piece)
    return pieces
