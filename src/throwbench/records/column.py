"""What a field of a record is called in a file, and which values are possible or asked about."""

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, field, fields
from typing import Any, Literal

Told = Literal["", "lit", "look", "out"]
"""When a person tells it: as a candle is lit, at a look at it, or once it is out."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a file, as its record declares it.

    `possible` and `usual` are inclusive ranges in the unit of the column. Outside `possible` a
    value is refused; outside `usual` the maker is asked about it. `words` lists the only words
    that a text column takes; `said` gives those that are shown otherwise, of yes and no too.
    `label` begins a sentence about it, and names its box; `short` names it in a log of burns, and
    is empty where a log leaves it out.
    """

    name: str
    meaning: str
    unit: str = ""
    possible: tuple[float, float] | None = None
    usual: tuple[float, float] | None = None
    words: tuple[str, ...] = ()
    required: bool = False
    kind: Any = str
    label: str = ""
    short: str = ""
    said: Mapping[str, str] = field(default_factory=dict)
    told: Told = ""

    @property
    def choices(self) -> list[tuple[str, str]]:
        """Its words, each with how it is shown."""
        return [(word, self.said.get(word, word)) for word in self.words]


def column(
    meaning: str,
    *,
    default: Any = None,
    required: bool = False,
    unit: str = "",
    possible: tuple[float, float] | None = None,
    usual: tuple[float, float] | None = None,
    words: tuple[str, ...] = (),
    label: str = "",
    short: str = "",
    said: Mapping[str, str] | None = None,
    told: Told = "",
) -> Any:
    """Declare a field of a record together with its place in a file."""
    facts = {
        "meaning": meaning,
        "unit": unit,
        "possible": possible,
        "usual": usual,
        "words": words,
        "required": required,
        "label": label,
        "short": short,
        "said": said or {},
        "told": told,
    }
    return field(default=MISSING if required else default, metadata=facts)


def columns(record: type) -> tuple[Column, ...]:
    """The columns of a record, in the order of its fields; those without a meaning are left out."""
    return tuple(
        Column(name=item.name, kind=item.type, **item.metadata)
        for item in fields(record)
        if "meaning" in item.metadata
    )
