"""Which scores rank an oil, and why the others are only shown."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from throwbench.records import Combination, Score

LIT = ("liking", "hot_throw")
"""Attributes judged on a burning candle: a badly wicked candle says nothing about these."""
CURING = "still curing"
SWITCHES = ("tired", "perfume", "recognised")


@dataclass(frozen=True, slots=True)
class CountedScores:
    """The scores that count, those that do not, and how many of these for which reason.

    curing : of those that do not, the ones given before the cure ended.
    """

    counted: tuple[Score, ...]
    shown: tuple[Score, ...]
    reasons: Mapping[str, int]
    curing: tuple[Score, ...] = ()


def sort_scores(
    scores: Sequence[Score],
    *,
    combinations: Mapping[str, Combination],
    broken: frozenset[str],
    badly_wicked: frozenset[str],
    cure_days: float | None,
    leave_out: frozenset[str],
) -> CountedScores:
    """Part the scores that count from those that are only shown.

    Counted are scores of nose burns (or where the kind of burn is not known), after the cure of
    the wax card, from candles that broke no limit and are not badly wicked. A tired or perfumed
    nose and a recognised scent count unless switched off. "Cannot tell" is no score.
    """
    counted: list[Score] = []
    shown: list[tuple[Score, str]] = []
    for score in scores:
        card = combinations.get(score.candle)
        needed = cure_days if card is None or card.card_cure_days is None else card.card_cure_days
        why = _why_not(
            score, needed=needed, broken=broken, badly_wicked=badly_wicked, leave_out=leave_out
        )
        if why is None:
            counted.append(score)
        else:
            shown.append((score, why))
    return CountedScores(
        counted=tuple(counted),
        shown=tuple(score for score, _ in shown),
        reasons=dict(Counter(why for _, why in shown)),
        curing=tuple(score for score, why in shown if why == CURING),
    )


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
