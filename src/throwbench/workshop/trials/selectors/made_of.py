"""What candles are made of, and which oils share a theme, as records."""

from django.db.models import QuerySet

from throwbench import records
from throwbench.workshop.trials.models import TestCandle, Trial

MADE_OF = (
    "combination__candidate__oil__supplier",
    "combination__candidate__trial",
    "combination__wax",
    "combination__wick",
    "combination__vessel",
    "combination__fixing",
    "wick_lot",
    "piece",
    "pour",
)


def candles_of(trial: Trial) -> QuerySet[TestCandle]:
    """The test candles of a trial in the order in which they were made."""
    found = TestCandle.objects.filter(combination__candidate__trial=trial)
    return found.select_related(*MADE_OF).order_by("pk")


def shown_of(trial: Trial) -> QuerySet[TestCandle]:
    """The same as pages list them: of a sealed trial by code, since the order in which they were
    made follows the plan and tells which two are of one oil."""
    return candles_of(trial).order_by("code") if trial.is_sealed else candles_of(trial)


def candle_named(code: str) -> TestCandle | None:
    """The test candle of a code as it is read off a tag, in small letters too."""
    found = TestCandle.objects.select_related(*MADE_OF)
    return found.filter(code=code.strip().upper()).first()


def combinations_of(trial: Trial) -> tuple[records.Combination, ...]:
    """One record per test candle, as planned or, where it departs, as weighed."""
    return tuple(combination_of(candle) for candle in candles_of(trial))


def combination_of(candle: TestCandle) -> records.Combination:
    """What one candle is made of; an empty value is unknown."""
    made = candle.combination
    oil = made.candidate.oil
    return records.Combination(
        candle=candle.code,
        oil=oil.name,
        supplier=oil.supplier.name if oil.supplier else None,
        load_percent=made.load_percent,
        wax=made.wax.name,
        wick=str(made.wick),
        wick_lot=candle.wick_lot.code if candle.wick_lot else None,
        fixing=made.fixing.kind if made.fixing else None,
        vessel=made.vessel.name,
        inside_mm=made.vessel.inside_mm,
        wax_g=None if made.fill_mg is None else made.fill_mg / 1000,
        wax_mm=made.fill_mm,
        card_cure_days=made.wax.cure_days,
        group=made.candidate.group or None,
        role=made.candidate.role,
    )


def theme_of(trial: Trial) -> tuple[records.ThemeMember, ...]:
    """The candidates of which at most one of a group joins."""
    return tuple(
        records.ThemeMember(candidate=member.oil.name, group=member.group)
        for member in trial.candidates.exclude(group="").select_related("oil")
    )
