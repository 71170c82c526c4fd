"""Chances, places and lists in plain words."""

from collections.abc import Sequence

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
)  # fmt: skip


def in_100(chance: float) -> str:
    """'58 in 100'; never 0 or 100."""
    if chance > 0.99:
        return "over 99 in 100"
    if chance < 0.01:
        return "under 1 in 100"
    return f"{chance * 100:.0f} in 100"


def listed(names: Sequence[str], *, last: str = "and") -> str:
    """'A, B and C'."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"


def number(count: int) -> str:
    """'four' up to ten, then figures."""
    return NUMBERS[count] if 0 <= count < len(NUMBERS) else str(count)


def ordinal(place: int) -> str:
    """'fourth' for 4, then figures."""
    return ORDINALS[place - 1] if 0 < place <= len(ORDINALS) else f"{place}th"


def counted(count: int, one: str, many: str | None = None) -> str:
    """'1 score', '3 scores'."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def steps(size: float) -> str:
    """A size in steps of the maker's scale, with its unit; small ones by their bound."""
    return "less than 0.05 step" if size < 0.05 else f"about {size:.1f} step"
