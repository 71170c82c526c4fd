"""A square code says what it was given, drawn as a page may draw it."""

import io
import re

import segno
import zxingcpp
from PIL import Image

from throwbench.workshop.house.square_code import square_code

LINK = "http://192.0.2.20:8650/sign-in/abcDEF123_-abcDEF123_-abcDEF1234/"


def test_a_reader_reads_the_link():
    drawn = io.BytesIO()
    segno.make(LINK, error="m", micro=False).save(drawn, kind="png", scale=6, border=4)
    (read,) = zxingcpp.read_barcodes(Image.open(drawn))
    assert read.text == LINK


def test_the_page_draws_the_same_code_without_styles():
    drawn = square_code(LINK)
    same = segno.make(LINK, error="m", micro=False).svg_inline(border=4)
    dark = re.search(r'class="qrline"[^>]* d="([^"]+)"', drawn)
    assert dark is not None
    assert dark[1] in same
    assert "style" not in drawn
    assert 'fill="#fff"' in drawn
