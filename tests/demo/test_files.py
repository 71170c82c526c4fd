"""The shipped example: exactly what the default seed gives, and read without a refusal."""

from dataclasses import replace
from importlib.resources import files

import pytest
from click.testing import CliRunner

from throwbench.demo import DEFAULT_SEED, generate
from throwbench.demo.__main__ import command
from throwbench.demo.files import texts, write
from throwbench.demo.plan import INSIDE_MM
from throwbench.formats import (
    questions_across,
    read_burns,
    read_combinations,
    read_scores,
    read_theme,
)

SHIPPED = files("throwbench.demo") / "example"


@pytest.fixture(scope="module")
def example():
    return generate()


@pytest.mark.parametrize("name", ["scores.csv", "burns.csv", "candles.csv", "one-of.csv"])
def test_the_shipped_file_is_that_of_the_default_seed_byte_for_byte(example, name):
    assert (SHIPPED / name).read_bytes() == texts(example)[name].encode()


def test_nothing_else_is_shipped(example):
    assert {path.name for path in SHIPPED.iterdir()} == set(texts(example))


def test_the_same_seed_gives_the_same_trial_and_another_seed_another(example):
    assert generate(seed=DEFAULT_SEED) == example
    other = generate(seed=DEFAULT_SEED + 1)
    assert other.scores != example.scores
    assert other.burns != example.burns
    assert other.combinations == example.combinations


def without_lines(rows):
    """Records as they were before a file gave each its line."""
    return tuple(
        replace(row, line=0, checks=tuple(replace(check, line=0) for check in row.checks))
        if hasattr(row, "checks")
        else replace(row, line=0)
        for row in rows
    )


def test_the_files_read_back_as_they_were_written_and_only_the_long_burn_is_asked_about(
    example, tmp_path
):
    write(example, tmp_path)
    scores = read_scores(tmp_path / "scores.csv")
    combinations = read_combinations(tmp_path / "candles.csv")
    theme = read_theme(tmp_path / "one-of.csv")
    inside_mm = {row.candle: INSIDE_MM for row in combinations.rows}
    burns = read_burns(tmp_path / "burns.csv", inside_mm=inside_mm)
    assert without_lines(scores.rows) == example.scores
    assert without_lines(burns.rows) == example.burns
    assert without_lines(combinations.rows) == example.combinations
    assert without_lines(theme.rows) == example.theme
    readings = (scores, burns, combinations, theme)
    asked = [problem for reading in readings for problem in reading.problems]
    assert [(problem.column, "4 h 50" in str(problem)) for problem in asked] == [("out_at", True)]
    across = questions_across(scores=scores, burns=burns, combinations=combinations, theme=theme)
    assert across == ()


def test_the_module_writes_the_files_of_the_seed_it_is_given(tmp_path):
    folder = tmp_path / "new" / "folder"
    told = CliRunner().invoke(command, [str(folder), "--seed", "7"])
    assert told.exit_code == 0
    assert told.output.split() == [str(folder / name) for name in texts(generate())]
    written = {path.name: path.read_text(encoding="utf-8") for path in folder.iterdir()}
    assert written == dict(texts(generate(seed=7)))
