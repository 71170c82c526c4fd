"""Vessels and their pieces."""

from dataclasses import dataclass

from django.db.models import Count, Q, QuerySet

from throwbench.science.words import plain
from throwbench.verdict.words import listed, number
from throwbench.workshop.shelf.models import Flaw, Piece, Vessel
from throwbench.workshop.shelf.selectors.words import NARROW

CHIPS = {
    Flaw.NONE: ("seen", "no flaw noted"),
    Flaw.COSMETIC: ("test again", "for tests only"),
    Flaw.STRUCTURAL: ("broken", "never lit"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRow:
    """A piece with the chip of its flaw."""

    piece: Piece
    state: str
    words: str
    washed: str


def vessels() -> QuerySet[Vessel]:
    """All kinds of vessels, each with how many named pieces, and how many are never lit."""
    return Vessel.objects.annotate(
        named=Count("pieces"),
        never_lit=Count("pieces", filter=Q(pieces__flaw=Flaw.STRUCTURAL)),
    )


def structural_flaws() -> QuerySet[Piece]:
    """Pieces that are never lit, the newest find first."""
    return (
        Piece.objects.filter(flaw=Flaw.STRUCTURAL)
        .select_related("vessel", "flaw_seen_by")
        .order_by("-flaw_seen_at", "name")
    )


def never_lit_sentence(piece: Piece) -> str:
    """'Cup 7 is never lit: a chip at the rim.'"""
    why = f": {piece.flaw_note}" if piece.flaw_note else ""
    return f"{piece.name} is never lit{why}."


def vessel_sentence(vessel: Vessel) -> str:
    """'68 mm inside, 74 mm high, 210 ml to the brim.'"""
    figures = (
        (vessel.inside_mm, "mm inside"),
        (vessel.height_mm, "mm high"),
        (vessel.brim_ml, "ml to the brim"),
    )
    known = [f"{plain(value)}{NARROW}{unit}" for value, unit in figures if value is not None]
    missing = [unit.split(" ", 1)[1] for value, unit in figures if value is None]
    if not known:
        return "None of its measures is known yet."
    said = ", ".join(known)
    return f"{said}; {listed(missing)}: not known." if missing else f"{said}."


def pieces() -> QuerySet[Piece]:
    return Piece.objects.select_related("vessel", "flaw_seen_by")


def piece_rows(vessel: Vessel) -> tuple[PieceRow, ...]:
    """The named pieces of a kind of vessel."""
    return tuple(
        PieceRow(piece=row, state=state, words=words, washed=washed_words(row.times_washed))
        for row in pieces().filter(vessel=vessel)
        for state, words in (CHIPS[Flaw(row.flaw)],)
    )


def piece_sentence(piece: Piece) -> str:
    """What may be done with one piece."""
    if piece.flaw == Flaw.STRUCTURAL:
        return never_lit_sentence(piece)
    why = f": {piece.flaw_note}" if piece.flaw_note else ""
    if piece.flaw == Flaw.COSMETIC:
        return f"{piece.name} is for tests only{why}."
    return f"{piece.name} has no flaw noted, and was {washed_words(piece.times_washed)}."


def washed_words(times: int) -> str:
    """'never washed', 'washed once', 'washed three times'."""
    counts = {0: "never washed", 1: "washed once", 2: "washed twice"}
    return counts.get(times, f"washed {number(times)} times")
