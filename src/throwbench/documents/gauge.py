"""The gauge card: the flame mark and the widths of a melt pool, to scale, to cut out."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from throwbench.documents.bench import SPACE
from throwbench.documents.widths import printable
from throwbench.rules.limit import figure_of, limits_on
from throwbench.science.errors import in_range
from throwbench.science.words import plain

HOUSE = "house rule"
CHECK_MM = 50.0
"""Length of the line by which a print is checked [mm]."""
FLAME_MM = (10.0, 160.0)
"""Flame marks that have room on the card [mm]."""
ABOVE_MARK_MM = 15.0
"""How far the scale of the flame goes on above its mark [mm]."""
WIDEST_MM = 138.0
"""The widest vessel whose pool has room on the sheet [mm]."""
RING_MM = 10
"""From one width of the pool to the next [mm]; every second one carries its figure."""
CLEAR_MM = 3.0
"""The least width between the last of them and the full melt pool."""
ROOM_MM = 7.0
"""What two figures on the edge need between the widths they name [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeVessel:
    """A vessel and its inside diameter [mm]."""

    name: str
    inside_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeCard:
    """What is drawn: the flame's house limit [mm], or the default of the rules, and the vessels."""

    flame_mm: float | None = None
    vessels: tuple[GaugeVessel, ...] = ()


def gauge_data(card: GaugeCard, *, day: date) -> dict[str, Any]:
    """Return the card as its template draws it, all lengths in mm.

    Raises
    ------
    OutOfRangeError
        The flame's mark has no room on a card, or a vessel has no width.
    """
    flame = in_range(
        figure_of("flame-height", limits_on(day)) if card.flame_mm is None else card.flame_mm,
        what="The flame's mark",
        unit="mm",
        limits=FLAME_MM,
        source=HOUSE,
        advice="Set a house limit that a card has room for.",
    )
    sizes = _by_size(card.vessels)
    return {
        "check": CHECK_MM,
        "flame": {
            "limit": flame,
            "top": flame + ABOVE_MARK_MM,
            "said": f"{plain(flame)}{SPACE}mm",
        },
        "pools": [_pool(inside, names) for inside, names in sizes.items() if inside <= WIDEST_MM],
        "too_wide": [
            f"{_named(inside, names)}: wider than this sheet. Measure its melt pool with a ruler."
            for inside, names in sizes.items()
            if inside > WIDEST_MM
        ],
    }


def _by_size(vessels: Sequence[GaugeVessel]) -> dict[float, list[str]]:
    """Vessels of one inside diameter share a drawing."""
    sizes: dict[float, list[str]] = {}
    for vessel in sorted(vessels, key=lambda one: one.inside_mm):
        inside = in_range(
            vessel.inside_mm,
            what=f"Inside diameter of {vessel.name}",
            unit="mm",
            limits=(10.0, 1000.0),
            source=HOUSE,
        )
        names = sizes.setdefault(inside, [])
        if vessel.name not in names:
            names.append(vessel.name)
    return sizes


def _pool(inside_mm: float, names: Sequence[str]) -> dict[str, Any]:
    rings = [ring for ring in range(RING_MM, 1000, RING_MM) if ring <= inside_mm - CLEAR_MM]
    return {
        "inside": inside_mm,
        "rings": rings,
        "figures": [
            ring for ring in rings if ring % (2 * RING_MM) == 0 and inside_mm - ring >= ROOM_MM
        ],
        "figure": plain(inside_mm),
        "said": _named(inside_mm, names),
    }


def _named(inside_mm: float, names: Sequence[str]) -> str:
    return printable(f"{', '.join(names)}, {plain(inside_mm)}{SPACE}mm inside")
