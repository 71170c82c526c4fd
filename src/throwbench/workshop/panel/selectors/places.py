"""What can be sniffed at a new panel: poured candles with a code, or oils on a blotter."""

from dataclasses import dataclass
from datetime import date

from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.models import Burn, BurnKind, TestCandle, Trial
from throwbench.workshop.trials.selectors.broken import judged, why_not_again
from throwbench.workshop.trials.selectors.made_of import MADE_OF


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One that may take part. `said` is what helps to choose; a sealed trial names no oil."""

    field: str
    label: str
    said: str
    what: TestCandle | Oil
    room_pk: int | None = None


def candle_places(trial: Trial, today: date) -> list[Place]:
    """Candles that are poured and not ended, by code; one in a nose burn stands in its room."""
    candles = list(
        TestCandle.objects.filter(
            combination__candidate__trial=trial, poured_on__isnull=False, ended_at=None
        )
        .select_related(*MADE_OF)
        .order_by("code")
    )
    lit = {
        burn.candle_id: burn
        for burn in Burn.objects.filter(candle__in=candles, out_at=None).select_related("room")
    }
    limits = judged(candles, today)
    return [
        _candle(one, lit.get(one.pk), today, spent=why_not_again(limits.get(one.code)))
        for one in candles
    ]


def blotter_places(trial: Trial) -> list[Place]:
    """Oils of the trial. A blotter has no code: whoever lays it out knows the oil."""
    return [
        Place(field=f"oil_{one.oil_id}", label=one.oil.name, said="", what=one.oil)
        for one in trial.candidates.select_related("oil")
    ]


def _candle(candle: TestCandle, burn: Burn | None, today: date, *, spent: str) -> Place:
    candidate = candle.combination.candidate
    said = [] if candidate.trial.is_sealed else [candidate.oil.name]
    said.append(_cure(candle, today))
    if burn is not None:
        said.append(f"lit now, {burn.get_kind_display()}")
    if spent:
        said.append(f"{spent}: not lit again")
    is_nose_burn = burn is not None and burn.kind == BurnKind.NOSE
    return Place(
        field=f"candle_{candle.code}",
        label=candle.code,
        said=", ".join(said),
        what=candle,
        room_pk=burn.room_id if burn and is_nose_burn else None,
    )


def _cure(candle: TestCandle, today: date) -> str:
    """'day 9 of 10 of its cure: its scores are shown and not counted', 'cured, day 14'."""
    assert candle.poured_on is not None
    day, card_days = (today - candle.poured_on).days, candle.combination.wax.cure_days
    if card_days is None:
        return f"day {day}, its cure is not known"
    if day < card_days:
        return f"day {day} of {card_days} of its cure: its scores are shown and not counted"
    return f"cured, day {day}"
