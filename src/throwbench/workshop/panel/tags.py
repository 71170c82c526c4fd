"""Fresh tags of three digits for the front of a candle: drawn by chance, so they tell nothing."""

import random
from collections.abc import Sequence

from throwbench.documents.slips import three_digits
from throwbench.science.errors import UnclearError
from throwbench.workshop.panel.models import Seat
from throwbench.workshop.trials.codes import CHANCE
from throwbench.workshop.trials.models import Trial

TAGS = tuple(str(number) for number in range(100, 1000) if number != 666)
"""None that some would rather not have in front of them."""


def fresh_tags(trial: Trial, count: int, *, chance: random.Random = CHANCE) -> list[str]:
    """So many tags: none of an open panel, and none this trial had as long as others are left.

    Any two of them differ in two figures, as long as there are so many.

    Raises
    ------
    UnclearError
        Fewer than `count` tags are free.
    """
    in_front = tags_in_front()
    had = set(Seat.objects.filter(panel__trial=trial).values_list("tag", flat=True))
    free = [tag for tag in TAGS if tag not in in_front]
    unused = [tag for tag in free if tag not in had]
    if len(free) < count:
        raise UnclearError(
            f"{count} tags are needed and {len(free)} are free.",
            "A tag is three digits, and stands in front of one candle at a time.",
            "Close a panel first.",
        )
    mixed = chance.sample(unused, len(unused)) if len(unused) >= count else []
    apart: list[str] = []
    for tag in mixed:
        if all(_differ_in_two(tag, other) for other in apart):
            apart.append(tag)
    if len(apart) >= count:
        return apart[:count]
    return chance.sample(mixed or free, count)


def _differ_in_two(one: str, other: str) -> bool:
    """Else a figure misread makes one tag the other."""
    return sum(mine != its for mine, its in zip(one, other, strict=True)) >= 2


def checked_tags(tags: Sequence[str], count: int) -> list[str]:
    """The given tags themselves, one a seat.

    Raises
    ------
    UnclearError
        Too few or too many, not three digits, twice the same, or in front of another open panel.
    """
    if len(tags) != count or len(set(tags)) != count:
        raise UnclearError(
            f"{len(set(tags))} different tags came for {count} candles.",
            "Each candle has a tag of its own.",
            "Give as many tags as candles, or none: then they are drawn.",
        )
    taken = sorted(set(tags) & tags_in_front())
    if taken:
        raise UnclearError(
            f"{taken[0]} stands in front of another candle now.",
            "A tag is at one open panel at a time.",
            "Take another tag, or close the other panel.",
        )
    return [three_digits(tag) for tag in tags]


def tags_in_front() -> set[str]:
    """Tags of open panels."""
    return set(Seat.objects.filter(panel__closed_at=None).values_list("tag", flat=True))
