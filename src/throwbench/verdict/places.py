"""Where each candidate stands against the pick."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from throwbench.verdict.draws import Draws
from throwbench.verdict.pick import Pick
from throwbench.verdict.result import CandidateVerdict, Place
from throwbench.verdict.settings import Settings


@dataclass(frozen=True, slots=True)
class PlaceWords:
    """A place as it is said. `why`: what it means, after a colon; empty where the name tells.

    short : for a narrow cell.
    """

    name: str
    why: str
    short: str

    def sentence(self) -> str:
        """The head over the candidates of one place."""
        head = self.name[0].upper() + self.name[1:]
        return f"{head}: {self.why}" if self.why else head


WORDS: Mapping[Place, PlaceWords] = {
    "in the pick": PlaceWords("the pick", "", "in the pick"),
    "equally good": PlaceWords(
        "equally good", "choose by price, papers or easy wick", "equally good"
    ),
    "too few sniffs": PlaceWords(
        "too few sniffs", "the scores that count cannot place it", "test again"
    ),
    "held back by its theme": PlaceWords(
        "held back by its theme", "at most one of a theme joins", "held back"
    ),
    "out of reach": PlaceWords("out of reach", "", "out of reach"),
    "barred": PlaceWords("barred", "a limit is broken in each combination tried", "barred"),
    "not ranked": PlaceWords("not ranked", "no score of liking or hot throw counts", "test again"),
    "reference": PlaceWords("reference candle", "never picked", "reference candle"),
}
"""Every place in the order of a report."""

SPLIT = PlaceWords("opinions split", "more sniffs of these noses cannot place it", "opinions split")
"""Over candidates that the scores cannot place since noses are at odds about them."""

ORDER: tuple[Place, ...] = tuple(WORDS)


LEVEL = 0.05
"""A lead in steps that no figure of the answer shows."""


def words_of(candidate: CandidateVerdict) -> PlaceWords:
    """Its place as it is said: where opinions split, that is why the scores cannot place it."""
    if candidate.place == "too few sniffs" and candidate.split:
        return SPLIT
    return WORDS[candidate.place]


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


def level_with_first(worth: Draws) -> npt.NDArray[np.bool_]:
    """(candidates,) whom the lead of the first one does not tell from it; none where that is none.

    A lead tells something if it is more than twice its Monte Carlo error and can be seen in the
    figures.
    """
    first = int(worth.mean(axis=0).argmax())
    lead = worth[:, [first]] - worth
    error = 2.0 * lead.std(axis=0) / np.sqrt(len(lead))
    near = lead.mean(axis=0) < np.maximum(error, LEVEL)
    return near if near.sum() > 1 else np.zeros_like(near)
