"""What is believed before any score, in steps of the maker's scale."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Priors:
    """Weak proper priors; each is a setting.

    within : middle of the log-normal prior of the sd from sniff to sniff of one assessor at one
    candle [step], and `within_log_sd` its spread (common practice: about 0.8 step).
    borders : sd by which the border between two steps strays from the middle [step].
    candidate, assessor, taste, other : half-normal scales [step] of how far candidates lie apart,
    how differently assessors use the scale, how far an assessor's own taste in one candidate
    strays, and of the rest: rooms, sittings, test candles.
    """

    within: float = 0.8
    within_log_sd: float = 0.5
    borders: float = 0.3
    candidate: float = 1.0
    assessor: float = 1.0
    taste: float = 0.3
    other: float = 0.5
