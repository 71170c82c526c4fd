"""What is planted in the demo: oils, noses, rooms and wicks. All of it is invented.

Levels are steps of the maker's scale, 1 to 5, as the average nose of the panel finds them in the
average room. `generate` adds the noses, the rooms and the chance of a sniff.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

EARLY_DAYS = 10
"""Cure of the wax card [d]; before it an oil is as strong as `early_hot` says."""

SNIFF_SD = 0.8
"""The same nose at the same candle, from sniff to sniff [step]."""
NOSE_SD = 0.5
"""How far noses lie apart on the whole scale [step]."""
TASTE_SD = 0.3
"""A nose's own liking of an oil, beside the average nose's [step]."""
SITTING_SD = 0.15
"""A nose on one evening beside itself on another [step]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Oil:
    """One oil: how it is liked, how strong it is lit and unlit, and its habits in a burn."""

    supplier: str
    liking: float
    hot: float
    cold: float
    early_hot: float | None = None
    group: str | None = None
    role: str = "candidate"
    loved_by: Mapping[str, float] = field(default_factory=dict)
    """Steps that single noses lie above or below; they sum to about nothing."""
    mushrooms: float = 0.02
    """Chance of a clear carbon cap in a burn."""
    soot_on: Mapping[int, float] = field(default_factory=dict)
    """Chance of heavy soot in a burn, by size of the wick."""
    frosting: bool = False
    wet_spots: bool = False


OILS: Mapping[str, Oil] = {
    # Best overall; strong hot, modest cold.
    "Slate After Rain": Oil(supplier="Tarnholt Riechstoffe", liking=4.45, hot=4.0, cold=2.7),
    # Rhubarb 1: the true second of the three.
    "Rhubarb Cold Frame": Oil(
        supplier="Tarnholt Riechstoffe",
        liking=3.35, hot=3.7, cold=3.3, early_hot=3.3, group="rhubarb", wet_spots=True,
    ),
    # Rhubarb 2: loud cold, weak hot.
    "Vårrabarbra 114": Oil(
        supplier="Fjellrype Duft",
        liking=2.8, hot=1.9, cold=4.6, early_hot=1.9, group="rhubarb",
    ),
    # Rhubarb 3: weak after 5 days, the best of the three after 12.
    "Rebarbara K": Oil(
        supplier="Kisbalog Illat",
        liking=4.0, hot=3.8, cold=3.0, early_hot=1.9, group="rhubarb",
    ),
    # Browns by day 14.
    "Bakehouse at Five": Oil(
        supplier="Atelier Bruyère-Neuve", liking=3.9, hot=3.6, cold=3.5, mushrooms=0.4,
    ),
    # Loved by two, hated by three.
    "Ferry Rope": Oil(
        supplier="Fjellrype Duft",
        liking=2.9, hot=3.6, cold=3.4,
        loved_by={"Pernille": 1.8, "Tor": 2.3, "Odd": -1.4, "Maren": -1.4, "Åse": -1.4},
    ),
    # Needs wick 5; tunnels with 3.
    "Goat Willow": Oil(supplier="Kisbalog Illat", liking=3.3, hot=2.5, cold=3.1),
    # Fine scent; soots with wick 6.
    "Kelp and Iron": Oil(
        supplier="Atelier Bruyère-Neuve", liking=3.55, hot=3.6, cold=3.2, soot_on={6: 0.9},
    ),
    # Middling everywhere.
    "Linen Loft": Oil(
        supplier="Tarnholt Riechstoffe", liking=3.25, hot=3.2, cold=3.0, frosting=True,
    ),
    # In the line since last year.
    "Harbour Tar": Oil(
        supplier="Fjellrype Duft", liking=3.6, hot=3.6, cold=3.2, role="reference",
    ),
}  # fmt: skip

NOSES: Mapping[str, float | None] = {
    "Odd": None,
    "Pernille": 1.0,
    "Isak": None,
    "Maren": None,
    "Tor": None,
    "Åse": None,
}
"""Steps that a nose adds to everything; None is drawn. Pernille uses the upper end."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A room: steps it adds to the hot throw, and its usual temperature [°C]."""

    hot: float
    room_c: float


ROOMS: Mapping[str, Room] = {
    "loft": Room(hot=-0.35, room_c=20.2),
    "kitchen": Room(hot=0.0, room_c=21.3),
    "back room": Room(hot=0.35, room_c=21.6),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Wick:
    """What a size of flat cotton does in `R-36` in the stoneware cup.

    `widest_mm` is the width that a pool without a wall tends to, with the time constant `TAU_H`.
    """

    rate_g_h: float
    widest_mm: float
    depth_mm: float
    flame_mm: float


TAU_H = 1.1

WICKS: Mapping[int, Wick] = {
    3: Wick(rate_g_h=4.4, widest_mm=55, depth_mm=6.5, flame_mm=19),
    4: Wick(rate_g_h=5.6, widest_mm=77, depth_mm=9, flame_mm=24),
    5: Wick(rate_g_h=6.3, widest_mm=82, depth_mm=10, flame_mm=28),
    6: Wick(rate_g_h=7.4, widest_mm=88, depth_mm=13, flame_mm=36),
}
