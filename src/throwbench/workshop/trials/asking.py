"""Unlikely entries are asked about: each question beside its field, with the guess at hand."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from throwbench.formats.slips import likely_meant
from throwbench.records import Column, columns
from throwbench.science.errors import UnclearError
from throwbench.science.words import plain
from throwbench.workshop.trials.windows import AskedError


@dataclass(frozen=True, slots=True)
class Question:
    """One unlikely entry; `guess` is what was perhaps meant, in the unit of the field.

    `puts_out`: if it is so, the candle is put out at once.
    """

    field: str
    sentence: str
    guess: float | None = None
    unit: str = ""
    puts_out: bool = False

    @property
    def guess_words(self) -> str:
        return "" if self.guess is None else f"{plain(self.guess)} {self.unit}"


class QuestionsError(AskedError):
    """All that is asked about one entry."""

    def __init__(self, questions: Iterable[Question]) -> None:
        self.questions = tuple(questions)
        super().__init__(" ".join(question.sentence for question in self.questions))


def ask(questions: Iterable[Question], *, sure: bool) -> None:
    """Raises QuestionsError where something is unlikely and the maker is not `sure` yet."""
    found = list(questions)
    if found and not sure:
        raise QuestionsError(found)


def figures_asked(record: type, values: Mapping[str, Any]) -> list[Question]:
    """What is asked about the figures of a record, by the ranges that it declares itself.

    Raises
    ------
    UnclearError, QuestionsError
        A figure that is not possible; asked about, whoever is sure, where there is a guess.
    """
    known = {column.name: column for column in columns(record)}
    found = []
    for name, value in values.items():
        column = known[name]
        if isinstance(value, bool) or not isinstance(value, int | float):
            continue
        _possible(value, column)
        if column.usual and not column.usual[0] <= value <= column.usual[1]:
            found.append(_question(value, column))
    return found


def _possible(value: float, column: Column) -> None:
    if column.possible is None or column.possible[0] <= value <= column.possible[1]:
        return
    said = f"{_said(value, column)} possible is {_range(column.possible, column)}."
    guess = likely_meant(value, column)
    if guess is not None:
        raise QuestionsError([_guessed(said, guess, column)])
    raise UnclearError(said, "Nothing is noted.", "Check the figure and its unit.")


def _question(value: float, column: Column) -> Question:
    assert column.usual is not None
    said = f"{_said(value, column)} usual is {_range(column.usual, column)}."
    guess = likely_meant(value, column)
    if guess is not None:
        return _guessed(said, guess, column)
    return Question(column.name, f"{said} Measure again, or note it as it is.")


def _guessed(said: str, guess: float, column: Column) -> Question:
    meant = f"Did you mean {plain(guess)} {column.unit}?"
    if column.unit == "°C":
        meant = f"Was it read in °F? That is {plain(guess)} °C."
    return Question(column.name, f"{said} {meant}", guess, column.unit)


def _said(value: float, column: Column) -> str:
    return f"{column.label} is {plain(value)} {column.unit};"


def _range(ends: tuple[float, float], column: Column) -> str:
    return f"{plain(ends[0])} to {plain(ends[1])} {column.unit}"
