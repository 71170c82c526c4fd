"""One word per thing, and one word never: what a candle did in tests is all that may be said."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "throwbench"

NEVER_SPOKEN = ["safe", "safely", "approved", "foolproof"]
"""Promises that a test burn cannot keep; identifiers (`safe_load`) are another matter."""

OTHER_WORD = {
    "jar": "vessel",
    "tester": "assessor",
    "smell score": "cold throw or hot throw",
    "session": "burn or sitting",
    "vote": "score",
    "SKU": "product",
}
"""Words for which the house has another, in code, comments and speech."""

ANOTHER_HOUSES_WORD = re.compile(
    r"\b(request|client)\.session\b|contrib\.sessions|SessionMiddleware|SESSION_[A-Z_]+"
    r"|\bsession_key\b"
)
"""Names that the web library gave to what it keeps of a browser."""

ONLY_IN_SPEECH = {"sample": "test candle", "project": "trial"}
"""Words that statistics and algebra need in code, but that the maker never meets."""


def parts_of_speech(path: Path) -> Iterator[str]:
    """Yield what a file can say to the maker: string constants, or all of a data file."""
    if path.suffix != ".py":
        yield path.read_text(encoding="utf-8")
        return
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docstrings = set() if "cli" in path.parts else set(docstring_constants(tree))
    for node in set(ast.walk(tree)) - docstrings:
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def docstring_constants(tree: ast.Module) -> Iterator[ast.Constant]:
    """Yield strings that stand alone: for the reader of the code (a command's are its help)."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield node.value


def package_files(*suffixes: str) -> list[Path]:
    return [path for path in sorted(PACKAGE.rglob("*")) if path.suffix in suffixes]


def as_word(word: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![a-z]){word}s?(?![a-z])", re.IGNORECASE)


@pytest.mark.parametrize("word", [*NEVER_SPOKEN, *ONLY_IN_SPEECH])
def test_the_maker_never_hears(word):
    pattern = re.compile(rf"\b{word}s?\b", re.IGNORECASE)
    heard = [
        f"{path.relative_to(ROOT)}: {speech[:80]!r}"
        for path in package_files(".py", ".yaml", ".typ", ".csv", ".html", ".js")
        for speech in parts_of_speech(path)
        if pattern.search(speech)
    ]
    assert heard == []


@pytest.mark.parametrize("word", OTHER_WORD)
def test_the_house_says_its_own_word_for(word):
    found = [
        f"{path.relative_to(ROOT)}: say {OTHER_WORD[word]}"
        for path in package_files(".py", ".yaml", ".typ", ".csv", ".html", ".js")
        if as_word(word).search(ANOTHER_HOUSES_WORD.sub("", path.read_text(encoding="utf-8")))
    ]
    assert found == []


def test_an_identifier_may_hold_the_word_but_a_sentence_may_not(tmp_path):
    module = tmp_path / "module.py"
    module.write_text('"""Not safe."""\nyaml.safe_load(x)\nsay(f"{oil} is safe")\n')
    assert list(parts_of_speech(module)) == [" is safe"]
