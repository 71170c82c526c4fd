"""The pick before it joins: each oil with its combination, what holds it, or why it cannot."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from throwbench.science.errors import UnclearError
from throwbench.verdict.result import Verdict
from throwbench.workshop.line.decided import undecided
from throwbench.workshop.line.joining import Tried, settle, tried
from throwbench.workshop.line.models import Decision, Judgement
from throwbench.workshop.line.selectors import last_decisions
from throwbench.workshop.trials.models import Candidate, Trial


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """One oil that may join."""

    candidate: Candidate
    to_choose: tuple[Tried, ...]
    """The combinations of which one has to be named, the best known first; empty where only one
    is open."""
    tried: Tried | None
    hold: str
    cannot: str
    """Why it cannot join; empty where it can."""

    @property
    def field(self) -> str:
        return f"combination-{self.candidate.pk}"


def waiting(judgement: Judgement, verdict: Verdict, *, day: date) -> tuple[Waiting, ...]:
    """Those of the pick that are not decided yet, in the order of the verdict."""
    trial = judgement.trial
    decided = {str(one.candidate): one for one in last_decisions(decisions_of(trial))}
    candidates = {str(one): one for one in trial.candidates.select_related("oil", "trial")}
    found = tried(trial, day=day)
    return tuple(
        wait_for(candidates[name], found.get(candidates[name].pk, ()))
        for name in undecided(verdict, judgement, decided)
        if name in candidates
    )


def wait_for(candidate: Candidate, its: tuple[Tried, ...]) -> Waiting:
    """What an oil would join with."""
    still_open = tuple(sorted((one for one in its if not one.broken), key=lambda one: one.rank))
    named = still_open[0].combination if still_open else None
    try:
        made, hold = settle(candidate, its, named=named)
    except UnclearError as error:
        return Waiting(candidate=candidate, to_choose=(), tried=None, hold="", cannot=str(error))
    several = len(still_open) > 1
    return Waiting(
        candidate=candidate,
        to_choose=still_open if several else (),
        tried=next((one for one in its if made and one.combination.pk == made.pk), None),
        hold="" if several else hold,
        cannot="",
    )


def decisions_of(trial: Trial) -> Iterator[Decision]:
    """All decisions on a trial, the newest first."""
    found = Decision.objects.filter(candidate__trial=trial)
    return iter(
        found.select_related(
            "candidate__oil", "combination__wick", "combination__vessel", "judgement", "who"
        )
    )
