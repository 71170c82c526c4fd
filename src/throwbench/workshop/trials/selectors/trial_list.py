"""The trials of the workshop, each with where it stands on its road."""

from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Q

from throwbench.science.words import counted
from throwbench.workshop.trials.models import TestCandle, Trial


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialRow:
    pk: int
    name: str
    question: str
    stands: str
    decide_on: date | None


def trials() -> tuple[TrialRow, ...]:
    """Newest first, in one query."""
    found = Trial.objects.annotate(
        oils=Count("candidates", distinct=True),
        made=Count("candidates__combinations__candles", distinct=True),
        poured=Count(
            "candidates__combinations__candles",
            filter=Q(candidates__combinations__candles__poured_on__isnull=False),
            distinct=True,
        ),
    )
    return tuple(
        TrialRow(
            pk=trial.pk,
            name=trial.name,
            question=trial.question,
            stands=_stands(trial.oils, trial.made, trial.poured),
            decide_on=trial.decide_on,
        )
        for trial in found
    )


def done_of(trial: Trial) -> frozenset[str]:
    """Steps of its road that every test candle has behind it; a candle that was lit has cured."""
    candles = TestCandle.objects.filter(combination__candidate__trial=trial)
    was_lit = Q(burns__isnull=False) | Q(ended_at__isnull=False)
    count = candles.aggregate(
        plan=Count("pk", distinct=True),
        pour=Count("pk", filter=Q(poured_on__isnull=False), distinct=True),
        cure=Count("pk", filter=was_lit, distinct=True),
    )
    every = count["plan"]
    return frozenset(step for step, through in count.items() if every and through == every)


def _stands(oils: int, made: int, poured: int) -> str:
    told = counted(oils, "oil")
    if not made:
        return f"{told}, plan not fixed yet"
    return f"{told}, {poured} of {counted(made, 'test candle')} poured"
