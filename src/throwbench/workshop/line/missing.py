"""What a trial still needs before a verdict can say much."""

from collections.abc import Iterator

from throwbench.records.attribute import LIT
from throwbench.workshop.panel.models import Score
from throwbench.workshop.trials.models import Burn, TestCandle, Trial


def missing_of(trial: Trial) -> tuple[str, ...]:
    """Sentences, the first step of the road first; empty where there is something of each."""
    return tuple(_missing(trial))


def _missing(trial: Trial) -> Iterator[str]:
    candles = TestCandle.objects.filter(combination__candidate__trial=trial)
    if not candles.exists():
        yield "No test candle is made yet. Plan one for each oil, and pour it."
    elif not candles.exclude(poured_on=None).exists():
        yield "No test candle is poured yet."
    burns = Burn.objects.filter(candle__in=candles, out_at__isnull=False)
    if not burns.exists():
        yield "No burn is in the log, so every limit is not yet known."
    scores = Score.objects.filter(sniff__seat__candle__in=candles)
    if not scores.filter(attribute__in=LIT).exists():
        yield "No liking and no hot throw is scored, so there is nothing to choose by."
    if not trial.bands.exists():
        yield "No band is set for hot throw, so stronger is not taken as better or worse."
