"""What a field of a record is called in a file, and which values are possible or asked about."""

from dataclasses import MISSING, dataclass, field, fields
from typing import Any


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a file, as its record declares it.

    `possible` and `usual` are inclusive ranges in the unit of the column. Outside `possible` a
    value is refused; outside `usual` the maker is asked about it. `words` lists the only words
    that a text column takes.
    """

    name: str
    meaning: str
    unit: str = ""
    possible: tuple[float, float] | None = None
    usual: tuple[float, float] | None = None
    words: tuple[str, ...] = ()
    required: bool = False
    kind: Any = str


def column(
    meaning: str,
    *,
    default: Any = None,
    required: bool = False,
    unit: str = "",
    possible: tuple[float, float] | None = None,
    usual: tuple[float, float] | None = None,
    words: tuple[str, ...] = (),
) -> Any:
    """Declare a field of a record together with its place in a file."""
    facts = {
        "meaning": meaning,
        "unit": unit,
        "possible": possible,
        "usual": usual,
        "words": words,
        "required": required,
    }
    return field(default=MISSING if required else default, metadata=facts)


def columns(record: type) -> tuple[Column, ...]:
    """The columns of a record, in the order of its fields; those without a meaning are left out."""
    return tuple(
        Column(name=item.name, kind=item.type, **item.metadata)
        for item in fields(record)
        if "meaning" in item.metadata
    )
