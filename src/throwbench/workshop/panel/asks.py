"""What is asked in each kind of panel, on the phone as on the printed slip."""

from dataclasses import dataclass

from throwbench.documents.slips import QUESTIONS, Question
from throwbench.workshop.panel.models import Asks, Attribute
from throwbench.workshop.trials.models import Trial

UNIQUENESS = Question(
    said="How much does it stand apart?",
    hint="from what others sell",
    words=("not at all", "a little", "half", "clearly", "like no other"),
)
ATTRIBUTES: dict[str, tuple[Attribute, ...]] = {
    Asks.LIT: (Attribute.LIKING, Attribute.HOT_THROW),
    Asks.UNLIT: (Attribute.COLD_THROW,),
    Asks.LIKENESS: (Attribute.LIKENESS,),
    Asks.BLOTTER: (Attribute.LIKING, Attribute.COLD_THROW),
    Asks.UNIQUENESS: (Attribute.UNIQUENESS,),
}
"""In the order in which they are asked: liking comes before strength."""
HAS_SLIPS = tuple(QUESTIONS)
"""Kinds of panel that have a slip to print; uniqueness is the maker's own question."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One question, with a step and its word for each answer; the words may be empty."""

    attribute: str
    said: str
    hint: str
    answers: tuple[tuple[int, str], ...]


def asked(asks: str, trial: Trial) -> tuple[Asked, ...]:
    """The questions of a panel on the scale of its trial."""
    questions = (UNIQUENESS,) if asks == Asks.UNIQUENESS else QUESTIONS[asks]  # type: ignore[index]
    steps = range(trial.scale_low, trial.scale_high + 1)
    return tuple(
        _asked(attribute, question, steps)
        for attribute, question in zip(ATTRIBUTES[asks], questions, strict=True)
    )


def _asked(attribute: Attribute, question: Question, steps: range) -> Asked:
    """On another scale than the words have steps, only its two ends carry words."""
    words = question.words
    if len(words) != len(steps):
        words = (words[0], *("" for _ in steps[2:]), words[-1])
    return Asked(
        attribute=attribute,
        said=question.said,
        hint=question.hint,
        answers=tuple(zip(steps, words, strict=True)),
    )
