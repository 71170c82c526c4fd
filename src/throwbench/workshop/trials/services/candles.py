"""Test candles: made with a code of their own, and put right when two tags were swapped."""

import random
from datetime import datetime

from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.corrections import put_right
from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Flaw, Lot, Piece
from throwbench.workshop.trials.codes import CHANCE, new_code
from throwbench.workshop.trials.models import Combination, Swap, TestCandle

WHAT_A_TAG_NAMES = ("combination", "pour", "piece", "wick_lot", "poured_on")
"""Everything that a code stands for. Burns and shelf stay with the code that was read off."""


@transaction.atomic
def make_candle(
    combination: Combination,
    *,
    code: str | None = None,
    piece: Piece | None = None,
    wick_lot: Lot | None = None,
    shelf: str = "",
    chance: random.Random = CHANCE,
    who: Person,
    now: datetime,
) -> TestCandle:
    """One test candle. Without a code it gets a new one from `chance`.

    Raises
    ------
    UnclearError
        The vessel has a structural flaw, or is of another kind than the combination's.
    """
    if piece is not None:
        may_be_lit(piece, combination)
    used = set(TestCandle.objects.values_list("code", flat=True))
    candle = TestCandle(
        code=code or new_code(used, chance=chance),
        combination=combination,
        piece=piece,
        wick_lot=wick_lot,
        shelf=shelf.strip(),
        made_at=now,
    )
    candle.full_clean()
    candle.save()
    return candle


@transaction.atomic
def fit_out(
    candle: TestCandle,
    *,
    shelf: str = "",
    piece: Piece | None = None,
    wick_lot: Lot | None = None,
    who: Person,
    now: datetime,
) -> TestCandle:
    """Where it stands, in which single vessel, and the lot of its wick.

    A vessel or lot that was noted before and is another one now stays visible as a slip.

    Raises
    ------
    UnclearError
        The vessel has a structural flaw, or is of another kind than the combination's.
    """
    if piece is not None:
        may_be_lit(piece, candle.combination)
    for field, value in (("piece", piece), ("wick_lot", wick_lot)):
        if getattr(candle, field) not in (None, value):
            put_right(candle, field=field, value=value, why="noted anew", who=who, now=now)
    candle.shelf, candle.piece, candle.wick_lot = shelf.strip(), piece, wick_lot
    candle.full_clean()
    candle.save(update_fields=["shelf", "piece", "wick_lot"])
    return candle


@transaction.atomic
def swap_tags(
    first: TestCandle, second: TestCandle, *, why: str, who: Person, now: datetime
) -> Swap:
    """Two tags were swapped: from now on each code stands for what the other one was.

    Burns and their checks stay with the code that was read when they were noted, because that is
    the tag which the burning candle wore.

    Raises
    ------
    UnclearError
        The two are of different trials, or there is no reason.
    """
    _can_be_swapped(first, second, why)
    swap = Swap(first=first, second=second, why=why.strip(), who=who, at=now)
    swap.full_clean()
    for name in WHAT_A_TAG_NAMES:
        mine, other = getattr(first, name), getattr(second, name)
        setattr(first, name, other)
        setattr(second, name, mine)
    for candle in (first, second):
        candle.save(update_fields=WHAT_A_TAG_NAMES)
    swap.save()
    return swap


def _can_be_swapped(first: TestCandle, second: TestCandle, why: str) -> None:
    trials = {candle.combination.candidate.trial_id for candle in (first, second)}
    if len(trials) > 1:
        raise UnclearError(
            f"{first} and {second} are of two trials.",
            "Tags are swapped within one trial.",
            "Check both codes.",
        )
    if not why.strip():
        raise UnclearError(
            "There is no reason.", "A swap is put right with one.", "Say how you know."
        )


def may_be_lit(piece: Piece, combination: Combination) -> None:
    """Whether this single vessel may hold a test candle of this combination."""
    if piece.flaw == Flaw.STRUCTURAL:
        raise UnclearError(
            f"{piece} has a structural flaw: {piece.flaw_note or 'no note'}.",
            "A vessel with a chip, a crack or a leak is never lit.",
            "Take another vessel.",
        )
    if piece.vessel_id != combination.vessel_id:
        raise UnclearError(
            f"{piece} is a {piece.vessel}.",
            f"This combination is planned in a {combination.vessel}.",
            "Take a vessel of that kind, or plan another combination.",
        )
