"""What could not be read, was held back, or is asked about: a row per problem, not an exception."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Generic, Literal, TypeVar

Outcome = Literal["refused", "held back", "asked"]
"""refused: the row, or where the sentence says so the cell, is left out.
held back: the cell counts as empty until the maker answers. asked: used as written."""

LISTED = 100
"""So many problems of one outcome are listed; a file of noise has more than anyone reads."""

T = TypeVar("T")


class UnreadableFile(Exception):  # noqa: N818 (a state of the file, not a fault of the program)
    """The file as a whole gives no row. `sentence` says why, and what to do."""

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One problem of one file. `line` is 0 where it concerns no single line."""

    file: str
    line: int
    column: str
    value: str
    outcome: Outcome
    sentence: str

    def __str__(self) -> str:
        line = f"line {self.line}" if self.line else ""
        places = ", ".join(part for part in (self.file, line, self.column) if part)
        return f"{places}: {self.sentence}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading(Generic[T]):
    """The rows of one file, and what was wrong with the others."""

    rows: tuple[T, ...]
    problems: tuple[Problem, ...] = ()
    file: str = ""
    unread: Mapping[str, str] = field(default_factory=dict)
    """In a burn log, by candle: what could not be read and may hide a broken limit."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with a value, wherever it stands. The words are made only if listed."""

    outcome: Outcome
    words: str | Callable[[], str]

    def sentence(self) -> str:
        return self.words if isinstance(self.words, str) else self.words()


@dataclass(frozen=True, slots=True)
class Note:
    """A fault with its place in the file. `times` counts the notes that it stands for."""

    line: int
    column: str
    value: str
    fault: Fault
    times: int = 1


class Notes:
    """Notes in the order of their lines. Of those too many to be listed only the number is kept."""

    def __init__(self) -> None:
        self._listed: list[Note] = []
        self._counts: Counter[Outcome] = Counter()
        self._last: dict[Outcome, Note] = {}

    def add(self, line: int, column: str, value: str, fault: Fault) -> None:
        outcome = fault.outcome
        self._counts[outcome] += 1
        if self._counts[outcome] <= LISTED:
            self._listed.append(Note(line, column, value, fault))
        elif self._counts[outcome] == LISTED + 1:
            self._last[outcome] = Note(line, column, value, fault)

    def all(self) -> list[Note]:
        """The notes, with one of each outcome standing for those that are only counted."""
        return [
            *self._listed,
            *(
                replace(note, times=self._counts[outcome] - LISTED)
                for outcome, note in self._last.items()
            ),
        ]


def shown(text: str, *, most: int = 40) -> str:
    """A cell's text as a sentence can quote it: short, and without control characters."""
    plain = "".join(
        letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in text[:most]
    )
    return plain if len(text) <= most else plain + "…"


def problems_of(file: str, notes: Iterable[Note]) -> tuple[Problem, ...]:
    """The notes as problems in the order of the lines; beyond `LISTED` of one outcome, a count."""
    counts: Counter[Outcome] = Counter()
    problems = []
    for note in sorted(notes, key=lambda note: note.line):
        counts[note.fault.outcome] += note.times
        if counts[note.fault.outcome] <= LISTED:
            problems.append(_problem(file, note))
    problems += [
        _uncounted(file, outcome, count - LISTED)
        for outcome, count in counts.items()
        if count > LISTED
    ]
    return tuple(problems)


def _problem(file: str, note: Note) -> Problem:
    return Problem(
        file=file,
        line=note.line,
        column=note.column,
        value=shown(note.value),
        outcome=note.fault.outcome,
        sentence=note.fault.sentence(),
    )


def _uncounted(file: str, outcome: Outcome, more: int) -> Problem:
    words = "are asked about" if outcome == "asked" else f"are {outcome}"
    return Problem(
        file=file,
        line=0,
        column="",
        value=str(more),
        outcome=outcome,
        sentence=f"{more:,} more {words} and not listed; the first {LISTED} are: "
        "correct those and read the file again.",
    )
