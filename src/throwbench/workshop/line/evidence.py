"""What the kept verdicts say of one oil: cold and hot, and what was decided."""

from collections.abc import Iterator
from dataclasses import dataclass

from throwbench.documents.words import compared, figure, of_100, pick_words
from throwbench.records.attribute import HOT_THROW
from throwbench.verdict.result import AttributeResult, CandidateVerdict, Verdict
from throwbench.verdict.words import in_100, ordinal
from throwbench.workshop.line.drawings import slope_of
from throwbench.workshop.line.models import Decision, Judgement
from throwbench.workshop.line.selectors import last_judgement, verdict_of
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.models import Candidate


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """A large figure with its line."""

    figure: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """One trial's word on the oil."""

    candidate: Candidate
    judgement: Judgement
    finding: str
    slopes: list[str]
    sums: tuple[Sum, ...]
    reasons: tuple[str, ...]
    decision: Decision | None


def evidence_of(oil: Oil) -> tuple[Evidence, ...]:
    """The last verdict of each trial of the oil, the newest first; sealed ones are silent."""
    found = (_evidence(candidate) for candidate in _open_to_read(oil))
    return tuple(one for one in found if one is not None)


def said_of_oil(oil: Oil) -> str:
    """'Clear in the cold, strong when lit; 99 in 100 to belong in the four.', of the last verdict.

    Empty where no verdict has a score of it that counts.
    """
    for candidate in _open_to_read(oil):
        told = _spoken_of(candidate)
        if told is not None:
            return _nose_first(*told[1:])
    return ""


def _nose_first(one: CandidateVerdict, verdict: Verdict) -> str:
    cold, hot = one.of("cold_throw"), one.of("hot_throw")
    said = [f"{_loud(cold, verdict)} in the cold"] if cold else []
    said += [f"{_right(hot, verdict)} when lit"] if hot else []
    if not said:
        return ""
    words = ", ".join(said)
    chance = ""
    if one.chance_to_belong is not None and compared(verdict):
        chance = f"; {in_100(one.chance_to_belong)} to belong in {pick_words(verdict)}"
    return f"{words[0].upper()}{words[1:]}{chance}."


def _loud(throw: AttributeResult, verdict: Verdict) -> str:
    """The maker's word for it on a scale of 1 to 5, else the figure."""
    if verdict.scale != (1, len(HOT_THROW.steps)):
        return figure(throw.middle)
    step = round(throw.middle)
    return HOT_THROW.steps[step - 1] if step > 1 else "nothing"


def _right(hot: AttributeResult, verdict: Verdict) -> str:
    band = next(iter(verdict.bands), None)
    loud = _loud(hot, verdict)
    if band is None or loud == "nothing" or band.low <= hot.middle <= band.high:
        return loud
    return f"{loud} and too {'weak' if hot.middle < band.low else 'strong'}"


def _open_to_read(oil: Oil) -> Iterator[Candidate]:
    """Its candidacies, the newest trial first; a sealed one is silent."""
    mine = oil.candidacies.select_related("trial", "oil").order_by("-trial__made_at")
    return (candidate for candidate in mine if not candidate.trial.is_sealed)


def _spoken_of(candidate: Candidate) -> tuple[Judgement, CandidateVerdict, Verdict] | None:
    """What the last verdict of its trial says of it; None where it says nothing."""
    judgement = last_judgement(candidate.trial)
    if judgement is None:
        return None
    verdict = verdict_of(judgement)
    one = next((one for one in verdict.candidates if one.candidate == str(candidate)), None)
    return None if one is None else (judgement, one, verdict)


def _evidence(candidate: Candidate) -> Evidence | None:
    told = _spoken_of(candidate)
    if told is None:
        return None
    judgement, one, verdict = told
    return Evidence(
        candidate=candidate,
        judgement=judgement,
        finding=_finding(one),
        slopes=slope_of(judgement, one.candidate),
        sums=tuple(_sums(one, verdict)),
        reasons=one.reasons,
        decision=candidate.decisions.first(),
    )


def _finding(one: CandidateVerdict) -> str:
    cold, hot = one.of("cold_throw"), one.of("hot_throw")
    if cold is None or hot is None:
        return "Not both cold and hot throw have a score that counts."
    return f"Cold throw {figure(cold.middle)}, hot throw {figure(hot.middle)}."


def _sums(one: CandidateVerdict, verdict: Verdict) -> list[Sum]:
    told = []
    cold, hot = one.of("cold_throw"), one.of("hot_throw")
    if cold is not None:
        told.append(
            Sum(
                figure=figure(cold.middle),
                words=f"cold throw: {_rank(cold, verdict)} {_sure(cold)}",
            )
        )
    if hot is not None:
        band = next(iter(verdict.bands), None)
        right = f"; right is {band.low:g} to {band.high:g}" if band else ""
        told.append(Sum(figure=figure(hot.middle), words=f"hot throw{right}. {_sure(hot)}"))
    if one.chance_to_belong is not None and compared(verdict):
        words = f"in 100 to belong in {pick_words(verdict)}"
        told.append(Sum(figure=of_100(one.chance_to_belong), words=words))
    return told


def _rank(mine: AttributeResult, verdict: Verdict) -> str:
    """'first of 9.': by its middle, among all that have a score that counts."""
    others = [other.of(mine.attribute) for other in verdict.candidates]
    middles = [other.middle for other in others if other is not None]
    if len(middles) == 1:
        return "the only one."
    place = 1 + sum(middle > mine.middle for middle in middles)
    return f"{ordinal(place)} of {len(middles)}."


def _sure(result: AttributeResult) -> str:
    outer = result.nineteen_in_twenty
    return f"The truth is between {figure(outer.low)} and {figure(outer.high)}, 19 times in 20."
