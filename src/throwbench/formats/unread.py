"""What of a burn log could not be read and may hide a broken limit."""

from collections.abc import Iterable, Mapping

from throwbench.formats.problem import Note, shown
from throwbench.formats.table import Table
from throwbench.rules import columns_that_break

NEEDED = frozenset({"candle and burn", "burn", "lit_at", "out_at", "lit_at and out_at"})
"""Columns, as a problem names them, without which a burn is lost."""


def candles_by_line(table: Table, column: str) -> dict[int, str]:
    """The candle of each line; a blank cell belongs to the candle above."""
    candles: dict[int, str] = {}
    above = ""
    for line, cell in zip(table.lines, table.columns[column], strict=True):
        above = cell or above
        candles[line] = above
    return candles


def unread_looks(
    file: str, notes: Iterable[Note], candles: Mapping[int, str], house: Mapping[str, float]
) -> dict[str, str]:
    """By candle, the first look that was refused or held back, and what to do about it.

    `house` has the maker's own limits by rule id: some rules break a candle only once they are set.
    """
    looks = NEEDED | columns_that_break(house)
    found: dict[str, str] = {}
    for note in sorted(notes, key=lambda item: item.line):
        candle = candles.get(note.line, "")
        if candle and note.fault.outcome != "asked" and note.column in looks:
            value = f" ({shown(note.value)})" if note.value else ""
            found.setdefault(
                candle,
                f"Put right {file}, line {note.line}, {note.column}{value}: it could not be used "
                f"and may hide a broken limit of {candle}.",
            )
    return found
