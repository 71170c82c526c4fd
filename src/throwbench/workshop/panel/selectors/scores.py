"""The scores of a trial as records, in the order in which they were given."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from django.db.models import F

from throwbench import records
from throwbench.workshop.panel.models import Panel, Score
from throwbench.workshop.panel.selectors.moments import Moment, Told, moments_of
from throwbench.workshop.trials.models import Trial


def scores_of(trial: Trial) -> tuple[records.Score, ...]:
    """One record per answer at a candle; blotters stay out, since they are of no candle."""
    name = _sitting_names(trial)
    rows = list(
        Score.objects.filter(sniff__sitting__panel__trial=trial, sniff__seat__candle__isnull=False)
        .order_by("sniff__at", "sniff_id", "id")
        .values(
            "attribute",
            "value",
            "sniff",
            at=F("sniff__at"),
            is_timed=F("sniff__is_timed"),
            minutes_lit=F("sniff__minutes_lit"),
            clean_air_min=F("sniff__clean_air_min"),
            recognised=F("sniff__recognised"),
            tired=F("sniff__tired"),
            sitting_tired=F("sniff__sitting__tired"),
            perfume=F("sniff__sitting__perfume"),
            nose=F("sniff__sitting__assessor"),
            assessor=F("sniff__sitting__assessor__name"),
            day=F("sniff__sitting__panel__day"),
            asks=F("sniff__sitting__panel__asks"),
            room=F("sniff__seat__room__name"),
            candle=F("sniff__seat__candle"),
            code=F("sniff__seat__candle__code"),
            poured_on=F("sniff__seat__candle__poured_on"),
            oil=F("sniff__seat__candle__combination__candidate__oil__name"),
        )
    )
    moments = moments_of([_told(row) for row in {row["sniff"]: row for row in rows}.values()])
    return tuple(_record(row, name, moments[row["sniff"]]) for row in rows)


def _told(row: Mapping[str, Any]) -> Told:
    names = ("sniff", "candle", "asks", "is_timed", "at", "minutes_lit", "clean_air_min")
    return Told(assessor=row["nose"], **{name: row[name] for name in names})


def _record(
    row: Mapping[str, Any], name: Callable[[date, str], str], moment: Moment
) -> records.Score:
    poured_on: date | None = row["poured_on"]
    return records.Score(
        candle=row["code"],
        candidate=row["oil"],
        assessor=row["assessor"],
        room=row["room"],
        sitting=name(row["day"], row["assessor"]),
        attribute=row["attribute"],
        score=row["value"],
        cure_days=None if poured_on is None else (row["day"] - poured_on).days,
        minutes_lit=moment.minutes_lit,
        clean_air_min=moment.clean_air_min,
        burn_kind=moment.burn_kind,
        tired=row["sitting_tired"] if row["tired"] is None else row["tired"],
        perfume=row["perfume"],
        recognised=row["recognised"],
    )


def _sitting_names(trial: Trial) -> Callable[[date, str], str]:
    """'18 May Odd'; with the year where the trial's panels lie in several."""
    days = Panel.objects.filter(trial=trial).values_list("day", flat=True)
    pattern = "%B" if len({day.year for day in days}) < 2 else "%B %Y"

    def name(day: date, assessor: str) -> str:
        return f"{day.day} {day:{pattern}} {assessor}"

    return name
