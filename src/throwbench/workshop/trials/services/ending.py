"""What follows from a burn: a candle that is not lit again, a vessel that is never used again."""

from datetime import datetime

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Flaw
from throwbench.workshop.shelf.services import note_flaw
from throwbench.workshop.trials.models import Burn, TestCandle

FLOATED = "the wick floated"
DAMAGE = {
    "yes": "the vessel is damaged",
    "chip": "chip in the vessel",
    "crack": "crack in the vessel",
    "leak": "the vessel leaks",
}


def why_ended(burn: Burn) -> str:
    """Why a candle is not lit again after this burn; empty where it may be."""
    return FLOATED if burn.wick_moved else DAMAGE.get(burn.vessel_damage, "")


def follow_up(burn: Burn, *, who: Person, now: datetime) -> None:
    """End the candle, and mark its vessel, where the burn says so."""
    candle = TestCandle.objects.select_related("piece").get(pk=burn.candle_id)
    why = why_ended(burn)
    if why and candle.ended_at is None:
        candle.ended_at, candle.ended_because = burn.out_at, why
        candle.full_clean()
        candle.save(update_fields=["ended_at", "ended_because"])
    damage = DAMAGE.get(burn.vessel_damage)
    if damage and candle.piece is not None and candle.piece.flaw != Flaw.STRUCTURAL:
        note = f"{damage}, seen after burn {burn.number} of {candle}"
        note_flaw(candle.piece, flaw=Flaw.STRUCTURAL, note=note, who=who, now=now)


def reopen(burn: Burn) -> None:
    """After a slip was put right: a candle that no burn ends any more may be lit again."""
    candle = TestCandle.objects.get(pk=burn.candle_id)
    reasons = {FLOATED, *DAMAGE.values()}
    if candle.ended_because in reasons and not any(map(why_ended, candle.burns.all())):
        candle.ended_at, candle.ended_because = None, ""
        candle.save(update_fields=["ended_at", "ended_because"])
