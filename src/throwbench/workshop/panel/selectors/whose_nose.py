"""What a phone that goes round shows: names, the next one first, and who is done."""

from collections.abc import Sequence
from dataclasses import dataclass

from throwbench.documents.words import in_words
from throwbench.workshop.panel.models import Seat
from throwbench.workshop.panel.selectors.sittings import OpenSitting
from throwbench.workshop.trials.times import clock


@dataclass(frozen=True, slots=True, kw_only=True)
class NoseRow:
    """One name; `is_next` is the one who may go now."""

    nose: int
    name: str
    said: str
    comes: bool
    sits_out: bool
    is_next: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WhoseNose:
    where: str
    rows: tuple[NoseRow, ...]
    clean_air_min: int


def whose_nose_page(sittings: Sequence[OpenSitting]) -> WhoseNose:
    """Who comes first, who rests in clean air next, then who is done or sits out."""
    ordered = sorted(sittings, key=_turn)
    goes = next((row for row in ordered if row.comes and row.free_at is None), None)
    rows = tuple(_row(row, is_next=row is goes) for row in ordered)
    panel = sittings[0].sitting.panel
    seats = sorted((*sittings[0].ahead, *sittings[0].given), key=lambda seat: seat.position)
    return WhoseNose(where=_where(seats), rows=rows, clean_air_min=panel.clean_air_min)


def seats_ahead(rows: Sequence[OpenSitting]) -> tuple[Seat, ...]:
    """Where a nose still goes, in its order; nowhere where it is done or sits out."""
    return tuple(seat for row in rows if row.comes for seat in row.ahead)


def _turn(row: OpenSitting) -> tuple[bool, bool, float, int]:
    rests_until = row.free_at.timestamp() if row.free_at else 0.0
    return not row.comes, row.sits_out, rests_until, row.sitting.pk


def _row(row: OpenSitting, *, is_next: bool) -> NoseRow:
    return NoseRow(
        nose=row.sitting.assessor_id,
        name=row.name,
        said=_said(row),
        comes=row.comes,
        sits_out=row.sits_out,
        is_next=is_next,
    )


def _said(row: OpenSitting) -> str:
    if row.sits_out:
        return "sits out today: press to take part"
    if row.is_done:
        return "done for today"
    if row.free_at is not None:
        return f"clean air until {clock(row.free_at)}"
    seat = row.ahead[0]
    return f"{seat.tag}, {seat.room}"


def _where(seats: Sequence[Seat]) -> str:
    """'Two candles: 417, 682'."""
    thing = "blotter" if seats and seats[0].oil_id else "candle"
    count = in_words(len(seats), thing)
    return f"{count.capitalize()}: {', '.join(seat.tag for seat in seats)}"
