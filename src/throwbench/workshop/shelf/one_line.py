"""One typed line of an oil: a name, then whatever the maker knows, parted by commas."""

import re
from dataclasses import dataclass, field

from throwbench.formats.quantities import read_load, read_quantity
from throwbench.science.errors import SaidError, UnclearError
from throwbench.science.load import Basis, load_on_both_bases

EXAMPLE = "slate rain, Tarnholt, 8 %, wick 4"
_BETWEEN = re.compile(r"\s*[;\t]\s*|\s*,(?!\d)\s*|(?<!\d)\s*,\s*")
"""A comma between two digits is a decimal comma: "6,5 %"."""
_WICK = re.compile(r"(?:wick\s+(?P<after>\S.*)|(?P<before>\S.*?)\s+wick)", re.IGNORECASE)
_FLASH = re.compile(r"flash(?:\s+point)?\s+(?P<figure>.+)", re.IGNORECASE)
_VANILLIN = re.compile(r"vanillin\s+(?P<figure>.+)", re.IGNORECASE)
_LOAD_BEHIND = re.compile(r"(?P<name>.*\S)\s+(?P<load>\d+(?:[.,]\d+)?\s?%(?:\s+of\s+\w+)?)")
"""A load behind the name without a comma: "sea salt 8 %"."""
_DENSITY = re.compile(r"density\s+(?P<figure>.+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRead:
    """What a line says; None or empty where it does not say it."""

    name: str
    supplier: str = ""
    load_percent: float | None = None
    load_basis: Basis | None = None
    wick: str = ""
    flash_c: float | None = None
    density_g_ml: float | None = None
    vanillin_percent: float | None = None
    not_understood: tuple[str, ...] = field(default=())


def read_line(text: str) -> LineRead:
    """Read one line; what is not understood is kept as it stands.

    Raises
    ------
    UnclearError
        The line does not begin with a name.
    """
    name, *rest = [part.strip() for part in _BETWEEN.split(text.strip())]
    if behind := _LOAD_BEHIND.fullmatch(name):
        name, rest = behind["name"].strip(), [behind["load"], *rest]
    if not any(letter.isalpha() for letter in name):
        raise UnclearError(
            f"“{name}” is not a name." if name else "There is no name in the line.",
            "A line begins with the oil's name; what else is known follows after commas.",
            f"Write it like “{EXAMPLE}”.",
        )
    found: dict[str, object] = {}
    left = [part for part in rest if part and not _take(part, found)]
    return LineRead(name=name, not_understood=tuple(left), **found)  # type: ignore[arg-type]


def _take(part: str, found: dict[str, object]) -> bool:
    """Put one part where it belongs, if it is clear and that place is still free."""
    try:
        told = _told(part)
    except SaidError:
        return False
    if told is None or told.keys() & found.keys():
        return False
    found |= told
    return True


def _told(part: str) -> dict[str, object] | None:
    if wick := _WICK.fullmatch(part):
        return {"wick": wick["after"] or wick["before"]}
    for name, pattern, unit in (
        ("flash_c", _FLASH, "°C"),
        ("vanillin_percent", _VANILLIN, "%"),
        ("density_g_ml", _DENSITY, "g/ml"),
    ):
        if fact := pattern.fullmatch(part):
            return {name: read_quantity(fact["figure"], unit)}
    if part[0].isdigit():
        load, basis = read_load(part)
        load_on_both_bases(percent=load, basis=basis)  # a load that cannot be is not one
        return {"load_percent": load, "load_basis": basis}
    return {"supplier": part}
