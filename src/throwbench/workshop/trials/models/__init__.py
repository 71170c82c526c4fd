"""A trial: what is asked, what is poured, what is burned, and what was put right."""

from throwbench.workshop.trials.models.burn import Burn, BurnKind, Check
from throwbench.workshop.trials.models.candle import Combination, Swap, TestCandle
from throwbench.workshop.trials.models.photo import Photo
from throwbench.workshop.trials.models.plan import Band, Candidate, SealBreak, Trial
from throwbench.workshop.trials.models.pour import Pour, Temperature, Weighing

__all__ = [
    "Band",
    "Burn",
    "BurnKind",
    "Candidate",
    "Check",
    "Combination",
    "Photo",
    "Pour",
    "SealBreak",
    "Swap",
    "Temperature",
    "TestCandle",
    "Trial",
    "Weighing",
]
