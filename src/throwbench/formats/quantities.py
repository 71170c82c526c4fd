"""A quantity as people write it: "5.5 oz", "5,5oz", "185F", "6,5 %", "1 oz per lb"."""

import re
from dataclasses import dataclass

from throwbench.formats.numbers import could_be_thousands, plain_number
from throwbench.formats.problem import shown
from throwbench.science.errors import SaidError
from throwbench.science.load import Basis
from throwbench.science.units import UNITS, convert, known_units

SPELLINGS = {
    "oz": ("ounce", "ounces"),
    "lb": ("lbs", "pound", "pounds"),
    "g": ("gram", "grams", "gramme", "grammes"),
    "kg": ("kilogram", "kilograms"),
    "US fl oz": ("fl oz", "floz", "fl. oz", "fluid ounce", "fluid ounces"),
    "ml": ("cm3", "cm³", "millilitre", "milliliter"),
    "l": ("litre", "liter", "litres", "liters"),
    "°C": ("c", "degc", "deg c", "celsius"),
    "°F": ("f", "degf", "deg f", "fahrenheit"),
    "in": ("inch", "inches", '"'),
    "min": ("minute", "minutes"),
    "h": ("hour", "hours"),
    "%": ("percent", "per cent"),
    "oz per lb": ("oz/lb", "oz./lb", "ounce per pound", "ounces per pound"),
    "g/ml": ("g/cm3", "g/cm³", "g per ml"),
}
"""Other ways to write a unit, in small letters."""
EXAMPLES = {
    "weight": "“5.5 oz” or “5,5 oz”",
    "volume": "“250 ml” or “8.5 fl oz”",
    "length": "“68 mm” or “2.7 in”",
    "temperature": "“72” or “162F”",
    "time": "“30 min” or “1.5 h”",
    "load": "“8 %” or “6,5 %”",
    "density": "“0.98 g/ml”",
}
"""How a quantity of each kind may be written."""

_BASES: tuple[Basis, ...] = ("wax", "total")
_BY_SPELLING = {symbol.casefold(): symbol for symbol in UNITS} | {
    spelling: symbol for symbol, spellings in SPELLINGS.items() for spelling in spellings
}
_PARTS = re.compile(r"(?P<number>[+\-\N{MINUS SIGN}]?[\d.,]+)(?P<unit>.*)", re.ASCII | re.DOTALL)


class QuantityError(SaidError):
    """A text that is not one clear quantity; its words say what to write instead."""

    def __init__(self, text: str, happened: str, allowed: str, advice: str) -> None:
        self.text = text
        super().__init__(f"“{shown(text)}” {happened}; {allowed}. {advice}")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in the inside unit, beside what was written."""

    value: float
    entered: float
    unit: str


def read_quantity(text: str, unit: str) -> float:
    """A quantity in the inside unit `unit`; a number alone is taken to be in it already.

    Parameters
    ----------
    text : as written, with a decimal point or comma
    unit : the inside unit wanted: "g", "ml", "°C", "mm", "min", "%" or "g/ml"

    Raises
    ------
    QuantityError
        Where the text is not one number with a unit of that kind, or a comma may part thousands.

    Checked against: definition.
    """
    return quantity(text, unit=unit, bare=True).value


def quantity(text: str, *, unit: str, bare: bool) -> Quantity:
    """As `read_quantity`, keeping what was written; `bare` allows a number without a unit.

    Raises
    ------
    QuantityError
        As `read_quantity`.

    Checked against: definition.
    """
    entered, symbol = _number_and_unit(text, unit)
    if symbol is None and not bare:
        raise QuantityError(
            text, "has no unit", f"write one of {_units_like(unit)}", "Put the unit behind it."
        )
    symbol = symbol or unit
    if UNITS[symbol].kind != UNITS[unit].kind:
        raise QuantityError(
            text,
            f"is a {UNITS[symbol].kind}",
            f"a {UNITS[unit].kind} in {_units_like(unit)} is asked here",
            "Give it in one of these.",
        )
    return Quantity(convert(entered, unit=symbol, to=unit), entered, symbol)


def any_quantity(text: str) -> tuple[float, str]:
    """A number and its unit, of whatever kind.

    Raises
    ------
    QuantityError
        Where the text is not a number with a known unit.

    Checked against: definition.
    """
    entered, symbol = _number_and_unit(text, "g")
    if symbol is None:
        raise QuantityError(
            text, "has no unit", f"write one of {known_units()}", "Put the unit behind it."
        )
    return entered, symbol


def read_load(text: str) -> tuple[float, Basis | None]:
    """A load [%] and its basis, None where the text does not say: "10 %", "8 % of total".

    Ounces per pound are a load of wax: 1 oz per lb is 6.25 % of wax.

    Raises
    ------
    QuantityError
        As `read_quantity`.

    Checked against: definition (LF011).
    """
    words = _spaced(text)
    basis = next((basis for basis in _BASES if words.endswith(f" of {basis}")), None)
    read = quantity(words.removesuffix(f" of {basis}"), unit="%", bare=True)
    if read.unit != "oz per lb":
        return read.value, basis
    if basis == "total":
        raise QuantityError(
            text,
            "mixes two bases",
            "an ounce per pound counts against a pound of wax",
            "Leave “of total” out, or write per cent.",
        )
    return read.value, "wax"


def read_part(text: str) -> tuple[str, float]:
    """One oil of a blend: "Ferry Rope:80" is 80 parts by weight.

    Raises
    ------
    QuantityError
        Where name or parts are missing.

    Checked against: definition.
    """
    oil, colon, parts = text.rpartition(":")
    if not colon or not oil.strip():
        raise QuantityError(
            text,
            "is not an oil with its parts",
            "a part of a blend is a name, a colon and a number",
            "Write it like “Ferry Rope:80”.",
        )
    return oil.strip(), _number(parts.strip(), text, "%")


def _number_and_unit(text: str, unit: str) -> tuple[float, str | None]:
    found = _PARTS.fullmatch(text.strip())
    if found is None:
        raise _no_number(text, unit)
    written = _spaced(found["unit"])
    if written and written not in _BY_SPELLING:
        raise QuantityError(
            text,
            "has a unit that is not known",
            f"known are {_units_like(unit)}",
            "Write the number once, then one of these.",
        )
    return _number(found["number"], text, unit), _BY_SPELLING.get(written)


def _number(written: str, text: str, unit: str) -> float:
    if could_be_thousands(written):
        raise QuantityError(
            text,
            "can be read in two ways",
            f"it is {written.replace(',', '.')} or {written.replace(',', '')}",
            "Write the one that is meant, without a comma.",
        )
    value = plain_number(written)
    if value is None:
        raise _no_number(text, unit)
    return value


def _no_number(text: str, unit: str) -> QuantityError:
    return QuantityError(
        text,
        "is not a number with a unit",
        "one number with one decimal point or comma is read",
        f"Write it like {EXAMPLES[UNITS[unit].kind]}, without a mark for thousands.",
    )


def _units_like(unit: str) -> str:
    return known_units(UNITS[unit].kind)


def _spaced(text: str) -> str:
    return " ".join(text.casefold().split())
