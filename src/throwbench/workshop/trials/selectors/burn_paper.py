"""What the burn sheet of a trial is made from."""

from datetime import date

from django.db.models import Count

from throwbench.documents.burn_sheet import BurnRow, BurnSheet
from throwbench.documents.heading import Heading
from throwbench.workshop.house.models import Workshop
from throwbench.workshop.house.selectors import house_limits
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.selectors.broken import judged, why_not_again
from throwbench.workshop.trials.selectors.made_of import shown_of


def burn_sheet_of(trial: Trial, *, here: Workshop, day: date) -> BurnSheet:
    """A part for each candle that is poured and may be lit. The code alone: a sheet is seen, and
    in a sealed trial a wick tells the oil to whoever planned it."""
    found = shown_of(trial).filter(poured_on__isnull=False, ended_at=None)
    candles = list(found.annotate(burned=Count("burns")))
    limits = judged(candles, day)
    return BurnSheet(
        heading=Heading(workshop=here.name, trial=trial.name, day=day, invented=here.invented),
        candles=tuple(
            BurnRow(
                code=candle.code,
                vessel=candle.combination.vessel.name,
                inside_mm=candle.combination.vessel.inside_mm,
                wick="" if trial.is_sealed else str(candle.combination.wick),
                burn=candle.burned + 1,
            )
            for candle in candles
            if not why_not_again(limits.get(candle.code))
        ),
        sealed=trial.is_sealed,
        house=house_limits(),
    )
