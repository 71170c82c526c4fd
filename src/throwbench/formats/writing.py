"""Records as a file that reads back the same."""

import csv
import io
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Any

from throwbench.formats.cells import is_free_text
from throwbench.formats.formula import guarded
from throwbench.formats.scores import CANNOT_TELL
from throwbench.formats.slips import is_like_fahrenheit
from throwbench.records import Burn, Check, Column, Score, columns


def write_csv(rows: Iterable[Any], record_type: type, *, leave_out_empty: bool = False) -> str:
    """The rows as comma separated text with a first line of names.

    `leave_out_empty` leaves out the columns in which no row has a value. Burns get one row per
    check; their own columns stand on the first row, the candle and the number on each.
    Text that a spreadsheet would take for a formula gets an apostrophe in front. A temperature
    that would be taken for °F has its unit behind it.
    """
    wanted = list(columns(record_type))
    if record_type is Burn:
        wanted += columns(Check)
        lines = [line for burn in rows for line in _lines_of(burn)]
    else:
        lines = [{column.name: getattr(row, column.name) for column in wanted} for row in rows]
    texts = [[_cell(line.get(column.name), column) for column in wanted] for line in lines]
    if record_type is Score:
        texts = _say_cannot_tell(texts, wanted)
    kept = [
        place
        for place, column in enumerate(wanted)
        if column.required or not leave_out_empty or any(text[place] for text in texts)
    ]
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow([wanted[place].name for place in kept])
    writer.writerows([text[place] for place in kept] for text in texts)
    return stream.getvalue()


def _lines_of(burn: Burn) -> Iterator[dict[str, Any]]:
    own = {column.name: getattr(burn, column.name) for column in columns(Burn)}
    checks = [
        {item.name: getattr(check, item.name) for item in columns(Check)} for check in burn.checks
    ]
    yield own | (checks[0] if checks else {})
    for check in checks[1:]:
        yield {"candle": burn.candle, "burn": burn.burn} | check


def _say_cannot_tell(texts: list[list[str]], wanted: list[Column]) -> list[list[str]]:
    place = next(number for number, column in enumerate(wanted) if column.name == "score")
    return [[*text[:place], text[place] or CANNOT_TELL, *text[place + 1 :]] for text in texts]


def _cell(value: Any, column: Column) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        whole = not value.second and not value.microsecond
        return value.isoformat(sep=" ", timespec="minutes" if whole else "auto")
    if isinstance(value, int | float) and is_like_fahrenheit(value, column):
        return f"{value} °C"
    text = str(value)
    return guarded(text) if is_free_text(column) else text
