"""Where each candidate stands against the pick."""

import numpy as np

from throwbench.verdict.pick import Pick
from throwbench.verdict.result import Place
from throwbench.verdict.settings import Settings

ORDER: tuple[Place, ...] = (
    "in the pick",
    "equally good",
    "too few sniffs",
    "held back by its theme",
    "out of reach",
    "barred",
    "not ranked",
    "reference",
)


def placed(belongs: float, settings: Settings) -> bool:
    """Whether the scores settle if a candidate belongs or not."""
    return belongs >= settings.placed or belongs <= 1.0 - settings.placed


def equally_good(belongs: float, swap_cost: float | None, settings: Settings) -> bool:
    """Whether a candidate is not placed and swapping it across the line costs little."""
    cheap = swap_cost is not None and swap_cost < settings.little
    return cheap and not placed(belongs, settings)


def place_of(this: int, pick: Pick, *, group_has_one: bool, settings: Settings) -> Place:
    """The place of a candidate that may join.

    Equally good: not placed, and a swap costs little. Too few sniffs: not placed, and it would
    cost something. Neither is said of one that its theme holds back.
    """
    belongs, cost = float(pick.belongs[this]), pick.swap_cost[this]
    if pick.chosen[this]:
        return "in the pick"
    if group_has_one:
        return "held back by its theme"
    if placed(belongs, settings):
        return "out of reach"
    return "equally good" if equally_good(belongs, cost, settings) else "too few sniffs"


def clear_winner(pick: Pick, names: tuple[str, ...], settings: Settings) -> str | None:
    """The candidate of the pick whose chance to be best is high enough; None among fewer than two.

    One that is best most often, but so seldom by much that it is not picked, is no clear winner.
    """
    if len(names) < 2:
        return None
    needed = settings.clear_of_two if len(names) == 2 else settings.clear_of_many
    first = int(np.argmax(pick.best))
    return names[first] if pick.chosen[first] and pick.best[first] >= needed else None
