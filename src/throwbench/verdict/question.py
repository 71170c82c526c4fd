"""What is asked of a trial: all that a verdict and its papers need beside the files."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from math import isfinite
from typing import Literal

from throwbench.science.errors import UnclearError
from throwbench.verdict.result import Band
from throwbench.verdict.settings import Settings

MOST_STEPS = 31
"""The answer has a border for each step: with more of them it takes long and tells no more."""

LeaveOut = Literal["tired", "perfume", "recognised"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is asked of a trial.

    day : of the judgement. trial, workshop, invented : stand at the head of the papers and do not
    change the answer. The others are those of `Settings`; themes come from the files.

    Raises
    ------
    UnclearError
        Something that no trial can be asked: none to choose, a band or a scale that ends before it
        begins, a cure below 0 days. A house limit is looked at by the verdict.
    """

    day: date
    trial: str = "Test candles"
    workshop: str = "My workshop"
    choose: int = 1
    bands: tuple[Band, ...] = ()
    scale: tuple[int, int] | None = None
    cure_days: float | None = None
    leave_out: frozenset[LeaveOut] = frozenset()
    house: Mapping[str, float] = field(default_factory=dict)
    invented: bool = False

    def __post_init__(self) -> None:
        if self.choose < 1:
            raise UnclearError(
                f"{self.choose} may join the line.", "It is 1 or more.", "Say how many may join."
            )
        for band in self.bands:
            _check_band(band)
        if self.scale is not None:
            _check_scale(*self.scale)
        if self.cure_days is not None and not (isfinite(self.cure_days) and self.cure_days >= 0):
            raise UnclearError(
                f"The cure is {self.cure_days:g} days.", "It is 0 days or more.", "Correct it."
            )

    def settings(self, groups: Mapping[str, str]) -> Settings:
        """As the verdict takes it; `groups` are the themes by oil, which the files name."""
        return Settings(
            choose=self.choose,
            bands=self.bands,
            scale=self.scale,
            groups=groups,
            cure_days=self.cure_days,
            leave_out=self.leave_out,
            house=self.house,
        )


def _check_band(band: Band) -> None:
    if not (isfinite(band.low) and isfinite(band.high) and band.low < band.high):
        raise UnclearError(
            f"The band is {band.low:g} to {band.high:g}.",
            "It is two scores, the lower one first, such as 3.2 to 4.4.",
            "Turn it round, or correct it.",
        )


def _check_scale(low: int, high: int) -> None:
    if not 2 <= high - low + 1 <= MOST_STEPS:
        raise UnclearError(
            f"The scale is {low} to {high}.",
            f"A scale has 2 to {MOST_STEPS} steps, the lower one first.",
            "Name the scale that the scores were given on.",
        )
