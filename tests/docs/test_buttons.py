"""What a page about the workshop tells a maker to press stands on the pages of the workshop."""

import html
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "throwbench"
HOW_TO = ROOT / "docs" / "how-to"
PAGES = [
    ROOT / "docs" / "tutorial-workshop.md",
    *(
        HOW_TO / f"{name}.md"
        for name in (
            "alarm",
            "begin-a-workshop",
            "burn-round",
            "export",
            "laptop-bench",
            "panel",
            "phone",
            "photo",
            "pour-day-by-clicks",
            "put-right",
        )
    ),
]


def plain(words: str) -> str:
    """As it is read: no tags, no conditions, straight quotes, one line."""
    words = re.sub(r"<[^>]+>|{%.*?%}", " ", html.unescape(words)).replace("’", "'")
    return " ".join(words.split()).lower()


def pressed(page: Path) -> list[str]:
    """The words in bold; "…" stands for what differs."""
    told = re.findall(r"\*\*([^*]+?)\*\*", page.read_text(encoding="utf-8"))
    return [" ".join(words.split()).rstrip(".") for words in told]


@pytest.fixture(scope="module")
def workshop() -> str:
    files = [*PACKAGE.rglob("*.html"), *(PACKAGE / "web").rglob("*.py")]
    files += (PACKAGE / "workshop").rglob("*.py")
    return plain(" ".join(file.read_text(encoding="utf-8") for file in files))


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_what_is_to_be_pressed_is_there(page, workshop):
    missing = [
        words
        for words in pressed(page)
        if not all(plain(part) in workshop for part in re.split(r"…", words))
    ]
    assert missing == []
