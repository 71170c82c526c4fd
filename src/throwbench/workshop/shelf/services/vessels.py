"""Vessels and single pieces: what is wrong with a piece is never taken back silently."""

from datetime import datetime
from typing import Any
from uuid import UUID

from django.db import transaction

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.corrections import put_all_right
from throwbench.workshop.house.entries import seen_before
from throwbench.workshop.house.models import Correction, Person
from throwbench.workshop.shelf.models import Flaw, Piece, Vessel
from throwbench.workshop.shelf.services.keeping import NEW_PAPER, kept, only

FACTS = ("name", "inside_mm", "height_mm", "brim_ml", "material")
LESS = {Flaw.NONE: 0, Flaw.COSMETIC: 1, Flaw.STRUCTURAL: 2}


@transaction.atomic
def add_vessel(
    *,
    name: str,
    inside_mm: float | None = None,
    height_mm: float | None = None,
    brim_ml: float | None = None,
    material: str = "",
    who: Person,
    now: datetime,
) -> Vessel:
    """A kind of vessel: inside diameter [mm], height [mm], volume to the brim [ml]."""
    return kept(
        Vessel(
            name=name.strip(),
            inside_mm=inside_mm,
            height_mm=height_mm,
            brim_ml=brim_ml,
            material=material.strip(),
        )
    )


@transaction.atomic
def change_vessel(
    vessel: Vessel, *, why: str = NEW_PAPER, who: Person, now: datetime, **facts: Any
) -> list[Correction]:
    """Change what is known of a vessel; what it was stays visible."""
    values = only(facts, FACTS)
    return put_all_right(vessel, values=values, why=why.strip() or NEW_PAPER, who=who, now=now)


@transaction.atomic
def add_piece(
    vessel: Vessel,
    *,
    name: str,
    flaw: str = Flaw.NONE,
    flaw_note: str = "",
    who: Person,
    now: datetime,
) -> Piece:
    """One single vessel with a name of its own."""
    flawed = flaw != Flaw.NONE
    return kept(
        Piece(
            vessel=vessel,
            name=name.strip(),
            flaw=flaw,
            flaw_note=flaw_note.strip(),
            flaw_seen_by=who if flawed else None,
            flaw_seen_at=now if flawed else None,
        )
    )


@transaction.atomic
def note_flaw(piece: Piece, *, flaw: str, note: str, who: Person, now: datetime) -> None:
    """A flaw was seen on a piece. A lesser one than is noted is a slip put right, with a reason.

    Raises
    ------
    UnclearError
        A worse flaw is noted already.
    """
    if LESS[Flaw(flaw)] < LESS[Flaw(piece.flaw)]:
        raise UnclearError(
            f"{piece} has a {piece.flaw} flaw already.",
            "A flaw is noted as it gets worse, and is never taken back silently.",
            "If it was noted by mistake, put it right and say why.",
        )
    _set_flaw(piece, flaw, note, why=note.strip() or "seen", who=who, now=now)


@transaction.atomic
def put_flaw_right(
    piece: Piece, *, flaw: str, note: str = "", why: str, who: Person, now: datetime
) -> None:
    """The flaw of a piece was noted by mistake; what was noted stays visible.

    Raises
    ------
    UnclearError
        No reason was given.
    """
    _set_flaw(piece, flaw, note, why=why, who=who, now=now)


def _set_flaw(piece: Piece, flaw: str, note: str, *, why: str, who: Person, now: datetime) -> None:
    put_all_right(
        piece, values={"flaw": flaw, "flaw_note": note.strip()}, why=why, who=who, now=now
    )
    piece.flaw_seen_by, piece.flaw_seen_at = who, now
    piece.save(update_fields=["flaw_seen_by", "flaw_seen_at"])


@transaction.atomic
def wash(piece: Piece, *, who: Person, now: datetime, entry: UUID | None = None) -> None:
    """A piece was emptied and washed once more."""
    if seen_before(entry, what="wash", content={"piece": piece.pk}, who=who, now=now):
        return
    piece.times_washed += 1
    piece.save(update_fields=["times_washed"])
