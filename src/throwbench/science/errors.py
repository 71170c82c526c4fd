"""Errors that are sentences: what happened with the value, what is allowed, what to do."""

from math import inf

CHECK = "Check the value and its unit."


class SaidError(ValueError):
    """An error whose text is written for the maker; a face may show it as it stands."""


class UnclearError(SaidError):
    """What was asked is incomplete, or says two things at once."""

    def __init__(self, happened: str, allowed: str, advice: str) -> None:
        super().__init__(f"{happened} {allowed} {advice}")


class OutOfRangeError(SaidError):
    """A value outside the range in which a relation holds or an entry makes sense.

    Attributes
    ----------
    what : the quantity, as a sentence begins with it
    value : the value met, in `unit`
    unit : of the value and of the limits
    limits : lowest and highest value allowed, both inclusive; infinite where there is none
    source : who says so
    """

    def __init__(
        self,
        *,
        what: str,
        value: float,
        unit: str,
        limits: tuple[float, float],
        source: str,
        advice: str = CHECK,
    ) -> None:
        self.what = what
        self.value = value
        self.unit = unit
        self.limits = limits
        self.source = source
        super().__init__(f"{what} is {_with(value, unit)}; {self._allowed()} ({source}). {advice}")

    def _allowed(self) -> str:
        low, high = self.limits
        if high == inf:
            return f"at least {_with(low, self.unit)} is allowed"
        if low == -inf:
            return f"at most {_with(high, self.unit)} is allowed"
        return f"{low:.6g} to {_with(high, self.unit)} is allowed"


def in_range(
    value: float,
    *,
    what: str,
    unit: str,
    limits: tuple[float, float],
    source: str,
    advice: str = CHECK,
) -> float:
    """The value itself where it lies inside the limits, which belong to the range.

    Raises
    ------
    OutOfRangeError
        Where it lies outside, or is not a number.

    Checked against: definition.
    """
    low, high = limits
    if not low <= value <= high or abs(value) == inf:
        raise OutOfRangeError(
            what=what, value=value, unit=unit, limits=limits, source=source, advice=advice
        )
    return value


def _with(value: float, unit: str) -> str:
    return f"{value:.6g} {unit}".rstrip()
