"""The verdict: what joins the pick, how sure that is, and what to do next.

A field that is added comes with the default None: that is what a verdict kept before it says of it.
"""

from dataclasses import dataclass
from typing import Literal

from throwbench.rules.result import ABOVE_ALL, CombinationLimits

Place = Literal[
    "in the pick",
    "equally good",
    "held back by its theme",
    "out of reach",
    "too few sniffs",
    "barred",
    "not ranked",
    "reference",
]
NotRanked = Literal[
    "its scores are from a candle that tunnels",
    "its scores are from a candle that broke a limit",
    "it tunnels and has no score that counts",
    "no score counts",
]
"""Why a candidate is not ranked; a score that counts here is one of liking or hot throw."""


@dataclass(frozen=True, slots=True)
class Interval:
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Band:
    """What is right for hot throw, on the maker's scale; `room` is None when it holds for all."""

    low: float
    high: float
    room: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AttributeResult:
    """The average nose's expected score of one candidate on one attribute."""

    attribute: str
    expected: float
    middle: float
    eight_in_ten: Interval
    nine_in_ten: Interval
    nineteen_in_twenty: Interval
    chance_in_band: float | None
    counted: tuple[int, ...]
    not_counted: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CandidateVerdict:
    """One oil: three columns that are never mixed, and its place against the pick.

    Of the chances, None means that it is not compared: barred, a reference, or not ranked.
    """

    candidate: str
    supplier: str | None
    group: str | None
    place: Place
    not_ranked_because: NotRanked | None
    """None where the place is another one."""
    limits: tuple[CombinationLimits, ...]
    burns_well: tuple[str, ...]
    scent: tuple[AttributeResult, ...]
    worth: float | None
    chance_to_belong: float | None
    chance_best: float | None
    placed: bool
    swap_cost: float | None
    """What the expected worth of the pick changes, in steps, if this one is swapped across it."""
    equally_good: bool
    """Not placed, and a swap costs little: whether it is in the pick or not hardly matters."""
    split: str | None
    """'loved by 2, disliked by 3', where opinions split."""
    reasons: tuple[str, ...]
    only_shown: tuple[tuple[str, tuple[int, ...]], ...] = ()
    """Attribute and scores that have no result to stand beside: shown, not counted."""

    def of(self, attribute: str) -> AttributeResult | None:
        """The result on one attribute, or None where no score of it counts."""
        return next((item for item in self.scent if item.attribute == attribute), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class NoseNote:
    """For the owner only: how one assessor uses the scale. Never on what leaves the workshop."""

    assessor: str
    shift: float
    chance: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The answer to "which of them join the line?". `candidates` stand in the order of a report."""

    day: str
    """The day of the judgement, in ISO 8601: 2027-05-24."""
    choose: int
    bands: tuple[Band, ...]
    scale: tuple[int, int]
    ranked_by: str
    """How worth was worked out, in words."""
    candidates: tuple[CandidateVerdict, ...]
    pick: tuple[str, ...]
    loss_steps: float | None
    clear_winner: str | None
    headline: str
    risk: str
    holds: tuple[str, ...]
    """Sentences that bind the pick: barred combinations, 'sell none before ...'."""
    next_steps: tuple[str, ...]
    reasons: tuple[str, ...]
    noses: tuple[NoseNote, ...]
    problems: tuple[str, ...]
    defaults: tuple[str, ...]
    """What was assumed because nobody said otherwise."""
    counted: int
    not_counted: int
    not_tried: tuple[str, ...]
    caution: str = ABOVE_ALL

    def sentence(self) -> str:
        """The pick with its risk and what binds it, in plain words."""
        return " ".join((self.headline, self.risk, *self.holds))
