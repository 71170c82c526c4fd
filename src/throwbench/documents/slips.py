"""Slips for a panel on paper: one an assessor and tag. Nothing on them tells what is sniffed."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from throwbench.documents.bench import SPACE
from throwbench.documents.typeset import typeset
from throwbench.documents.widths import printable
from throwbench.documents.words import day_words
from throwbench.records.attribute import KINDS, Attribute
from throwbench.science.errors import UnclearError

MOST_STEPS = 11
"""So many answers have room side by side."""
A_SHEET = 3
CAUTION = "Don't take part if scent gives you headaches or asthma. Stop any time."


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One assessor at one tag; `room` is where it stands, `place` which of how many it is.

    How the nose is today is asked on the first slip of an assessor in a set.
    """

    assessor: str
    tag: str
    room: str = ""
    place: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipSet:
    """The slips of one panel in the order they are handed out; a scale from low to high."""

    day: date
    slips: tuple[Slip, ...]
    asks: str = "lit"
    scale: tuple[int, int] = (1, 5)
    clean_air_min: int = 5


def slips(made: SlipSet) -> bytes:
    """Return the slips as a PDF, three on a sheet, to be cut; without any, one empty sheet.

    Once the pile of sheets is cut and its thirds are laid on one another, the slips lie in their
    order.

    Raises
    ------
    UnclearError
        A tag that is not three digits, or a scale with more steps than a slip has room for.
    TypesettingError
        The sheets cannot be set as they should be.
    """
    low, high = made.scale
    steps = range(low, high + 1)
    if not 2 <= len(steps) <= MOST_STEPS:
        raise UnclearError(
            f"The scale is {low} to {high}.",
            f"A slip has room for 2 to {MOST_STEPS} steps.",
            "Use a shorter scale, or the phone handed round.",
        )
    firsts = {one.assessor: one for one in reversed(made.slips)}.values()
    data = {
        "title": "Slips",
        "day": [made.day.year, made.day.month, made.day.day],
        "day_words": day_words(made.day),
        "this": "This blotter" if made.asks == "blotter" else "This candle",
        "slips": [one and _slip(one, asks_nose=one in firsts) for one in in_piles(made.slips)],
        "questions": [_question(*one, steps) for one in KINDS[made.asks].asks],
        "caution": CAUTION,
        "after": _after(made.clean_air_min),
    }
    return typeset("slips.typ", data, form="pdf", day=made.day)


def three_digits(tag: str) -> str:
    """Return the tag itself, where it is three digits.

    Raises
    ------
    UnclearError
        Where it is not: it might be a candle's own code, which tells.
    """
    if not (len(tag) == 3 and tag.isascii() and tag.isdecimal()):
        raise UnclearError(
            f"The tag is '{tag}'.",
            "A tag in front of a candle is three digits: 417.",
            "Give the sitting's own tag, never the code of the candle.",
        )
    return tag


def in_piles(made: Sequence[Slip]) -> list[Slip | None]:
    """Sheet by sheet from the top; the last pile may lack some."""
    sheets = -(-len(made) // A_SHEET)
    padded = [*made, *[None] * (sheets * A_SHEET - len(made))]
    return [padded[pile * sheets + sheet] for sheet in range(sheets) for pile in range(A_SHEET)]


def _slip(one: Slip, *, asks_nose: bool) -> dict[str, Any]:
    return {
        "assessor": printable(one.assessor),
        "tag": three_digits(one.tag),
        "room": printable(one.room),
        "nth": "" if one.place is None else f"{one.place[0]} of {one.place[1]}",
        "asks-nose": asks_nose,
    }


def _question(asked: Attribute, hint: str, steps: Sequence[int]) -> dict[str, Any]:
    """The words stand in the answers where there are five, else the outer two beside them."""
    words = asked.steps
    if len(steps) == len(words):
        answers = [[str(step), word] for step, word in zip(steps, words, strict=True)]
        return {"said": asked.said, "hint": hint, "answers": answers}
    ends = f"{steps[0]}: {words[0]}, {steps[-1]}: {words[-1]}"
    hints = "; ".join(part for part in (hint, ends) if part)
    return {"said": asked.said, "hint": hints, "answers": [[str(step), ""] for step in steps]}


def _after(clean_air_min: int) -> str:
    first = "Your first nose is right: do not go back."
    if clean_air_min == 0:
        return first
    return f"{first} Then {clean_air_min}{SPACE}min of clean air."
