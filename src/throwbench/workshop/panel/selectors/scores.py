"""The scores of a trial as records, in the order in which they were given."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any

from django.db.models import F

from throwbench import records
from throwbench.workshop.panel.models import Asks, Panel, Score
from throwbench.workshop.trials.models import Burn, BurnKind, Trial

KindAt = Callable[[str, datetime], str]


def scores_of(trial: Trial) -> tuple[records.Score, ...]:
    """One record per answer at a candle; blotters stay out, since they are of no candle."""
    kind_at = _kinds(trial)
    name = _sitting_names(trial)
    rows = (
        Score.objects.filter(sniff__sitting__panel__trial=trial, sniff__seat__candle__isnull=False)
        .order_by("sniff__at", "sniff_id", "id")
        .values(
            "attribute",
            "value",
            at=F("sniff__at"),
            minutes_lit=F("sniff__minutes_lit"),
            clean_air_min=F("sniff__clean_air_min"),
            recognised=F("sniff__recognised"),
            tired=F("sniff__tired"),
            sitting_tired=F("sniff__sitting__tired"),
            perfume=F("sniff__sitting__perfume"),
            assessor=F("sniff__sitting__assessor__name"),
            day=F("sniff__sitting__panel__day"),
            asks=F("sniff__sitting__panel__asks"),
            room=F("sniff__seat__room__name"),
            code=F("sniff__seat__candle__code"),
            poured_on=F("sniff__seat__candle__poured_on"),
            oil=F("sniff__seat__candle__combination__candidate__oil__name"),
        )
    )
    return tuple(_record(row, name, kind_at) for row in rows.iterator())


def _record(
    row: Mapping[str, Any], name: Callable[[date, str], str], kind_at: KindAt
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
        minutes_lit=row["minutes_lit"],
        clean_air_min=row["clean_air_min"],
        burn_kind="unlit" if row["asks"] == Asks.UNLIT else kind_at(row["code"], row["at"]),
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


def _kinds(trial: Trial) -> KindAt:
    """The kind of burn a candle was in at a time; nose where none was noted."""
    burns: dict[str, list[tuple[datetime, datetime | None, str]]] = defaultdict(list)
    found = Burn.objects.filter(candle__combination__candidate__trial=trial)
    columns = ("candle__code", "lit_at", "out_at", "kind")
    for code, lit_at, out_at, kind in found.values_list(*columns):
        burns[code].append((lit_at, out_at, kind))

    def kind_at(code: str, at: datetime) -> str:
        for lit_at, out_at, kind in burns[code]:
            if lit_at <= at and (out_at is None or at <= out_at):
                return kind
        return BurnKind.NOSE.value

    return kind_at
