"""Which scores rank an oil, and why the others are only shown."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from throwbench.records import Combination, Score

LIT = ("liking", "hot_throw")
"""Attributes judged on a burning candle: a badly wicked candle says nothing about these."""
SWITCHES = ("tired", "perfume", "recognised")


@dataclass(frozen=True, slots=True)
class Sorted:
    """The scores that count, those that do not, and how many of these for which reason."""

    counted: tuple[Score, ...]
    shown: tuple[Score, ...]
    reasons: Mapping[str, int]


def sort_scores(
    scores: Sequence[Score],
    *,
    combinations: Mapping[str, Combination],
    broken: frozenset[str],
    badly_wicked: frozenset[str],
    cure_days: float | None,
    leave_out: frozenset[str],
) -> Sorted:
    """Part the scores that count from those that are only shown.

    Counted are scores of nose burns (or where the kind of burn is not known), after the cure of
    the wax card, from candles that broke no limit and are not badly wicked. A tired or perfumed
    nose and a recognised scent count unless switched off. "Cannot tell" is no score.
    """
    reasons: Counter[str] = Counter()
    counted, shown = [], []
    for score in scores:
        card = combinations.get(score.candle)
        needed = cure_days if card is None or card.card_cure_days is None else card.card_cure_days
        why = _why_not(
            score, needed=needed, broken=broken, badly_wicked=badly_wicked, leave_out=leave_out
        )
        if why is None:
            counted.append(score)
        else:
            shown.append(score)
            reasons[why] += 1
    return Sorted(tuple(counted), tuple(shown), dict(reasons))


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
        (curing, "still curing"),
        (lit and score.burn_kind in ("wick", "long"), "sniffed in a wick burn or a long burn"),
        (lit and score.burn_kind == "unlit", "not lit"),
        (lit and score.candle in broken, "from a candle that broke a limit"),
        (lit and score.candle in badly_wicked, "from a badly wicked candle"),
        *((switch in leave_out and bool(getattr(score, switch)), switch) for switch in SWITCHES),
    )
    return next((words for holds, words in tests if holds), None)
