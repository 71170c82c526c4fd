"""The burn sheet: per candle, what the eye sees first, then figures where they were measured."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from throwbench.documents.bench import MARGIN_MM, NOT_KNOWN, SPACE, dotted, fitting_pt, frame
from throwbench.documents.heading import Heading
from throwbench.documents.typeset import typeset
from throwbench.documents.widths import printable
from throwbench.rules.limit import Limit, figure_of, limits_on
from throwbench.rules.result import ABOVE_ALL
from throwbench.science.words import counted, plain
from throwbench.verdict.burn_report import cautions

BEGUN = (
    "lit at",
    "out at",
    "room",
    "room, °C",
    "trim, mm",
    "mass before, g",
    "mass after, g",
)
"""Once a burn."""
SEEN = (
    "flame over the mark",
    "flare-up",
    "crack or leak",
    "soot on the vessel",
    "went out by itself",
    "end line",
)
"""What the eye sees, each check."""
MEASURED = ("melt pool, mm", "its depth, mm", "flame, mm", "vessel, °C")
"""What may be measured, each check."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnRow:
    """A candle to be lit; `burn` is the number of this burn, where it is known."""

    code: str
    vessel: str = ""
    inside_mm: float | None = None
    wick: str = ""
    oil: str = ""
    burn: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnSheet:
    """Burns of one kind and day. A sealed sheet carries no oil.

    `house` has the maker's own limits by rule id, as the verdict takes them.
    """

    heading: Heading
    candles: tuple[BurnRow, ...]
    kind: str = "a burn each"
    sealed: bool = False
    checks: int = 4
    house: Mapping[str, float] | None = None


def burn_sheet(sheet: BurnSheet) -> bytes:
    """Return the burn sheet as a PDF, a part for each candle; without any, the cautions alone.

    Raises
    ------
    UnclearError
        A house limit that is not known or not a number above zero.
    TypesettingError
        The sheets cannot be set as they should be.
    """
    limits = limits_on(sheet.heading.day, house=sheet.house)
    data = {
        **frame(sheet.heading, sheet="burn sheet"),
        "headline": f"{counted(len(sheet.candles), 'candle')}, {printable(sheet.kind)}.",
        "lead": _lead(limits),
        "candles": [_candle(row, sealed=sheet.sealed) for row in sheet.candles],
        "checks": sheet.checks,
        "begun": BEGUN,
        "seen": SEEN,
        "measured": MEASURED,
        "cautions": _cautions(limits),
    }
    return typeset("burn_sheet.typ", data, form="pdf", day=sheet.heading.day)


def _candle(row: BurnRow, *, sealed: bool) -> dict[str, Any]:
    inside = "" if row.inside_mm is None else f"{plain(row.inside_mm)}{SPACE}mm inside"
    return {
        "code": printable(row.code),
        "code_pt": fitting_pt(row.code, most_pt=16, within_mm=MARGIN_MM),
        "burn": "" if row.burn is None else f"burn {row.burn}",
        "oil": "" if sealed else printable(row.oil),
        "made": dotted(row.vessel, inside or f"inside diameter {NOT_KNOWN}", row.wick),
    }


def _lead(limits: tuple[Limit, ...]) -> str:
    """Say when to look and the house limits that a pen needs; figures only where measured."""
    figures = {one.rule.id: plain(one.figure) for one in limits if one.figure is not None}
    told = (one.rule.sheet.format_map(figures) for one in limits if one.rule.sheet)
    return (
        "Look about every hour. Tick what you see; write a figure only where you measured it. "
        f"House limits: {', '.join(told)}."
    )


def _cautions(limits: tuple[Limit, ...]) -> list[str]:
    """What is said wherever candles burn; what stands above it is at the foot already."""
    always = cautions(spacing_mm=figure_of("spacing", limits))
    return [
        "Over the mark, a flare-up, a crack, soot: put it out at once and do not light it again. "
        "If it went out by itself, do not light it again either.",
        "Put out with the snuffer or the lid. Never blow at hot wax, never use water.",
        *(said for said in always if said != ABOVE_ALL),
    ]
