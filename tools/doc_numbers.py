"""Every figure that stands as a constant in the code, with what it does, for the page of numbers.

What a figure does is the sentence under it in the code. Where the name says enough for who reads
the code but not for who reads the page, the sentence stands here.
"""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from importlib import import_module
from itertools import pairwise
from pathlib import Path
from typing import Any

PACKAGE = Path(__file__).resolve().parents[1] / "src" / "throwbench"
ROOMS = ("verdict", "formats", "rules", "science")
UNITS = {
    "_G_ML": "g/ml",
    "_KJ_G": "kJ/g",
    "_G_H": "g/h",
    "_PERCENT": "%",
    "_BYTES": "bytes",
    "_MIN": "min",
    "_MM": "mm",
    "_G": "g",
    "_H": "h",
    "_C": "°C",
}
WORDS = {
    "verdict/burns_well.py LAST_SHARE": "Burns lit with no more of the wax overrule those.",
    "verdict/noses.py SURE": "Chance from which a habit is worth a word (our choice).",
    "verdict/reasons.py A_STEP": (
        "Steps between hot and cold throw, or before and after the cure, from which an oil is "
        "said to be loud in the cold, modest in the cold, or weak before its cure (our choice)."
    ),
    "formats/burn_questions.py SHORTEST_H": "A shorter burn is asked about.",
    "formats/burn_questions.py USUAL_RATE_G_H": "A burn rate outside is asked about.",
    "formats/burn_questions.py OFF_THE_HOUR_H": "A check further off its hour is asked about.",
    "formats/burn_questions.py ONE_MINUTE_H": (
        "A check later than this after the end of its burn is held back."
    ),
    "formats/burn_questions.py POOL_SHRINKS_MM": (
        "A melt pool that shrinks by more from check to check is asked about."
    ),
    "formats/candle_questions.py BETWEEN_BURNS_G": (
        "A larger change of mass between two burns is asked about."
    ),
    "formats/scores.py FIVE_STEPS": "The scale, if nobody names it and all scores lie in it.",
    "formats/table.py LARGEST_BYTES": "A larger file is refused.",
    "science/batch.py RESIDUE_LIMITS_G": "Possible weight of what stays in a vessel or pitcher.",
    "science/dose.py STEP_LIMITS_G": "Possible step of a scale.",
    "science/dose.py PARTS_LIMITS": "Possible parts of one oil in a blend.",
    "science/fill.py USUAL_WATER_C": "Taken for the water of a fill where nobody says.",
    "science/fill.py WATER_LIMITS_C": "Possible temperature of that water.",
    "science/fill.py DENSITY_LIMITS_G_ML": "Possible density of a wax.",
    "science/fill.py INSIDE_LIMITS_MM": "Possible inside measure of a vessel.",
    "science/load.py LOAD_LIMITS_PERCENT": "Possible load of wax.",
    "science/load.py SHARE_LIMITS_PERCENT": "The same as a share of total.",
    "science/load.py WEIGHT_LIMITS_G": "Possible weight of wax, oil or pour.",
    "science/pool.py MM_PER_RULE_HOUR": (
        "Millimetres of inside diameter for an hour of the time rule (common practice)."
    ),
    "science/pool.py LONGEST_RULE_H": "The time rule gives no more (common practice).",
    "science/units.py G_PER_LB": "Grams of a pound (definition).",
    "science/units.py G_PER_OZ": "Grams of an ounce (definition).",
    "science/units.py MM_PER_IN": "Millimetres of an inch (definition).",
    "science/units.py ML_PER_US_FL_OZ": "Millilitres of a US fluid ounce (definition).",
    "science/units.py PERCENT_PER_OZ_PER_LB": "Load of wax of one ounce per pound (definition).",
    "science/sensory/spreads.py AT_A_TIME": "Draws that are worked on together.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One constant: the file it stands in, its name, its value and the sentence under it."""

    file: str
    name: str
    value: Any
    said: str

    @property
    def words(self) -> str:
        """What it does.

        Raises
        ------
        LookupError
            Nobody said it.
        """
        words = WORDS.get(f"{self.file} {self.name}", self.said)
        if not words:
            raise LookupError(
                f"{self.file}: nothing says what {self.name} does. Each figure needs a sentence. "
                "Put one under it."
            )
        return words

    @property
    def shown(self) -> str:
        """The value with its unit; what is less than an hour in minutes."""
        if isinstance(self.value, dict):
            return ", ".join(f"{name}: {_plain(value)}" for name, value in self.value.items())
        unit = next((unit for end, unit in UNITS.items() if self.name.endswith(end)), "")
        ends = self.value if isinstance(self.value, tuple) else (self.value,)
        if unit == "h" and max(ends) < 1:
            unit, ends = "min", tuple(60 * end for end in ends)
        return f"{' to '.join(map(_plain, ends))} {unit}".strip()


def figures() -> Iterator[Figure]:
    """Every constant of the rooms that is a number, or some of them."""
    for room in ROOMS:
        for file in sorted((PACKAGE / room).rglob("*.py")):
            yield from _figures_of(file)


def _figures_of(file: Path) -> Iterator[Figure]:
    place = file.relative_to(PACKAGE.parent).with_suffix("")
    body = ast.parse(file.read_text(encoding="utf-8")).body
    for line, below in pairwise([*body, ast.Pass()]):
        name = _name_of(line)
        if name is None:
            continue
        value = getattr(import_module(".".join(place.parts)), name)
        if _is_figure(value):
            yield Figure(
                file=file.relative_to(PACKAGE).as_posix(),
                name=name,
                value=value,
                said=_sentence(below),
            )


def _name_of(line: ast.stmt) -> str | None:
    """The name of a constant, if the line sets one that other rooms may read."""
    targets = line.targets if isinstance(line, ast.Assign) else [getattr(line, "target", None)]
    name = targets[0].id if isinstance(targets[0], ast.Name) else ""
    return name if name.isupper() else None


def _is_figure(value: Any) -> bool:
    many = value.values() if isinstance(value, dict) else value
    parts = many if isinstance(value, tuple | dict) else (value,)
    return bool(parts) and all(type(part) in (int, float) for part in parts)


def _sentence(below: ast.stmt) -> str:
    said = below.value.value if isinstance(below, ast.Expr) else None  # type: ignore[attr-defined]
    return " ".join(said.split()) if isinstance(said, str) else ""


def _plain(value: float) -> str:
    if isinstance(value, int):
        return f"{value:,}"
    return f"{Decimal(f'{value:.6g}'):,f}"
