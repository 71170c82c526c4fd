"""The rows of one burn as one burn."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from throwbench.formats.numbers import said
from throwbench.formats.problem import Note, Outcome
from throwbench.formats.questions import moment, note
from throwbench.records import Burn, Check, Column, columns

OF_BURN = tuple(item for item in columns(Burn) if item.name not in {"candle", "burn"})
OF_CHECK = columns(Check)
WORSE_LAST = ("put_out", "vessel_damage")
"""Columns whose words go from harmless to grave: of two words the graver one is used."""

_Written = list[tuple[int, Any]]


@dataclass(slots=True)
class BurnRows:
    """The rows of one burn, each with its line and its values by column."""

    candle: str
    burn: int
    rows: list[tuple[int, Mapping[str, Any]]] = field(default_factory=list)


def merged(group: BurnRows) -> tuple[Burn | None, list[Note]]:
    """One burn of its rows, or None if nobody wrote when it was lit and when it was out."""
    line = group.rows[0][0]
    values: dict[str, Any] = {}
    notes: list[Note] = []
    for column in OF_BURN:
        if column.name not in group.rows[0][1]:
            continue
        written = [(at, row[column.name]) for at, row in group.rows if row[column.name] is not None]
        if written:
            values[column.name], found = _one_value(column, written)
            notes += found
    missing = [item.name for item in OF_BURN if item.required and item.name not in values]
    if missing:
        return None, [*notes, _no_times(group, line, missing)]
    checks, repeated = _checks(group)
    burn = Burn(candle=group.candle, burn=group.burn, line=line, checks=tuple(checks), **values)
    return burn, notes + repeated


def _no_times(group: BurnRows, line: int, missing: Iterable[str]) -> Note:
    return note(
        line,
        " and ".join(missing),
        "",
        "refused",
        f"burn {group.burn} of candle {group.candle} has no {' and no '.join(missing)} and is "
        "left out with its checks; one row of each burn needs both times: fill them in.",
    )


def _one_value(column: Column, written: _Written) -> tuple[Any, list[Note]]:
    """The value that the rows agree on. Where they do not, a slip must not hide what is grave."""
    line, first = written[0]
    others = [(at, value) for at, value in written if value != first]
    if not others:
        return first, []
    if column.name == "note":
        return "; ".join(dict.fromkeys(value for _, value in written)), []
    if column.required:
        used, words = first, f"the one of line {line} is used"
    elif isinstance(first, bool):
        used, words = True, "yes is used, to be careful"
    elif column.name in WORSE_LAST:
        used = max((value for _, value in written), key=column.words.index)
        words = f"{used} is used, to be careful"
    else:
        used, words = None, "neither is used"
    outcome: Outcome = "held back" if used is None else "asked"
    at, other = others[0]
    return used, [
        note(
            at,
            column.name,
            other,
            outcome,
            f"{_said(other)} here and {_said(first)} on line {line} of the same burn, {words}; "
            "the rows of one burn say the same or leave the cell empty: correct one of them.",
        )
    ]


def _said(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, datetime):
        return moment(value)
    return said(value) if isinstance(value, float) else str(value)


def _checks(group: BurnRows) -> tuple[list[Check], list[Note]]:
    """The checks by their hours, those without an hour last; a row written twice counts once."""
    checks: list[Check] = []
    notes: list[Note] = []
    seen: dict[tuple[Any, ...], int] = {}
    hours: dict[float, int] = {}
    for line, row in group.rows:
        values = {item.name: row.get(item.name) for item in OF_CHECK}
        if all(value is None for value in values.values()):
            continue
        if tuple(values.values()) in seen:
            notes.append(_twice(line, values["check_h"], seen[tuple(values.values())]))
            continue
        seen[tuple(values.values())] = line
        hour = values["check_h"]
        if hour is not None and hours.setdefault(hour, line) != line:
            notes.append(_same_hour(line, hour, hours[hour]))
        checks.append(Check(line=line, **values))
    checks.sort(key=lambda check: float("inf") if check.check_h is None else check.check_h)
    return checks, notes


def _twice(line: int, hour: float | None, first: int) -> Note:
    return note(
        line,
        "check_h",
        "" if hour is None else f"{hour:g}",
        "refused",
        f"the check says the same as line {first} of the same burn and counts once; "
        "each check has one row: take one of them out.",
    )


def _same_hour(line: int, hour: float, first: int) -> Note:
    return note(
        line,
        "check_h",
        f"{hour:g}",
        "asked",
        f"{hour:g} h is the hour of line {first} too, both are used as written; "
        "each check of a burn has its own hour: check the hours, and the number of the burn.",
    )
