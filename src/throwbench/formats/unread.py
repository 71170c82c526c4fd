"""What of a burn log could not be read and may hide a broken limit."""

from collections.abc import Iterable, Mapping

from throwbench.formats.problem import Note, shown
from throwbench.formats.table import Table

LOOKS = frozenset(
    {
        "candle and burn",
        "burn",
        "lit_at",
        "out_at",
        "lit_at and out_at",
        "put_out",
        "relit",
        "wick_moved",
        "vessel_damage",
        "no_change",
        "flame",
        "flame_mm",
        "flare_up",
        "flare_up_s",
        "soot",
    }
)
"""Columns, as a problem names them, that say what a person saw, or without which a burn is lost."""


def candles_by_line(table: Table, column: str) -> dict[int, str]:
    """The candle of each line; a blank cell belongs to the candle above."""
    candles: dict[int, str] = {}
    above = ""
    for line, cell in zip(table.lines, table.columns[column], strict=True):
        above = cell or above
        candles[line] = above
    return candles


def unread_looks(file: str, notes: Iterable[Note], candles: Mapping[int, str]) -> dict[str, str]:
    """By candle, the first look that was refused or held back, and what to do about it."""
    found: dict[str, str] = {}
    for note in sorted(notes, key=lambda item: item.line):
        candle = candles.get(note.line, "")
        if candle and note.fault.outcome != "asked" and note.column in LOOKS:
            value = f" ({shown(note.value)})" if note.value else ""
            found.setdefault(
                candle,
                f"Put right {file}, line {note.line}, {note.column}{value}: it could not be used "
                f"and may hide a broken limit of {candle}.",
            )
    return found
