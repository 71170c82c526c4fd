"""Oils of one theme or one idea, head to head, from the verdict that was kept."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from throwbench.documents.rows import LimitWords, limit_words
from throwbench.documents.words import (
    attribute_words,
    compared,
    figure,
    keep_names_whole,
    of_100,
    pick_words,
)
from throwbench.records.attribute import MODELLED
from throwbench.verdict.result import CandidateVerdict, Verdict
from throwbench.verdict.words import in_100, listed
from throwbench.workshop.line.drawings import slope_of
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.line.selectors import last_judgement, verdict_of
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.models import Trial

HEADS = ("liking", *sorted(set(MODELLED) - {"liking"}))
"""Attributes in the order of the columns: cold throw is sniffed before hot throw."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """Under its head the middle, and where it lies 8 times in 10; empty where no score counts."""

    head: str
    middle: str
    span: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One oil of a head-to-head."""

    oil: str
    figures: tuple[Figure, ...]
    chance: str
    limits: tuple[LimitWords, ...]
    burns_well: str
    split: str
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadToHead:
    """What one verdict says of some oils."""

    trial: Trial
    judgement: Judgement
    sentence: str
    risk: str
    sides: tuple[Side, ...]
    chance_head: str
    slopes: list[str]
    scale: tuple[int, int]
    spoken: str
    """The drawing in words."""


def head_to_head(judgement: Judgement, oils: Collection[str]) -> HeadToHead | None:
    """The oils beside each other, the one ahead first; None for fewer than two."""
    verdict = verdict_of(judgement)
    mine = [one for one in verdict.candidates if one.candidate in oils]
    if len(mine) < 2:
        return None
    ordered = sorted(mine, key=lambda one: -(one.chance_to_belong or -1.0))
    names = [one.candidate for one in ordered]
    return HeadToHead(
        trial=judgement.trial,
        judgement=judgement,
        sentence=keep_names_whole(_ahead(ordered, verdict), names),
        risk=keep_names_whole(_risk(ordered), names),
        sides=tuple(_side(one, verdict) for one in ordered),
        chance_head=f"Belongs in {pick_words(verdict)}" if compared(verdict) else "",
        slopes=slope_of(judgement, names[0], among=frozenset(names)),
        scale=verdict.scale,
        spoken=_spoken(ordered),
    )


def _spoken(ordered: Sequence[CandidateVerdict]) -> str:
    told = ((one, one.of("cold_throw"), one.of("hot_throw")) for one in ordered)
    return "; ".join(
        f"{one.candidate}: cold throw {figure(cold.middle)}, hot throw {figure(hot.middle)}"
        for one, cold, hot in told
        if cold and hot
    )


def of_idea(idea: str) -> Iterator[HeadToHead]:
    """The oils of one idea, once for each trial in which two of them were compared."""
    oils = set(Oil.objects.filter(idea=idea).values_list("name", flat=True))
    trials = Trial.objects.filter(candidates__oil__idea=idea).distinct()
    for trial in trials:
        judgement = None if trial.is_sealed else last_judgement(trial)
        found = head_to_head(judgement, oils) if judgement else None
        if found is not None:
            yield found


def _ahead(ordered: Sequence[CandidateVerdict], verdict: Verdict) -> str:
    """Which one is ahead, and how surely: its chance to belong, out of the kept verdict."""
    first, *_ = ordered
    if first.chance_to_belong is None:
        return f"None of {listed([one.candidate for one in ordered])} is ranked yet."
    belongs = f"it belongs in {pick_words(verdict)} {in_100(first.chance_to_belong)}"
    return f"{first.candidate} is ahead: {belongs}."


def _risk(ordered: Sequence[CandidateVerdict]) -> str:
    first, *others = ordered
    if first.chance_to_belong is None:
        return ""
    ranked = [one for one in others if one.chance_to_belong is not None]
    told = [f"{one.candidate} {in_100(one.chance_to_belong or 0.0)}" for one in ranked]
    sure = "The scores settle that." if first.placed else "The scores do not settle that yet."
    rest = [one.candidate for one in others if one.chance_to_belong is None]
    unranked = f" {listed(rest)} {'is' if len(rest) == 1 else 'are'} not ranked." if rest else ""
    return f"{sure} {f'{listed(told)}.' if told else ''}{unranked}".strip()


def _side(one: CandidateVerdict, verdict: Verdict) -> Side:
    several = len(one.limits) > 1
    chance = one.chance_to_belong if compared(verdict) else None
    return Side(
        oil=one.candidate,
        figures=tuple(_figure(one, name) for name in HEADS),
        chance="" if chance is None else of_100(chance),
        limits=tuple(limit_words(limits, several=several) for limits in one.limits),
        burns_well="; ".join(one.burns_well),
        split=one.split or "",
        place=one.place,
    )


def _figure(one: CandidateVerdict, attribute: str) -> Figure:
    result = one.of(attribute)
    head = attribute_words(attribute).capitalize()
    if result is None:
        return Figure(head=head, middle="", span="")
    box = result.eight_in_ten
    return Figure(
        head=head, middle=figure(result.middle), span=f"{figure(box.low)} to {figure(box.high)}"
    )
