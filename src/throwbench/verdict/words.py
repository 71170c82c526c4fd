"""Chances, places and lists in plain words."""

from collections.abc import Sequence

NUMBERS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
)  # fmt: skip
ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
)  # fmt: skip
ENDINGS = {1: "st", 2: "nd", 3: "rd"}
NAMED = 5
"""So many names of a long list are said."""


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


def first_of(names: Sequence[str], *, last: str = "and") -> str:
    """As `listed`, a long list by its first names: 'A, B, C, D, E and 35 others'."""
    if len(names) <= NAMED + 1:
        return listed(names, last=last)
    return listed([*names[:NAMED], f"{len(names) - NAMED} others"], last=last)


def number(count: int) -> str:
    """'four' up to twelve, then figures."""
    return NUMBERS[count] if 0 <= count < len(NUMBERS) else str(count)


def ordinal(place: int) -> str:
    """'fourth' for 4, then figures: '21st'."""
    if 0 < place <= len(ORDINALS):
        return ORDINALS[place - 1]
    teens = place % 100 in (11, 12, 13)
    return f"{place}{'th' if teens else ENDINGS.get(place % 10, 'th')}"


def steps(size: float) -> str:
    """A size in steps of the maker's scale, with its unit; small ones by their bound."""
    if size < 0.05:
        return "less than 0.05 step"
    figure = f"{size:.1f}"
    return f"about {figure} step{'' if float(figure) <= 1 else 's'}"
