"""What the printed sheets of the bench share: their frame, and figures that may not be known."""

from typing import Any

from throwbench.documents.heading import Heading
from throwbench.documents.widths import printable, width_px
from throwbench.documents.words import day_words
from throwbench.rules.result import ABOVE_ALL
from throwbench.science.words import plain

NOT_KNOWN = "not known"
SPACE = "\N{NO-BREAK SPACE}"
MARGIN_MM = 19.5
"""Room for a code in the margin of a sheet."""
PX_PER_MM, PT_PER_PX = 96 / 25.4, 0.75


def frame(heading: Heading, *, sheet: str) -> dict[str, Any]:
    """Return what stands on every sheet; `sheet` names it: 'pour sheet'."""
    day = day_words(heading.day)
    return {
        "title": printable(f"{sheet.capitalize()} · {heading.trial} · {day}"),
        "workshop": printable(heading.workshop),
        "line": printable(f"Trial {heading.trial} · {sheet} of {day}"),
        "day": [heading.day.year, heading.day.month, heading.day.day],
        "stands_above": ABOVE_ALL,
        "invented": heading.invented_words,
    }


def known(value: float | None, unit: str) -> str:
    """'46 °C', or 'not known'."""
    return NOT_KNOWN if value is None else f"{plain(value)}{SPACE}{unit}"


def span(low: float | None, high: float | None, unit: str) -> str:
    """'70–74 °C', 'from 70 °C', 'up to 74 °C', or 'not known'."""
    if low is None:
        return NOT_KNOWN if high is None else f"up to {known(high, unit)}"
    if high is None:
        return f"from {known(low, unit)}"
    return known(low, unit) if low == high else f"{plain(low)}–{known(high, unit)}"


def dotted(*parts: str) -> str:
    """Return the parts that say something, a dot between them."""
    return printable(" · ".join(part for part in parts if part))


def fitting_pt(code: str, *, most_pt: float, within_mm: float) -> float:
    """Return the size [pt] at which a code in Besley is as wide as it may be, `most_pt` at most."""
    wide_px = width_px(text=code, face="besley", size_px=most_pt / PT_PER_PX)
    room_px = within_mm * PX_PER_MM
    return most_pt if wide_px <= room_px else most_pt * room_px / wide_px
