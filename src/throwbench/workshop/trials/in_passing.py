"""What is typed by name: taken from the shelf where it stands there, else put there in passing."""

import re
from collections.abc import Iterable
from datetime import datetime
from difflib import SequenceMatcher
from typing import TypedDict

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf import services as shelf
from throwbench.workshop.shelf.models import Fixing, Oil, Vessel, Wax, Wick
from throwbench.workshop.shelf.one_line import LineRead, read_line

MOST_ASKED = 3
"""Oils that are asked about at once."""
ALIKE = 0.85
"""Two names that share this part of their letters are taken for one, misspelled: it is asked."""


class By(TypedDict):
    """Who does it, and when."""

    who: Person
    now: datetime


def wax_named(name: str, by: By) -> Wax:
    """The wax of that name; a new one has an empty wax card."""
    return Wax.objects.filter(name__iexact=name.strip()).first() or shelf.add_wax(
        name=name.strip(), **by
    )


def vessel_named(name: str, by: By) -> Vessel:
    """The vessel of that name; of a new one nothing else is known."""
    return Vessel.objects.filter(name__iexact=name.strip()).first() or shelf.add_vessel(
        name=name.strip(), **by
    )


def wick_named(text: str, by: By) -> Wick:
    """The wick of that series and size, as "flat cotton 4"; "4" where one series alone has it.

    Raises
    ------
    UnclearError
        The size is missing, or several series have it.
    """
    series, _, size = text.strip().rpartition(" ")
    if series.strip().lower() in ("", "wick"):
        there = wicks_of_size(size)
        if len(there) == 1:
            return there[0]
        if there:
            raise UnclearError(
                f"{len(there)} wicks have the size {size}: {listed(there)}.",
                "A wick is its series and its size.",
                f"Write both, as in “{there[0]}”.",
            )
        raise UnclearError(
            f"The wick is “{text.strip()}”.",
            "A wick is its series and its size.",
            "Write both, as in “flat cotton 4”.",
        )
    named = Wick.objects.filter(series__iexact=series.strip(), size__iexact=size).first()
    return named or shelf.add_wick(series=series.strip(), size=size, **by)


def wicks_of_size(size: str) -> list[Wick]:
    """The wicks of one size, of every series."""
    return list(Wick.objects.filter(size__iexact=size.strip()).order_by("series"))


def listed(wicks: Iterable[Wick]) -> str:
    """flat cotton 4 or braid 4."""
    return " or ".join(str(wick) for wick in wicks)


def fixing_named(choice: str, by: By) -> Fixing | None:
    """A fixing by its number on the shelf, a new one by its kind; empty is not known."""
    if choice.isdigit():
        return Fixing.objects.get(pk=int(choice))
    return shelf.add_fixing(name=choice, kind=choice, **by) if choice else None


def oil_named(line: str, by: By) -> Oil:
    """The oil of that name, or of "name, supplier"; else the line becomes a new oil."""
    name, _, supplier = (part.strip() for part in line.partition(","))
    there = list(Oil.objects.filter(name__iexact=name).select_related("supplier"))
    if supplier:
        there = [oil for oil in there if _is_of(oil, supplier.partition(",")[0].strip())]
    if len(there) > 1:
        raise UnclearError(
            f"{len(there)} oils are named {name}.",
            "A candidate is one of them.",
            "Write its supplier after a comma.",
        )
    return there[0] if there else shelf.oil_from_line(line, **by).oil


def oils_like(line: str) -> list[Oil]:
    """Oils on the shelf that a line perhaps means, though it does not name one of them whole.

    Alike is a name that has all words of the other one, or is spelled almost as it is.
    """
    try:
        read = read_line(line)
    except UnclearError:  # it has no name, which is said where the oil is made
        return []
    if Oil.objects.filter(name__iexact=read.name).exists():
        return []
    found = Oil.objects.select_related("supplier").order_by("name")
    return [oil for oil in found if _is_like(read, oil)][:MOST_ASKED]


def _is_like(read: LineRead, oil: Oil) -> bool:
    if read.supplier and oil.supplier is not None and not _is_of(oil, read.supplier):
        return False
    mine, other = read.name.casefold(), oil.name.casefold()
    words, its = (set(re.findall(r"\w+", name)) for name in (mine, other))
    return words <= its or its <= words or SequenceMatcher(a=mine, b=other).ratio() >= ALIKE


def _is_of(oil: Oil, supplier: str) -> bool:
    return oil.supplier is not None and oil.supplier.name.lower().startswith(supplier.lower())
