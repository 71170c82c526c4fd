"""Which scores rank an oil, and why the others are only shown."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from throwbench.records import Combination, Score
from throwbench.records.attribute import LIT

CURING = "still curing"
SWITCHES = ("tired", "perfume", "recognised")


@dataclass(frozen=True, slots=True)
class CountedScores:
    """The scores that count, those that do not, and how many of these for which reason.

    curing : of those that do not, the ones given before the cure ended. aside : of those that do
    not, how many are on an attribute that is not asked about.
    """

    counted: tuple[Score, ...]
    shown: tuple[Score, ...]
    reasons: Mapping[str, int]
    curing: tuple[Score, ...] = ()
    aside: Mapping[str, int] = field(default_factory=dict)

    def why(self) -> list[str]:
        """How many do not count for each reason: '3 still curing'."""
        return [f"{count} {words}" for words, count in sorted(self.reasons.items())]


def sort_scores(
    scores: Sequence[Score],
    *,
    combinations: Mapping[str, Combination],
    broken: frozenset[str],
    badly_wicked: frozenset[str],
    cure_days: float | None,
    leave_out: frozenset[str],
    attributes: Collection[str] | None = None,
) -> CountedScores:
    """Part the scores that count from those that are only shown.

    Counted are scores of nose burns (or where the kind of burn is not known), after the cure of
    the wax card, from candles that broke no limit and are not badly wicked. A tired or perfumed
    nose and a recognised scent count unless switched off. "Cannot tell" is no score. Where
    `attributes` are named, scores of others are set aside.
    """
    counted: list[Score] = []
    shown: list[tuple[Score, str]] = []
    aside: list[Score] = []
    for score in scores:
        if attributes is not None and score.attribute not in attributes:
            aside.append(score)
            continue
        needed = _cure_needed(combinations.get(score.candle), cure_days)
        why = _why_not(
            score, needed=needed, broken=broken, badly_wicked=badly_wicked, leave_out=leave_out
        )
        if why is None:
            counted.append(score)
        else:
            shown.append((score, why))
    return CountedScores(
        counted=tuple(counted),
        shown=(*(score for score, _ in shown), *aside),
        reasons=dict(Counter(why for _, why in shown)),
        curing=tuple(score for score, why in shown if why == CURING),
        aside=dict(Counter(score.attribute for score in aside)),
    )


def _cure_needed(made_of: Combination | None, cure_days: float | None) -> float | None:
    """The wax card of a candle stands above the cure that is given for all."""
    if made_of is None or made_of.card_cure_days is None:
        return cure_days
    return made_of.card_cure_days


def _why_not(
    score: Score,
    *,
    needed: float | None,
    broken: frozenset[str],
    badly_wicked: frozenset[str],
    leave_out: frozenset[str],
) -> str | None:
    lit = score.attribute in LIT
    curing = needed is not None and score.cure_days is not None and score.cure_days < needed
    tests = (
        (score.score is None, "cannot tell"),
        (score.counts is False, "taken out by the maker"),
        (curing, CURING),
        (lit and score.burn_kind in ("wick", "long"), "sniffed in a wick burn or a long burn"),
        (lit and score.burn_kind == "unlit", "not lit"),
        (lit and score.candle in broken, "from a candle that broke a limit"),
        (lit and score.candle in badly_wicked, "from a badly wicked candle"),
        *((switch in leave_out and bool(getattr(score, switch)), switch) for switch in SWITCHES),
    )
    return next((words for holds, words in tests if holds), None)
