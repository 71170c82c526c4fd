"""What a number of clean test candles is worth."""

from math import ceil, log, log1p

from throwbench.science.errors import in_range

SOURCE = "Clopper and Pearson 1934"
EXACT = 1e-12
"""Confidences nearer to each other than this are the same."""


def true_rate_compatible(*, clean: int, confidence: float = 0.95) -> float:
    """The highest true failure rate that so many candles without a failure do not rule out.

    Parameters
    ----------
    clean : test candles without a broken limit
    confidence : one-sided

    Returns
    -------
    A rate between 0 and 1; no candle rules out nothing: 1.

    Raises
    ------
    OutOfRangeError
        Fewer than no candles, or a confidence outside 0 to 1.

    Notes
    -----
    1 - (1 - confidence)^(1/n), the upper end of the exact interval with no failure in n. For
    large n it nears 3/n, the rule of three.

    References
    ----------
    Clopper and Pearson 1934, Biometrika 26:404-413. Hanley and Lippman-Hand 1983, JAMA
    249:1743-1745 (rule of three).

    Checked against: other program (statsmodels `proportion_confint`), definition (2: 78 %).
    """
    in_range(clean, what="The number of candles", unit="", limits=(0, 1e9), source=SOURCE)
    _confidence(confidence)
    return float(1 - (1 - confidence) ** (1 / clean)) if clean else 1.0


def clean_needed(*, rate: float, confidence: float = 0.95) -> int:
    """How many test candles without a failure rule out a true failure rate as high as this.

    Parameters
    ----------
    rate : true failure rate, between 0 and 1
    confidence : one-sided

    Raises
    ------
    OutOfRangeError
        A rate or a confidence outside 0 to 1.

    Notes
    -----
    The smallest n with 1 - (1 - rate)^n >= confidence.

    Checked against: definition (under 10 %: 29).
    """
    in_range(rate, what="The failure rate", unit="", limits=(1e-9, 1 - 1e-9), source=SOURCE)
    _confidence(confidence)
    n = ceil(log(1 - confidence) / log1p(-rate))
    # Where a whole number is exact, the logarithms may land just above it: one fewer is enough.
    return n - 1 if 1 - (1 - rate) ** (n - 1) >= confidence - EXACT else n


def _confidence(confidence: float) -> None:
    in_range(confidence, what="The confidence", unit="", limits=(1e-9, 1 - 1e-9), source=SOURCE)
