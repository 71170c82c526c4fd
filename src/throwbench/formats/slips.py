"""Is a number possible, is it usual, and if not, which slip is it likely to be?"""

from throwbench.formats.numbers import said
from throwbench.formats.problem import Fault
from throwbench.records import Column
from throwbench.science.units import MM_PER_IN

FAHRENHEIT_FROM = {"vessel_c": 140.0, "room_c": 40.0}
"""From this figure on, a thermometer set to °F is likelier than the temperature (burn log)."""


def number_fault(
    value: float, column: Column, *, left_out: str, has_unit: bool = False
) -> Fault | None:
    """The fault of a number in its column, or None if it is usual.

    `has_unit`: its unit was written behind it, so it is not taken for °F.
    """
    if not has_unit and is_like_fahrenheit(value, column):
        return Fault(
            "held back",
            f"{_with_unit(value, column)} is held back, usual is {_range(column.usual, column)}; "
            f"{_did_you_mean(value, column)} Write it in °C, or as {said(value)}F.",
        )
    if not _inside(value, column.possible):
        hint = _did_you_mean(value, column)
        return Fault(
            "refused",
            f"{_with_unit(value, column)} is refused and the {left_out} left out, possible is "
            f"{_range(column.possible, column)}; {hint or 'correct it, or check the unit.'}",
        )
    if not _inside(value, column.usual):
        hint = "" if has_unit and column.unit == "°C" else _did_you_mean(value, column)
        return Fault(
            "asked",
            f"{_with_unit(value, column)} is asked about, usual is "
            f"{_range(column.usual, column)}; "
            f"{hint or 'it is used as written: check it, and the unit.'}",
        )
    return None


def likely_meant(value: float, column: Column) -> float | None:
    """What an unusual number perhaps should be, in the column's unit; None without a guess."""
    if column.unit == "°C":
        return _c(value) if value > 0 and _inside(_c(value), column.usual) else None
    return next((likely for likely, _ in _slips(value, column) if _nearly(likely, column)), None)


def is_like_fahrenheit(value: float, column: Column) -> bool:
    """Whether a bare number of a column in °C is likelier to be °F."""
    likely_from = FAHRENHEIT_FROM.get(column.name)
    return likely_from is not None and value >= likely_from and _inside(_c(value), column.possible)


def _c(value_f: float) -> float:
    return round((value_f - 32) / 1.8, 1)


def _did_you_mean(value: float, column: Column) -> str:
    """A slip that would make the value usual: °F, a lost decimal point, inches, a share of one."""
    if column.unit == "°C" and value > 0:
        return f"did you mean {said(value)} °F? That is {said(_c(value))} °C."
    if column.usual is None or column.unit == "°C":
        return ""
    likely = (words for number, words in _slips(value, column) if _nearly(number, column))
    return next((f"did you mean {words}?" for words in likely), "")


def _nearly(value: float, column: Column) -> bool:
    """Whether a number would be usual, or not far below it."""
    return column.usual is not None and column.usual[0] / 2 <= value <= column.usual[1]


def _slips(value: float, column: Column) -> list[tuple[float, str]]:
    slips = []
    if value > 0 and column.usual and value > column.usual[1]:
        slips.append((value / 10, _with_unit(value / 10, column)))
    if column.unit.startswith("%") and value < 1:
        slips.append((value * 100, _with_unit(value * 100, column)))
    if column.unit == "mm" and value < 2:
        inches = round(value * MM_PER_IN, 2)
        slips.append((inches, f"{said(value)} in, which is {said(inches)} mm"))
    return slips


def _inside(value: float, ends: tuple[float, float] | None) -> bool:
    return ends is None or ends[0] <= value <= ends[1]


def _with_unit(value: float, column: Column) -> str:
    return f"{said(value)} {column.unit}".strip()


def _range(ends: tuple[float, float] | None, column: Column) -> str:
    low, high = ends or (0.0, 0.0)
    return f"{said(low)} to {said(high)} {column.unit}".strip()
