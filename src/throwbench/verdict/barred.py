"""What one candle's burn bars for all: a fixing that let go, a vessel that was damaged."""

from collections.abc import Iterator, Sequence

from throwbench.records import Combination
from throwbench.rules.result import CandleLimits, Finding
from throwbench.verdict.result import CandidateVerdict
from throwbench.verdict.words import listed


def barred_parts(candidates: Sequence[CandidateVerdict]) -> tuple[str, ...]:
    """Each barred fixing and vessel once, and which oils of the pick stand on it."""
    said: dict[str, str] = {}
    for candle in _candles(candidates):
        for finding in candle.broken:
            part = _part(finding, candle.combination)
            if part:
                said.setdefault(part, _sentence(part, finding, candidates))
    return tuple(said.values())


def _candles(candidates: Sequence[CandidateVerdict]) -> Iterator[CandleLimits]:
    for item in candidates:
        for limits in item.limits:
            yield from limits.candles


def _part(finding: Finding, made: Combination | None) -> str | None:
    """The fixing or vessel that a finding bars, where it is written down."""
    if made is None:
        return None
    if finding.bars == "fixing":
        return made.fixing
    return made.vessel if finding.bars == "combination and vessel" else None


def _sentence(part: str, finding: Finding, candidates: Sequence[CandidateVerdict]) -> str:
    kind = "fixing" if finding.bars == "fixing" else "vessel"
    why = "its wick moved" if kind == "fixing" else f"{finding.words}, {finding.value}"
    what = f"{part[:1].upper()}{part[1:]} is barred as a {kind}: {why} ({finding.where})."
    standing = [
        item.candidate
        for item in candidates
        if item.place == "in the pick" and _stands_on(item, part, kind)
    ]
    if not standing:
        return what
    verb = "was" if len(standing) == 1 else "were"
    instead = (
        "with nothing else: use another fixing, and burn one candle of it before any is sold."
        if kind == "fixing"
        else "in nothing else: sell none in it before it is known why."
    )
    return f"{what} {listed(standing)} {verb} tried {instead}"


def _stands_on(item: CandidateVerdict, part: str, kind: str) -> bool:
    """Whether every candle that is not broken was made so."""
    open_ones = [c for limits in item.limits for c in limits.candles if c.state != "broken"]
    made = [candle.combination for candle in open_ones if candle.combination is not None]
    return bool(made) and all(
        (one.fixing if kind == "fixing" else one.vessel) == part for one in made
    )
