"""What is in the line, with what holds it; what is tested again, and what was dropped."""

from collections.abc import Iterable
from dataclasses import dataclass

from throwbench.documents.rows import LimitWords, limit_words
from throwbench.rules.result import CombinationLimits
from throwbench.verdict.words import number
from throwbench.workshop.line.models import Decision, Outcome
from throwbench.workshop.line.selectors import last_judgement, verdict_of
from throwbench.workshop.trials.models import TestCandle, Trial


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One oil, by its last decision. `limits` is what the last verdict says of its combination."""

    decision: Decision
    limits: LimitWords | None
    hold: str
    """What stands after 'sell none before', as long as it is so."""

    @property
    def broken(self) -> bool:
        return self.limits is not None and self.limits.state == "broken"


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePage:
    sentence: str
    risk: str
    joined: tuple[Standing, ...]
    again: tuple[Standing, ...]
    dropped: tuple[Standing, ...]


def line_page() -> LinePage:
    """Each oil once: its last decision counts, in whatever trial it was made; the newest first."""
    decisions = Decision.objects.select_related(
        "candidate__oil__supplier",
        "candidate__trial",
        "combination__wick",
        "combination__vessel",
        "combination__fixing",
        "judgement",
        "who",
    )
    last = _last_of_each_oil(decisions)
    tried = _tried({one.candidate.trial for one in last if one.outcome == Outcome.JOINS})
    standing = [_standing(one, tried) for one in last]
    of = {
        outcome: tuple(one for one in standing if one.decision.outcome == outcome)
        for outcome in Outcome.values
    }
    joined = of[Outcome.JOINS]
    return LinePage(
        sentence=_sentence(joined),
        risk=_risk(joined),
        joined=joined,
        again=of[Outcome.AGAIN],
        dropped=of[Outcome.DROPPED],
    )


def _last_of_each_oil(decisions: Iterable[Decision]) -> list[Decision]:
    last: dict[int, Decision] = {}
    for decision in decisions:
        last.setdefault(decision.candidate.oil_id, decision)
    in_order = sorted(last.values(), key=lambda one: one.candidate.position)
    return sorted(in_order, key=lambda one: one.at, reverse=True)


def _tried(trials: Iterable[Trial]) -> dict[int, CombinationLimits]:
    """By combination, what the last verdict of its trial says; a sealed trial says nothing."""
    by_code: dict[tuple[int, str], CombinationLimits] = {}
    for trial in trials:
        judgement = None if trial.is_sealed else last_judgement(trial)
        for one in verdict_of(judgement).candidates if judgement else ():
            for limits in one.limits:
                for candle in limits.candles:
                    by_code[trial.pk, candle.candle] = limits
    codes = TestCandle.objects.filter(code__in=[code for _, code in by_code])
    rows = codes.values_list("combination_id", "combination__candidate__trial_id", "code")
    return {made: by_code[trial, code] for made, trial, code in rows if (trial, code) in by_code}


def _standing(decision: Decision, tried: dict[int, CombinationLimits]) -> Standing:
    limits = tried.get(decision.combination_id or 0)
    words = None if limits is None else limit_words(limits, several=False)
    return Standing(decision=decision, limits=words, hold=_hold(decision, words))


def _hold(decision: Decision, words: LimitWords | None) -> str:
    """What was missing when it joined falls away once the last verdict knows; a broken limit
    stands above it."""
    hold = decision.sell_none_before
    if words is None or words.state == "not yet known" or "barred" in hold:
        return hold
    return ""


def _sentence(joined: tuple[Standing, ...]) -> str:
    if not joined:
        return "Nothing is in the line yet."
    count = number(len(joined)).capitalize()
    return f"{count} {'oil is' if len(joined) == 1 else 'oils are'} in the line."


def _risk(joined: tuple[Standing, ...]) -> str:
    held = [one for one in joined if one.hold or one.broken]
    if not held:
        return ""
    if len(held) == len(joined):
        return "None of it may be sold yet."
    return f"{number(len(held)).capitalize()} may not be sold yet."
