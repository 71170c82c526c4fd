"""Units at the door: everything inside is g, ml, °C, mm, min and per cent of wax.

Weights and lengths follow the international yard and pound agreement of 1959, the US gallon is
231 cubic inches. An ounce of weight and a US fluid ounce are two things: trade sums that take
one for the other are 4 % short.
"""

from dataclasses import dataclass
from typing import Literal, overload

from throwbench.science.errors import UnclearError
from throwbench.science.words import plain

Kind = Literal["weight", "volume", "temperature", "length", "time", "load", "density"]

G_PER_LB = 453.59237
G_PER_OZ = G_PER_LB / 16
MM_PER_IN = 25.4
ML_PER_US_FL_OZ = 231 * 2.54**3 / 128
PERCENT_PER_OZ_PER_LB = 100 / 16


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: `size` of it in the inside unit of its kind, and where its zero lies."""

    symbol: str
    kind: Kind
    size: float
    zero: float = 0.0


UNITS = {
    unit.symbol: unit
    for unit in (
        Unit("g", "weight", 1.0),
        Unit("mg", "weight", 0.001),
        Unit("kg", "weight", 1000.0),
        Unit("oz", "weight", G_PER_OZ),
        Unit("lb", "weight", G_PER_LB),
        Unit("ml", "volume", 1.0),
        Unit("l", "volume", 1000.0),
        Unit("US fl oz", "volume", ML_PER_US_FL_OZ),
        Unit("°C", "temperature", 1.0),
        Unit("°F", "temperature", 1 / 1.8, 32.0),
        Unit("mm", "length", 1.0),
        Unit("cm", "length", 10.0),
        Unit("in", "length", MM_PER_IN),
        Unit("min", "time", 1.0),
        Unit("h", "time", 60.0),
        Unit("%", "load", 1.0),
        Unit("oz per lb", "load", PERCENT_PER_OZ_PER_LB),
        Unit("g/ml", "density", 1.0),
    )
}
"""By symbol. The first of a kind is the inside unit; a load in `%` is a load of wax."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conversion:
    """One entry in the other units of its kind."""

    entered: float
    unit: str
    difference: bool
    others: tuple[tuple[float, str], ...]

    def sentence(self) -> str:
        said = " or ".join(f"{plain(value)} {unit}" for value, unit in self.others)
        what = "A difference of " if self.difference else ""
        of = " of wax" if UNITS[self.unit].kind == "load" else ""
        return f"{what}{plain(self.entered)} {self.unit}{of} is {said}."


def convert(value: float, *, unit: str, to: str) -> float:
    """The same quantity in another unit of its kind.

    Parameters
    ----------
    value : [unit]
    unit, to : symbols of `UNITS`

    Raises
    ------
    UnclearError
        Where a unit is unknown or the two are of different kinds: a weight becomes a volume only
        through a density.

    Notes
    -----
    Temperatures are points here (32 °F is 0 °C); see `convert_difference` for a drop.

    Checked against: definition (LF001-LF005, LF007).
    """
    source, target = _pair(unit, to)
    return (value - source.zero) * source.size / target.size + target.zero


def convert_difference(value: float, *, unit: str, to: str) -> float:
    """A difference in another unit: a drop of 18 °F is 10 °C, without the 32.

    Raises
    ------
    UnclearError
        As `convert`.

    Checked against: definition (LF006).
    """
    source, target = _pair(unit, to)
    return value * source.size / target.size


def in_other_units(value: float, *, unit: str, difference: bool = False) -> Conversion:
    """One entry in every other unit of its kind.

    Raises
    ------
    UnclearError
        Where the unit is unknown, or has no other unit of its kind.

    Checked against: definition.
    """
    change = convert_difference if difference else convert
    kind = _known(unit).kind
    symbols = [other.symbol for other in UNITS.values() if other.kind == kind]
    others = tuple(
        (change(value, unit=unit, to=symbol), symbol) for symbol in symbols if symbol != unit
    )
    if not others:
        raise UnclearError(
            f"{unit} has no other unit here.",
            f"Units that can be converted: {known_units()}.",
            "Give a quantity in one of them.",
        )
    return Conversion(entered=value, unit=unit, difference=difference, others=others)


def known_units(kind: Kind | None = None) -> str:
    """The units of one kind, or all of them, as words."""
    return ", ".join(unit.symbol for unit in UNITS.values() if kind in (None, unit.kind))


def _pair(unit: str, to: str) -> tuple[Unit, Unit]:
    source, target = _known(unit), _known(to)
    if source.kind != target.kind:
        raise UnclearError(
            f"{unit} is a {source.kind}, {to} is a {target.kind}.",
            f"{unit} becomes one of: {known_units(source.kind)}.",
            "Name a unit of the same kind.",
        )
    return source, target


def _known(symbol: str) -> Unit:
    if symbol not in UNITS:
        raise UnclearError(
            f"The unit {symbol!r} is not known.",
            f"Known are: {known_units()}.",
            "Write one of these.",
        )
    return UNITS[symbol]


def weight_words(value_g: float, *, ounces: bool = False) -> str:
    """A weight as words: in grams, and in ounces beside it for a maker who weighs in them."""
    grams = f"{plain(value_g)} g"
    return f"{grams} ({plain(value_g / G_PER_OZ)} oz)" if ounces else grams


@overload
def grams_of(mg: int) -> float: ...
@overload
def grams_of(mg: None) -> None: ...
def grams_of(mg: int | None) -> float | None:
    """Whole milligrams, as a weight is kept, in grams; not known stays not known.

    Checked against: definition.
    """
    return None if mg is None else mg / 1000


@overload
def mg_of(grams: float) -> int: ...
@overload
def mg_of(grams: None) -> None: ...
def mg_of(grams: float | None) -> int | None:
    """Grams as a weight is kept: whole milligrams; not known stays not known.

    Checked against: definition.
    """
    return None if grams is None else round(grams * 1000)


_ENDINGS = {
    "mm": "mm", "c": "°C", "celsius": "°C", "s": "s", "min": "min", "h": "h", "days": "days",
    "g": "g", "mg": "g", "percent": "%",
}  # fmt: skip
"""The unit that is said, by how the name of a field ends; milligrams are said in grams."""


def named(field: str) -> tuple[str, str]:
    """What a field is called, and its unit: 'mass_after_mg' is 'mass after' in 'g'.

    A field without a unit in its name keeps its words, and has the unit ''.
    """
    name, _, ending = field.rpartition("_")
    words, unit = (name, _ENDINGS[ending]) if ending in _ENDINGS else (field, "")
    return words.replace("_", " "), unit


def said_in_its_unit(text: str, *, field: str) -> str:
    """A kept figure with the unit of its field: '469000' of 'mass_after_mg' is '469 g'.

    Raises
    ------
    ValueError
        The text of a field in milligrams is no number.
    """
    unit = named(field)[1]
    shown = f"{float(text) / 1000:.10g}" if field.rpartition("_")[2] == "mg" else text
    return f"{shown} {unit}".rstrip()
