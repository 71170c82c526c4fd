"""What the text of one cell means in its column."""

import difflib
import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from types import NoneType
from typing import Any, get_args

from throwbench.formats.formula import unguarded
from throwbench.formats.numbers import could_be_thousands, plain_number
from throwbench.formats.problem import Fault, shown
from throwbench.formats.quantities import read_load, read_quantity
from throwbench.formats.slips import number_fault
from throwbench.records import Column
from throwbench.science.errors import SaidError
from throwbench.science.load import load_of_wax_percent
from throwbench.science.units import UNITS

Cell = tuple[Any, Fault | None]
"""A value and its fault. The value of a refused or held-back cell is None."""

NOT_KNOWN = ("unknown", "not known", "not seen")
"""Words that stand for an empty cell, except in a column of free text."""

LOAD_OF_WAX = "% of wax"
_YES = re.compile(r"[\s,;:.]+")
"""Between yes or no and the maker's own words behind it."""
_YES_NO = {"yes": True, "true": True, "1": True, "no": False, "false": False, "0": False}


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A column of a file, and how its cells are to be read.

    `comma_is_decimal`: the file parts its cells by something else, so "1,234" is no thousand.
    `left_out`: what an unreadable cell takes with it, "row" or "cell".
    """

    column: Column
    comma_is_decimal: bool = False
    left_out: str = "row"


def kind_of(column: Column) -> type:
    """The plain type of a column: `float | None` is float."""
    return _plain(column.kind)


@cache
def _plain(kind: Any) -> type:
    plain = [part for part in get_args(kind) if part is not NoneType]
    return plain[0] if plain else kind  # type: ignore[no-any-return]


def is_free_text(column: Column) -> bool:
    return kind_of(column) is str and not column.words


def read_cell(text: str, place: Place) -> Cell:
    """The value that a cell stands for, and its fault if it has one."""
    column = place.column
    if not text or (text.casefold() in NOT_KNOWN and not is_free_text(column)):
        return None, _missing(place) if column.required else None
    if column.words:
        return _word(text, place)
    return _READERS[kind_of(column)](text, place)


def refused(text: str, place: Place, words: Callable[[], str]) -> Cell:
    """A cell that cannot be read; `words` says what is possible, and what to do."""
    return None, Fault(
        "refused",
        lambda: f"'{shown(text)}' is refused and the {place.left_out} left out, {words()}",
    )


def _missing(place: Place) -> Fault:
    return Fault(
        "refused",
        f"the cell is empty and the {place.left_out} left out, "
        f"each row needs it ({place.column.meaning}); fill it in.",
    )


def _text(text: str, place: Place) -> Cell:
    return unguarded(text), None


def _word(text: str, place: Place) -> Cell:
    words = place.column.words
    known = _known_words(words).get(_key(text)) or _after_yes(words, text)
    if known:
        return known, None

    def possible() -> str:
        near = difflib.get_close_matches(_key(shown(text)), words, n=1)
        hint = f"did you mean {near[0]}?" if near else "write one of these."
        return f"possible is {', '.join(words)}; {hint}"

    return refused(text, place, possible)


def _after_yes(words: tuple[str, ...], text: str) -> str | None:
    """'yes, a crack at the rim' is crack, 'yes, leaning' is yes, where the column knows yes."""
    spoken = _YES.split(text.casefold())
    if "yes" not in words or spoken[0] != "yes":
        return None
    return next(
        (word for word in reversed(words) if any(said.startswith(word) for said in spoken[1:])),
        "yes",
    )


@cache
def _known_words(words: tuple[str, ...]) -> dict[str, str]:
    known = {_key(word): word for word in words}
    return known | {"no": "none"} if "none" in words else known


def _key(text: str) -> str:
    return " ".join(text.casefold().replace("_", " ").split())


def _yes_or_no(text: str, place: Place) -> Cell:
    value = _YES_NO.get(_YES.split(text.casefold())[0])
    if value is None:
        return refused(
            text, place, lambda: "possible is yes or no; write one, or leave the cell empty."
        )
    return value, None


def _number(text: str, place: Place) -> Cell:
    column = place.column
    if could_be_thousands(text) and not place.comma_is_decimal:
        return None, Fault("held back", lambda: _thousands(text, column.unit))
    value = plain_number(text)
    if value is not None:
        return _ranged(value, value, place)
    try:
        value = _with_unit(text, column.unit)
    except SaidError as error:
        words = f"{error} The {place.left_out} is left out."
        return None, Fault("refused", words)
    if value is None:
        unit = f" in {column.unit}" if column.unit else ""
        return refused(
            text, place, lambda: f"a number{unit} is needed; correct it, or leave the cell empty."
        )
    return _ranged(value, value, place, has_unit=True)


def _with_unit(text: str, unit: str) -> float | None:
    """A number with its unit behind it, in the unit of the column; None if it is no number.

    Raises
    ------
    SaidError
        If the number has a unit that does not belong here.
    """
    if not text[0].isdecimal():
        return None
    if unit == LOAD_OF_WAX:
        load, basis = read_load(text)
        return load_of_wax_percent(share_percent=load) if basis == "total" else load
    if unit in UNITS:
        return read_quantity(text, unit)
    return plain_number(text.removesuffix(unit).rstrip())


def _thousands(text: str, unit: str) -> str:
    decimal, thousands = text.replace(",", "."), text.replace(",", "")
    return (
        f"{f'{text} {unit}'.strip()} is held back, it can be {decimal} or {thousands}; the comma "
        f"may be a decimal comma or part thousands: write {decimal} or {thousands}."
    )


def _whole(text: str, place: Place) -> Cell:
    value = plain_number(text)
    if value is None or not value.is_integer():
        return refused(text, place, lambda: "a whole number is needed; correct it.")
    return _ranged(int(value), value, place)


def _ranged(value: float, number: float, place: Place, *, has_unit: bool = False) -> Cell:
    column = place.column
    fault = number_fault(number, column, left_out=place.left_out, has_unit=has_unit)
    return (value if fault is None or fault.outcome == "asked" else None), fault


def _moment(text: str, place: Place) -> Cell:
    value = _iso(text)
    if value is None:
        return refused(
            text, place, lambda: "a day with a time is needed; write it as in 2026-05-24 18:30."
        )
    return value, None


def _iso(text: str) -> datetime | None:
    """ISO 8601 with a time; a day alone would count as midnight, which nobody wrote."""
    try:
        return datetime.fromisoformat(text) if ":" in text else None
    except ValueError:
        return None


_READERS: dict[type, Callable[[str, Place], Cell]] = {
    str: _text,
    bool: _yes_or_no,
    int: _whole,
    float: _number,
    datetime: _moment,
}
