"""The repository stands alone: no address of an index, no folder of one machine."""

import os
import re
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
INDEX_WORDS = "pypi|pythonhosted|npmjs|debian"
INDEX_OPTIONS = "(?:extra-)?index-url|find-links|trusted-host"
FORBIDDEN = {
    "the host of a package index": rf"\b[\w.-]*(?:{INDEX_WORDS})[\w-]*\.(?:org|com|net)\b",
    "a folder of one machine": r"(?<![\w.~/])/(?:work|root|opt)/\w",
    "the shared folder beside the checkout": r"(?:\.\./|\bwork/)shared\b",
    "an option that names an index": rf"^\s*--(?:{INDEX_OPTIONS})\b[ =]\S*/",
}


def text_files() -> Iterator[Path]:
    """Yield the text files of the repository: all but what .gitignore leaves out."""
    ignored = [line.rstrip("/") for line in (ROOT / ".gitignore").read_text().split()] + [".git"]

    def kept(names: list[str]) -> list[str]:
        return [name for name in names if not any(fnmatch(name, left) for left in ignored)]

    for folder, folders, names in os.walk(ROOT):
        folders[:] = kept(folders)
        for name in kept(names):
            path = Path(folder, name)
            if b"\0" not in path.read_bytes():
                yield path


@pytest.mark.parametrize("what", FORBIDDEN)
def test_no_file_names(what):
    pattern = re.compile(FORBIDDEN[what], re.MULTILINE | re.IGNORECASE)
    found = [
        f"{path.relative_to(ROOT)}: {match.group().strip()}"
        for path in text_files()
        for match in pattern.finditer(path.read_text(encoding="utf-8", errors="replace"))
    ]
    assert found == []


@pytest.mark.parametrize(
    ("what", "line"),
    [
        ("the host of a package index", "see files." + "pythonhosted" + ".org"),
        ("a folder of one machine", "open('/" + "opt/wheels')"),
        ("the shared folder beside the checkout", "Path('.." + "/shared')"),
        ("an option that names an index", "--find-links" + " /somewhere/else"),
    ],
)
def test_each_pattern_finds_what_it_is_for(what, line):
    assert re.search(FORBIDDEN[what], line)


def test_the_walk_sees_this_file_and_the_lock():
    seen = set(text_files())
    assert Path(__file__) in seen
    assert ROOT / "requirements" / "run.txt" in seen
    assert not any(".venv" in path.parts for path in seen)
