"""What the limits say of a burn, a test candle and a combination."""

from dataclasses import dataclass
from typing import Literal

from throwbench.records import Combination

State = Literal["none broken", "broken", "not yet known"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One rule on one burn: what was found, against which limit, and by which article."""

    rule: str
    words: str
    outcome: Literal["broken", "mark", "within", "not seen"]
    evidence: Literal["measured", "seen", "not seen"]
    candle: str
    burn: int
    check_h: float | None
    value: str
    limit: str
    because: str
    source: str
    house_limit: bool
    bars: Literal["combination", "fixing", "combination and vessel", "nothing"]

    def sentence(self) -> str:
        return self.because


@dataclass(frozen=True, slots=True)
class Evidence:
    """How many by-eye looks were measured, seen and not seen: one count per rule and burn."""

    measured: int = 0
    seen: int = 0
    not_seen: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class CandleLimits:
    """One test candle. `broken` are the findings that break it; `marks` are about handling only."""

    candle: str
    combination: Combination | None
    state: State
    broken: tuple[Finding, ...]
    marks: tuple[Finding, ...]
    evidence: Evidence
    burns: int
    to_the_end: bool
    missing: str | None
    """The one check that would settle it, as an instruction; None when nothing is missing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CombinationLimits:
    """All candles of one oil x load x wax x wick x vessel."""

    oil: str
    label: str
    """Short, for a table: the wick, or what tells it from the oil's other combinations."""
    wick: str | None
    state: State
    candles: tuple[CandleLimits, ...]
    broken: tuple[Finding, ...]
    missing: str | None
    not_tried: tuple[str, ...]
    """Rules that need a laboratory."""
    barred_fixing: str | None = None
    barred_vessel: str | None = None

    def evidence_words(self) -> str:
        """'2 candles, 17 burns, to the end', or what broke, or what is missing."""
        raise NotImplementedError

    def sentence(self) -> str:
        raise NotImplementedError
