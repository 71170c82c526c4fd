"""What burns while a phone goes round: it rings for nothing then, so somebody else has to."""

from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from throwbench.workshop.trials.selectors.burns import lit_now
from throwbench.workshop.trials.times import clock


@dataclass(frozen=True, slots=True, kw_only=True)
class LitWords:
    """`said` names the candles, for the maker; `first` is the time alone. Empty: nothing burns."""

    said: str
    first: str


def lit_words(now: datetime) -> LitWords:
    """'Out by 13:05: D5Q, H6X. Out by 14:00: K7F.'"""
    lit = [(clock(one.burn.out_by_at), one.code) for one in lit_now(now)]
    said = " ".join(
        f"Out by {at}: {', '.join(code for _, code in sorted(those))}."
        for at, those in groupby(lit, key=lambda one: one[0])
    )
    return LitWords(said=said, first=lit[0][0] if lit else "")
