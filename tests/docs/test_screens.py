"""The screenshots of the README: there, small, and told in words to who cannot see them."""

import re
import struct
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "README.md").read_text(encoding="utf-8")
SHOWN = dict(re.findall(r"!\[([^\]]*)\]\((docs/images/[^)]+)\)", PAGE))
TAKEN = re.findall(r'take\(page, "([\w-]+)"', (ROOT / "tools" / "screens.py").read_text())


def test_every_screenshot_that_is_taken_is_shown():
    assert len(TAKEN) == 3
    assert {f"docs/images/{name}.png" for name in TAKEN} <= set(SHOWN.values())


@pytest.mark.parametrize(("words", "image"), SHOWN.items(), ids=SHOWN.values())
def test_a_picture_says_in_words_what_it_shows(words, image):
    assert len(words.split()) > 10
    assert (ROOT / image).is_file()


@pytest.mark.parametrize(
    ("name", "wide"), [("verdict-laptop", 1280), ("today-phone", 720), ("score-phone", 720)]
)
def test_a_screenshot_is_sharp_enough_to_read_and_small_enough_to_load(name, wide):
    content = (ROOT / "docs" / "images" / f"{name}.png").read_bytes()
    width, _ = struct.unpack(">II", content[16:24])
    assert width >= wide
    assert len(content) < 500_000
