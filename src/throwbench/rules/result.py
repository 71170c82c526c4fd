"""What the limits say of a burn, a test candle and a combination."""

from dataclasses import dataclass
from typing import Literal

from throwbench.records import Combination
from throwbench.science.clean import true_rate_compatible
from throwbench.science.words import counted

ABOVE_ALL = "Local rules and a laboratory's test stand above everything here."

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
    where: str = ""
    """'K7F, burn 3 at 2 h'; the candle alone where its burns decide together."""

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
    """One test candle. `broken` are the findings that break it, `marks` those of handling rules."""

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
    unread: bool = False
    """Something in its log could not be read, and may hide a broken limit."""
    wax_left: str = ""
    """The wax left after the last burn and how it is known; empty where it is not."""

    def sentence(self) -> str:
        """The state of one candle with what broke, or what is missing."""
        if self.broken:
            return f"{self.candle}: broken: {_broke(self.broken)}."
        if self.missing:
            return f"{self.candle}: not yet known. {self.missing}"
        return f"{self.candle}: none broken ({counted(self.burns, 'burn')}, to the end)."


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
        if self.state == "broken":
            return _broke(self.broken)
        if self.missing is not None:
            return self.missing
        clean = self.clean()
        burns = sum(candle.burns for candle in clean)
        tried = f"{counted(len(clean), 'candle')}, {counted(burns, 'burn')}, to the end"
        others = len(self.candles) - len(clean)
        return f"{tried}; {others} more not counted" if others else tried

    def clean(self) -> tuple[CandleLimits, ...]:
        """The candles on which 'none broken' rests."""
        return tuple(candle for candle in self.candles if candle.state == "none broken")

    def evidence(self) -> Evidence:
        """The looks of all its candles together."""
        found = [candle.evidence for candle in self.candles]
        return Evidence(
            measured=sum(item.measured for item in found),
            seen=sum(item.seen for item in found),
            not_seen=sum(item.not_seen for item in found),
        )

    def sentence(self) -> str:
        """The state with its evidence, what it bars, and what 'none broken' is worth."""
        name = f"{self.oil} on {self.label}" if self.oil else self.label
        words = [self._state_words(name)]
        if self.barred_vessel:
            words.append(f"Barred as a vessel: {self.barred_vessel}.")
        if self.barred_fixing:
            words.append(f"Barred as a fixing: {self.barred_fixing}.")
        return " ".join(words)

    def _state_words(self, name: str) -> str:
        evidence = self.evidence_words()
        if self.state == "none broken":
            return f"{name}: no limit broken ({evidence}). {clean_words(len(self.clean()))}"
        if self.state == "not yet known":
            return f"{name}: limits not yet known. {evidence}"
        barred = "This combination is barred; the oil stays open for another wick."
        alone = "This candle is barred, with all made like it."
        return f"{name} broke a limit: {evidence}. {barred if self.oil else alone}"


def clean_words(clean: int) -> str:
    """What some clean candles are worth, in a sentence.

    Checked against: definition (2 candles: 78 %).
    """
    rate = 100 * true_rate_compatible(clean=clean)
    return (
        f"That rules out gross faults only: {counted(clean, 'clean candle')} "
        f"{'is' if clean == 1 else 'are'} compatible with a true failure rate of {rate:.0f} %."
    )


def _broke(broken: tuple[Finding, ...]) -> str:
    """Each broken rule once, with the first place where it broke."""
    first = {item.rule: item for item in reversed(broken)}
    found = [item for item in broken if first[item.rule] is item]
    return "; ".join(f"{item.words} ({item.value}, {item.where})" for item in found)
