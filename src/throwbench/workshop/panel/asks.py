"""What is asked in each kind of panel, on the phone as on the printed slip."""

from dataclasses import dataclass

from throwbench.records.attribute import KINDS, Attribute
from throwbench.workshop.trials.models import Trial


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One question, with a step and its word for each answer; the words may be empty."""

    attribute: str
    said: str
    hint: str
    answers: tuple[tuple[int, str], ...]


def asked(asks: str, trial: Trial) -> tuple[Asked, ...]:
    """The questions of a panel on the scale of its trial."""
    steps = range(trial.scale_low, trial.scale_high + 1)
    return tuple(_asked(attribute, hint, steps) for attribute, hint in KINDS[asks].asks)


def _asked(attribute: Attribute, hint: str, steps: range) -> Asked:
    """On another scale than the words have steps, only its two ends carry words."""
    words = attribute.steps
    if len(words) != len(steps):
        words = (words[0], *("" for _ in steps[2:]), words[-1])
    return Asked(
        attribute=attribute.name,
        said=attribute.said,
        hint=hint,
        answers=tuple(zip(steps, words, strict=True)),
    )
