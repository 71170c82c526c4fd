"""Texts are as wide as Typst sets them, and no line is longer than its column."""

import json

import pytest
import typst
from hypothesis import given
from hypothesis import strategies as st

from throwbench.documents.typeset import fonts
from throwbench.documents.widths import NO_LETTER, Face, printable, width_px, wrap

FACES: dict[Face, tuple[str, int]] = {
    "besley": ("Besley", 500),
    "words": ("Source Sans 3", 400),
    "words_strong": ("Source Sans 3", 600),
}
TEXTS = ("Vårrabarbra 114", "Kisbalog Illat űőŐŰ", "2 candles, 17 burns, to the end", "AVATAR Ty.")


MEASURE = b"""
#set text(font: sys.inputs.family, weight: int(sys.inputs.weight), kerning: sys.inputs.kern == "1")
#context [#metadata(measure(text(size: 100pt, ligatures: false, sys.inputs.text)).width.pt()) <w>]
"""


def measured_px(text: str, family: str, weight: int, *, kerned: bool) -> float:
    """Width as Typst lays it out, at 100 pt."""
    inputs = {"text": text, "family": family, "weight": str(weight), "kern": str(int(kerned))}
    said = typst.query(
        MEASURE, "<w>", field="value", one=True, font_paths=fonts(), sys_inputs=inputs
    )
    return float(json.loads(said))


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("text", TEXTS)
def test_a_text_is_as_wide_as_typst_sets_it(face: Face, text: str) -> None:
    # other program: typst's measure(text(size: 100pt, ..)).width; the shipped table has
    # thousandths of an em, so each letter may be off by half of one, 0.05 pt here.
    ours = width_px(text=text, face=face, size_px=100)
    assert ours == pytest.approx(
        measured_px(text, *FACES[face], kerned=False), abs=0.05 * len(text)
    )


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("text", TEXTS)
def test_kerning_never_makes_a_text_wider_than_its_column_is_planned(face: Face, text: str) -> None:
    # other program: the same measure, kerned as the documents are
    ours = width_px(text=text, face=face, size_px=100)
    assert measured_px(text, *FACES[face], kerned=True) < 1.01 * ours


@given(
    text=st.text(alphabet="abcdeåøűW .-1", min_size=1, max_size=80),
    within_px=st.integers(30, 300),
)
def test_no_line_is_longer_than_its_column_and_no_letter_is_lost(text: str, within_px: int) -> None:
    lines = wrap(text=text, face="besley", size_px=15, within_px=within_px)
    assert all(width_px(text=line, face="besley", size_px=15) <= within_px for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def test_a_character_without_a_letter_form_stands_as_a_square() -> None:
    assert printable("火 Űrrom\n2") == f"{NO_LETTER} Űrrom 2"


def test_a_letter_and_its_accent_become_one() -> None:
    assert printable("a\u030angstro\u0308m") == "ångström"
