"""What the chart says of each oil, in words; where it stands is `layout`'s affair."""

from dataclasses import dataclass
from typing import Literal

from throwbench.documents.words import charted, compared, of_100, pick_words, shown_scores
from throwbench.rules.result import CombinationLimits, State
from throwbench.verdict.places import WORDS, PlaceWords, words_of
from throwbench.verdict.result import AttributeResult, CandidateVerdict, Place, Verdict

Mark = Literal["joins", "again", "dropped"]

MARKS: dict[Place, Mark | None] = {
    "in the pick": "joins",
    "equally good": None,
    "held back by its theme": "dropped",
    "out of reach": "dropped",
    "too few sniffs": "again",
    "barred": "dropped",
    "not ranked": "again",
    "reference": None,
}
"""The shape that says what a place means for the line, beside its words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitWords:
    """One combination in the limits column: the state first, its evidence under it."""

    state: State
    words: str
    evidence: str
    short: str
    """What broke, without candle and burn; else the evidence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One oil on the chart. `cut` is the line between groups, left and right part."""

    oil: str
    place: str
    mark: Mark | None
    cut: tuple[str, str] | None
    result: AttributeResult | None
    instead: str
    """What stands in place of an interval where there is none."""
    counted: tuple[int, ...]
    not_counted: tuple[int, ...]
    chance: str
    limits: tuple[LimitWords, ...]


def rows(verdict: Verdict) -> tuple[Row, ...]:
    """Return one row per candidate, in the order of the verdict."""
    groups = _groups(verdict)
    before = (WORDS["in the pick"], *groups)[: len(groups)]
    return tuple(
        _row(verdict, candidate, cut=_cut(verdict, candidate, group) if group != last else None)
        for candidate, group, last in zip(verdict.candidates, groups, before, strict=True)
    )


def _row(verdict: Verdict, candidate: CandidateVerdict, *, cut: tuple[str, str] | None) -> Row:
    attribute = charted(verdict)
    counted, not_counted = shown_scores(candidate, attribute)
    chance = candidate.chance_to_belong if compared(verdict) else None
    return Row(
        oil=candidate.candidate,
        place=words_of(candidate).short,
        mark=MARKS[candidate.place],
        cut=cut,
        result=candidate.of(attribute),
        instead=_instead(candidate),
        counted=counted,
        not_counted=not_counted,
        chance="" if chance is None else of_100(chance),
        limits=tuple(
            limit_words(limits, several=len(candidate.limits) > 1) for limits in candidate.limits
        ),
    )


def _instead(candidate: CandidateVerdict) -> str:
    """A badly wicked candle is why most oils are not ranked."""
    nothing_else = candidate.not_ranked_because in (None, "no score counts")
    return "not ranked" if nothing_else else "tunnels: not ranked"


def limit_words(limits: CombinationLimits, *, several: bool) -> LimitWords:
    """Return the words of one combination; its label stands first where there are several."""
    state = f"{limits.label} {limits.state}" if several else limits.state
    evidence = limits.evidence_words().rstrip(".")
    broke = ", ".join(dict.fromkeys(found.words for found in limits.broken))
    return LimitWords(state=limits.state, words=state, evidence=evidence, short=broke or evidence)


def _groups(verdict: Verdict) -> tuple[PlaceWords, ...]:
    """Return the group of each row: what is tied for the last places stands together."""
    ties = any(candidate.place == "equally good" for candidate in verdict.candidates)
    return tuple(
        WORDS["equally good"]
        if ties and candidate.place == "in the pick" and candidate.equally_good
        else words_of(candidate)
        for candidate in verdict.candidates
    )


def _cut(verdict: Verdict, candidate: CandidateVerdict, words: PlaceWords) -> tuple[str, str]:
    if words is WORDS["held back by its theme"]:
        return _theme_cut(verdict, candidate)
    if words is WORDS["out of reach"]:
        return f"{words.name} of {pick_words(verdict)}", words.why
    return words.name, words.why


def _theme_cut(verdict: Verdict, candidate: CandidateVerdict) -> tuple[str, str]:
    theme = candidate.group or "theme"
    holder = next(
        (
            other.candidate
            for other in verdict.candidates
            if other.candidate in verdict.pick and other.group == candidate.group
        ),
        None,
    )
    return f"at most one {theme}", f"it is {holder}" if holder else ""
