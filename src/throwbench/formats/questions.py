"""A question about values that read well alone but not beside their neighbours."""

from collections.abc import Iterable
from dataclasses import fields, replace
from datetime import datetime
from typing import Any

from throwbench.formats.problem import Fault, Note, Outcome
from throwbench.records import Burn, Check

_OF_CHECK = frozenset(item.name for item in fields(Check)) - {"line"}


def note(line: int, column: str, value: object, outcome: Outcome, sentence: str) -> Note:
    return Note(line, column, str(value), Fault(outcome, sentence))


def moment(value: datetime) -> str:
    return value.isoformat(sep=" ", timespec="minutes")


def held_back(burn: Burn, notes: Iterable[Note]) -> Burn:
    """The burn without the values that are held back until the maker answers."""
    empty = {(item.line, item.column) for item in notes if item.fault.outcome == "held back"}
    of_burn: dict[str, Any] = {column: None for _, column in empty if column not in _OF_CHECK}
    checks = tuple(_emptied(check, empty) for check in burn.checks)
    return replace(burn, checks=checks, **of_burn)


def _emptied(check: Check, empty: Iterable[tuple[int, str]]) -> Check:
    of_check: dict[str, Any] = {
        column: None for line, column in empty if line == check.line and column in _OF_CHECK
    }
    return replace(check, **of_check)
