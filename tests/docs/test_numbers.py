"""The page of numbers tells every figure that stands as a constant in the code."""

import re
from pathlib import Path

import pytest

from throwbench.records import Score
from throwbench.rules.rule import rules
from throwbench.science.words import measured
from throwbench.verdict.scent import opinions_split

PACKAGE = Path(__file__).parents[2] / "src" / "throwbench"
PAGE = Path(__file__).parents[2] / "docs" / "reference" / "numbers.md"
CONSTANT = re.compile(r"^(_?[A-Z][A-Z0-9_]*)(?:: [^=\n]+)? = \(?(?:[-+]?\d|100 \*)", re.MULTILINE)


def row(page: str, name: str) -> list[str]:
    found = re.findall(rf"^\| `{name}` \| (.+) \|$", page, re.MULTILINE)
    return [cell.strip() for one in found for cell in one.split(" | ")]


def test_no_constant_of_the_four_rooms_is_missing_on_the_page(numbers):
    page = PAGE.read_text(encoding="utf-8")
    there = [
        (file.relative_to(PACKAGE).as_posix(), name)
        for room in numbers.ROOMS
        for file in (PACKAGE / room).rglob("*.py")
        for name in CONSTANT.findall(file.read_text(encoding="utf-8"))
    ]
    assert len(there) > 40
    assert [one for one in there if not re.search(rf"`{one[1]}`.*`{one[0]}`", page)] == []


def test_the_value_on_the_page_is_that_of_the_code():
    page = PAGE.read_text(encoding="utf-8")
    # definition: read off the code by hand
    assert row(page, "TUNNEL_SHARE")[0] == "0.85"
    assert row(page, "CHECK_LATE_H")[0] == "10 min"
    assert row(page, "LITTLE_AIR_MIN")[0] == "5 min"
    assert row(page, "NOTED")[0] == "0.5"
    assert row(page, "SURE")[0] == "0.9"
    assert row(page, "REPLICATED")[0] == "1.5"
    assert row(page, "EARLY_SNIFFS")[0] == "3"
    assert row(page, "USUAL_RATE_G_H")[0] == "2 to 15 g/h"


def test_every_figure_has_a_sentence_and_no_sentence_is_left_over(numbers):
    found = list(numbers.figures())
    assert all(one.words.endswith(".") for one in found)
    assert set(numbers.WORDS) <= {f"{one.file} {one.name}" for one in found}


def test_a_figure_that_nothing_is_said_of_is_refused(numbers):
    silent = numbers.Figure(file="science/x.py", name="SILENT", value=1.0, said="")
    with pytest.raises(LookupError, match="nothing says what SILENT does"):
        _ = silent.words


@pytest.mark.parametrize(
    ("name", "value", "shown"),
    [
        ("LONGEST_RULE_H", 4, "4 h"),
        ("CLOCK_STEP_H", 1 / 60, "1 min"),
        ("USUAL_RATE_G_H", (2.0, 15.0), "2 to 15 g/h"),
        ("LARGEST_BYTES", 100_000_000, "100,000,000 bytes"),
        ("HOT_FROM", {"vessel_c": 140.0, "room_c": 40.0}, "vessel_c: 140, room_c: 40"),
        ("LOT", 1e-9, "0.000000001"),
    ],
)
def test_a_value_is_shown_with_the_unit_of_its_name(numbers, name, value, shown):
    figure = numbers.Figure(file="science/x.py", name=name, value=value, said="")
    assert figure.shown == shown  # definition


def test_an_allowance_stands_beside_its_limit():
    page = PAGE.read_text(encoding="utf-8")
    generous = [rule for rule in rules() if rule.allowance]
    assert generous
    for rule in generous:
        allowed = measured(rule.allowance, rule.unit)
        assert f"with an allowance of {allowed}" in row(page, rule.id)[1]


def test_loved_is_the_top_quarter_of_the_scale_as_the_page_says(score_of):
    assert "top quarter of the scale" in " ".join(PAGE.read_text(encoding="utf-8").split())
    # definition: a quarter of 1 to 5 is one step, so 4 is loved, 3 is not, 2 is disliked
    given = {"a": 4, "b": 5, "c": 2, "d": 1}
    assert opinions_split(score_of(given), "Fog", (1, 5)) == "loved by 2, disliked by 2"
    assert opinions_split(score_of(given | {"a": 3}), "Fog", (1, 5)) is None


@pytest.fixture
def score_of():
    def made(given):
        return [
            Score(
                candle="F1",
                candidate="Fog",
                assessor=nose,
                room="loft",
                sitting="1",
                attribute="liking",
                score=score,
            )
            for nose, score in given.items()
        ]

    return made
