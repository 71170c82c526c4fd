"""What was decided of a pick, beside what the verdict says of it."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from django.utils import timezone

from throwbench.documents.words import keep_names_whole
from throwbench.verdict.result import Verdict
from throwbench.verdict.words import listed, number
from throwbench.workshop.house.models import Person
from throwbench.workshop.line.models import Decision, Judgement, Outcome

Group = tuple[str, bool, date, Person]
"""Outcome, whether it is of the pick, on which day, by whom."""


def undecided(
    verdict: Verdict, judgement: Judgement, decided: Mapping[str, Decision]
) -> tuple[str, ...]:
    """Those of the pick that still wait, by the oil's name.

    What was put back to be tested again waits anew once a later verdict picks it.
    """
    return tuple(name for name in verdict.pick if not _settled(decided.get(name), judgement))


def _settled(decision: Decision | None, judgement: Judgement) -> bool:
    if decision is None:
        return False
    return decision.outcome != Outcome.AGAIN or decision.judgement_id == judgement.pk


def decided_words(
    verdict: Verdict, judgement: Judgement, decided: Mapping[str, Decision], *, reader: Person
) -> tuple[str, ...]:
    """A sentence for what joined, and for what was decided otherwise than the verdict says."""
    groups: dict[Group, list[str]] = {}
    for one in verdict.candidates:
        decision = decided.get(one.candidate)
        if decision is not None and _settled(decision, judgement):
            key = _group(decision, picked=one.candidate in verdict.pick)
            groups.setdefault(key, []).append(one.candidate)
    return tuple(
        sentence
        for key, oils in groups.items()
        for sentence in _sentence(key, oils, whole=set(oils) == set(verdict.pick), reader=reader)
    )


def _group(decision: Decision, *, picked: bool) -> Group:
    day = timezone.localtime(decision.at).date()
    return decision.outcome, picked, day, decision.who


def _sentence(key: Group, oils: Sequence[str], *, whole: bool, reader: Person) -> Iterator[str]:
    outcome, picked, day, who = key
    several = len(oils) > 1
    names = keep_names_whole(listed(oils), oils)
    on = f"on {day:%-d %B}"
    doer = "You" if who == reader else str(who)
    instead = f"the scores alone would pick {'them' if several else 'it'}"
    if outcome == Outcome.JOINS:
        joined = f"These {number(len(oils))}" if whole and several else names
        other = "; they are not in the pick" if several else "; it is not in the pick"
        yield f"{joined} joined the line {on}{'' if picked else other}."
    elif picked and outcome == Outcome.DROPPED:
        yield f"{doer} dropped {names} {on}; {instead}."
    elif picked:
        yield f"{doer} decided {on} to test {names} again; {instead}."
