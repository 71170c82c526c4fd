"""What is told of a burn and of a look at it, by the fields that keep it: the records list it."""

from typing import Any

from django.db.models import Model

from throwbench.formats.cells import kind_of
from throwbench.records import Burn, Check, Column, columns
from throwbench.records.column import Told
from throwbench.science.units import grams_of, named


def kept_as(name: str) -> str:
    """The field of a column: a weight is kept in whole milligrams."""
    return f"{name.removesuffix('_g')}_mg" if name.endswith("_g") else name


def _told(record: type, when: Told) -> tuple[str, ...]:
    return tuple(kept_as(column.name) for column in columns(record) if column.told == when)


BEGUN = _told(Burn, "lit")
"""What is told as a candle is lit."""
LOOKS = _told(Check, "look")
"""What a check can tell."""
ENDS = _told(Burn, "out")
"""What is told of a burn once it is over."""
COLUMNS = {kept_as(column.name): column for column in (*columns(Burn), *columns(Check))}
"""By the field that keeps it."""


def label_of(field: str) -> str:
    """How a sentence begins that is about a field, and how its box is called."""
    return COLUMNS[field].label or named(field)[0].capitalize()


def is_text(field: str) -> bool:
    """Whether a field is empty text where nothing was seen, and not null."""
    return kind_of(COLUMNS[field]) is str


def told_of(row: Model, record: type) -> dict[str, Any]:
    """What a row tells, by column of its record: weights in grams, None where nothing is told."""
    return {column.name: _value(row, column) for column in columns(record) if column.told}


def _value(row: Model, column: Column) -> Any:
    value = getattr(row, kept_as(column.name))
    if column.name.endswith("_g"):
        return grams_of(value)
    return None if value == "" else value
