"""What to sniff next, from where the candidates stand: for a verdict and for one attribute."""

from collections.abc import Sequence
from typing import Protocol

from throwbench.verdict.result import Place
from throwbench.verdict.words import first_of

ALONE = "Score a second candidate beside it: alone it cannot be compared."
ENOUGH = "Nothing more to sniff: more testing would hardly change the choice."

MATTERS = ("in the pick", "equally good", "too few sniffs")


class Compared(Protocol):
    """A candidate with its place against the pick."""

    @property
    def candidate(self) -> str: ...
    @property
    def place(self) -> Place: ...
    @property
    def placed(self) -> bool: ...
    @property
    def chance_to_belong(self) -> float | None: ...
    @property
    def equally_good(self) -> bool: ...
    @property
    def split(self) -> str | None: ...


def is_open(item: Compared) -> bool:
    """In the pick, and the scores do not settle that it belongs there."""
    belongs = item.placed and (item.chance_to_belong or 0.0) > 0.5
    return item.place == "in the pick" and not belongs


def again(candidates: Sequence[Compared], clear_winner: str | None) -> list[str]:
    """Candidates that the scores cannot place and where a wrong choice would cost something.

    Where each rival alone is out of reach, it is the pick itself that is not settled. Those
    on which opinions split are told by `others`.
    """
    few = [item for item in candidates if item.place == "too few sniffs"] or [
        item
        for item in candidates
        if is_open(item) and not item.equally_good and item.candidate != clear_winner
    ]
    rest = [item.candidate for item in few if not item.split]
    if not rest:
        return []
    return [
        f"Too few sniffs to place {first_of(rest)}: sniff again, same assessors, another evening."
    ]


def others(candidates: Sequence[Compared]) -> list[str]:
    """Candidates that matter and on which opinions split: the same noses would only split again."""
    split = [item.candidate for item in candidates if item.split and item.place in MATTERS]
    if not split:
        return []
    return [
        f"Opinions split on {first_of(split)}: more sniffs of these noses do not help, "
        "other noses do, or a decision whom it is for."
    ]


def equal(candidates: Sequence[Compared]) -> list[str]:
    """Those in and beside the pick that a swap would cost little, and nobody is at odds about."""
    tied = [item for item in candidates if item.equally_good and not item.split]
    inside = [item.candidate for item in tied if item.place == "in the pick"]
    outside = [item.candidate for item in tied if item.place == "equally good"]
    if not inside or not outside:
        return []
    return [
        f"{first_of([*inside, *outside], last='or')}: equally good. "
        "Choose by price, papers or easy wick."
    ]
