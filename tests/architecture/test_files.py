"""Small files, and functions that say where their figures come from."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "throwbench"
MODULES = sorted(path for path in PACKAGE.rglob("*.py") if path.parent.name != "migrations")
"""Migrations are written by the web library."""
COMPUTING = (ast.Mult, ast.Div, ast.Pow, ast.MatMult)


def name_of(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


def public_functions(path: Path) -> Iterator[ast.FunctionDef]:
    for node in ast.parse(path.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node


def computes(function: ast.FunctionDef) -> bool:
    """Tell whether a function multiplies, divides or raises to a power, and not just into words."""
    if function.returns is not None and ast.unparse(function.returns) == "str":
        return False
    return any(
        isinstance(node, ast.BinOp) and isinstance(node.op, COMPUTING)
        for node in ast.walk(function)
    )


def says_why_it_is_believed(docstring: str | None) -> bool:
    return any(word in (docstring or "") for word in ("References\n", "Checked against"))


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_file_has_at_most_three_hundred_lines(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 300


@pytest.mark.parametrize("path", MODULES, ids=name_of)
def test_a_file_begins_by_saying_what_it_is(path):
    code = path.read_text(encoding="utf-8")
    assert code == "" or ast.get_docstring(ast.parse(code))


@pytest.mark.parametrize(
    "path",
    [path for path in MODULES if {"science", "rules"} & set(path.relative_to(PACKAGE).parts)],
    ids=name_of,
)
def test_a_function_that_computes_names_its_source_or_its_check(path):
    """It does so itself, or the head of its file does so for all."""
    if says_why_it_is_believed(ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))):
        return
    silent = [
        function.name
        for function in public_functions(path)
        if computes(function) and not says_why_it_is_believed(ast.get_docstring(function))
    ]
    assert silent == []
