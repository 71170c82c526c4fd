"""A file of burns: one row per check, with the burn's own columns repeated or left blank."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from throwbench.formats.burn_questions import questions_of_burn
from throwbench.formats.candle_questions import questions_of_candle
from throwbench.formats.merge import BurnRows, merged
from throwbench.formats.problem import Fault, Note, Notes, Reading, problems_of
from throwbench.formats.questions import held_back, note
from throwbench.formats.rows import match_headers, read_columns
from throwbench.formats.spelling import two_spellings
from throwbench.formats.table import Source, read_table
from throwbench.formats.unread import candles_by_line, unread_looks
from throwbench.records import Burn, Check, Column, columns

OLDER_WORDS = {"look_h": "check_h"}


def read_burns(
    source: Source,
    *,
    inside_mm: Mapping[str, float] | None = None,
    house: Mapping[str, float] | None = None,
) -> Reading[Burn]:
    """Read a file of burns; `inside_mm` gives the inside diameter of the vessel by candle.

    `house` has the maker's own limits by rule id: a burn is asked about by them.

    A cell that cannot be read is left out and the rest of its row is kept, unlike in the other
    files: the rest may hold the sight of a broken limit, which a slip beside it must not hide.
    Without its candle, its number or its times a burn is nothing, and is left out as a whole.
    The checks of a burn stand in the order of their hours.

    Raises
    ------
    UnreadableFile
        If the file gives no row at all, or lacks a column that is needed.
    """
    table = read_table(source)
    wanted = (*columns(Burn), *columns(Check))
    headers, notes = match_headers(table, wanted, older=OLDER_WORDS)
    read = read_columns(table, map(_optional, wanted), headers=headers, left_out="cell")
    groups, lost = _by_burn(table.lines, read.values, table.columns[headers["burn"]])
    burns = []
    for group in groups:
        burn, found = merged(group)
        notes += found
        burns += [burn] if burn else []
    burns, asked = _questions(burns, inside_mm or {}, house or {})
    notes += [*table.notes, *read.notes, *lost, *asked, *two_spellings(burns, ("candle",))]
    return Reading(
        rows=tuple(burns),
        problems=problems_of(table.file, [_as_written(item, headers) for item in notes]),
        file=table.file,
        unread=unread_looks(
            table.file, notes, candles_by_line(table, headers["candle"]), house or {}
        ),
    )


def _as_written(item: Note, headers: Mapping[str, str]) -> Note:
    """A problem names its column as the file does, also where that is an older word."""
    return replace(item, column=headers.get(item.column, item.column))


def _optional(column: Column) -> Column:
    """A later row of a burn may leave any of the burn's columns blank."""
    return replace(column, required=False)


def _by_burn(
    lines: Iterable[int], values: Mapping[str, list[Any]], number_as_written: Iterable[str]
) -> tuple[list[BurnRows], list[Note]]:
    """The rows of each burn. A row with neither candle nor number goes with the row above it."""
    groups: dict[tuple[str, int], BurnRows] = {}
    notes = Notes()
    above: BurnRows | None = None
    rows = (dict(zip(values, cells, strict=True)) for cells in zip(*values.values(), strict=True))
    for line, row, written in zip(lines, rows, number_as_written, strict=True):
        candle, burn = row["candle"], row["burn"]
        if candle is not None and burn is not None:
            above = groups.setdefault((candle, burn), BurnRows(candle, burn))
        elif candle is not None or written:
            above = None
        if above is None:
            notes.add(line, "candle and burn", "", _OF_NO_BURN)
        else:
            above.rows.append((line, row))
    return list(groups.values()), notes.all()


_OF_NO_BURN = Fault(
    "refused",
    "the row belongs to no burn and is left out; each row needs the candle's code and the number "
    "of the burn, or neither where the row above has them: fill them in.",
)


def _questions(
    burns: list[Burn], inside_mm: Mapping[str, float], house: Mapping[str, float]
) -> tuple[list[Burn], list[Note]]:
    """The burns as they can be used, and what is asked about them."""
    kept, notes = _one_clock(burns)
    by_candle: dict[str, list[Burn]] = {}
    for burn in kept:
        found = questions_of_burn(burn, inside_mm=inside_mm.get(burn.candle), house=house)
        notes += found
        if not any(item.fault.outcome == "refused" for item in found):
            by_candle.setdefault(burn.candle, []).append(held_back(burn, found))
    usable = {burn.line: burn for group in by_candle.values() for burn in group}
    for group in by_candle.values():
        notes += questions_of_candle(group, house=house)
    return [usable[burn.line] for burn in kept if burn.line in usable], notes


def _one_clock(burns: Iterable[Burn]) -> tuple[list[Burn], list[Note]]:
    """Burns whose times all carry an offset from UTC, or none does, as in the first burn."""
    kept: list[Burn] = []
    notes = []
    first: bool | None = None
    for burn in burns:
        with_offset = {at.utcoffset() is not None for at in (burn.lit_at, burn.out_at)}
        first = burn.lit_at.utcoffset() is not None if first is None else first
        if with_offset == {first}:
            kept.append(burn)
        else:
            notes.append(_other_clock(burn))
    return kept, notes


def _other_clock(burn: Burn) -> Note:
    return note(
        burn.line,
        "lit_at",
        burn.lit_at,
        "refused",
        f"{burn.lit_at} to {burn.out_at} is refused and the burn left out, the times of the "
        "first burn are written otherwise; either every time has its offset from UTC (+02:00) "
        "or none has: write them alike.",
    )
