"""One lit period of one test candle, and one look at it."""

from dataclasses import dataclass
from datetime import datetime

from throwbench.records.column import column


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One check of a lit candle. An empty value was not looked at; nothing is copied."""

    check_h: float | None = column("hours since lit", unit="h", possible=(0, 72))
    no_change: bool | None = column("seen: nothing changed since the check before", told="look")
    pool_width_mm: float | None = column(
        "melt pool, mean of two directions at right angles",
        unit="mm",
        possible=(0, 1000),
        label="Melt pool",
        short="melt pool",
        told="look",
    )
    pool_full: bool | None = column(
        "liquid reaches the wall all round",
        short="full pool",
        said={"yes": "full", "no": "not full"},
        told="look",
    )
    pool_depth_mm: float | None = column(
        "melt pool depth at half radius",
        unit="mm",
        possible=(0, 300),
        usual=(0, 20),
        label="Depth of the melt pool",
        short="its depth",
        told="look",
    )
    flame: str | None = column(
        "against the mark of the gauge card",
        words=("under", "over"),
        label="Flame",
        short="flame",
        said={"under": "under the mark", "over": "over the mark"},
        told="look",
    )
    flame_mm: float | None = column(
        "from the pool to the visible tip",
        unit="mm",
        possible=(0, 200),
        usual=(5, 60),
        label="Flame height",
        short="flame height",
        told="look",
    )
    flare_up: str | None = column(
        "something other than the wick burned: no, up to 10 s, longer, or the whole pool",
        words=("none", "short", "long", "pool"),
        label="Flare-up",
        short="flare-up",
        said={"short": "up to 10 s", "long": "longer", "pool": "the whole pool"},
        told="look",
    )
    flare_up_s: float | None = column(
        "how long it burned",
        unit="s",
        possible=(0, 3600),
        label="Length of the flare-up",
        told="look",
    )
    vessel_c: float | None = column(
        "outside, hottest place",
        unit="°C",
        possible=(-5, 250),
        usual=(5, 120),
        label="Outside of the vessel",
        short="vessel outside",
        told="look",
    )
    soot: str | None = column(
        "soot as seen",
        words=("none", "trace", "visible", "heavy"),
        label="Soot on the vessel",
        short="soot",
        told="look",
    )
    mushroom: str | None = column(
        "carbon cap on the wick",
        words=("none", "small", "clear", "large"),
        label="Mushrooming",
        short="mushrooming",
        told="look",
    )
    sure: bool | None = column("asked about an unlikely figure of this check: it is so")
    line: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Burn:
    """One lit period. `kind`: a wick burn, a nose burn (one candle, one room) or a long burn."""

    candle: str = column("code of the test candle", required=True)
    burn: int = column("1, 2, ... without gaps", required=True, possible=(1, 500), usual=(1, 12))
    kind: str | None = column(
        "kind of burn",
        words=("wick", "nose", "long"),
        said={"wick": "wick burn", "nose": "nose burn", "long": "watched long burn"},
    )
    lit_at: datetime = column("when it was lit", required=True)
    out_at: datetime = column("when it was out", required=True)
    put_out: str | None = column(
        "how it ended",
        words=("snuffed", "went out"),
        said={"snuffed": "put out", "went out": "went out by itself"},
    )
    room_c: float | None = column(
        "room", unit="°C", possible=(-5, 60), usual=(15, 30), label="Room temperature", told="lit"
    )
    trim_mm: float | None = column(
        "wick before lighting",
        unit="mm",
        possible=(0, 50),
        usual=(3, 8),
        label="Trimmed wick",
        told="lit",
    )
    mass_before_g: float | None = column(
        "cold, before",
        unit="g",
        possible=(0, 50000),
        label="Mass before",
        short="mass before",
        told="lit",
    )
    mass_after_g: float | None = column(
        "after, same scale",
        unit="g",
        possible=(0, 50000),
        label="Mass after",
        short="mass after",
        told="out",
    )
    scale_step_g: float | None = column(
        "step of the scale", unit="g", possible=(0.0001, 50), usual=(0.001, 2), told="lit"
    )
    wax_left_mm: float | None = column(
        "depth of wax left, measured",
        unit="mm",
        possible=(0, 300),
        label="Wax left",
        short="wax left",
        told="out",
    )
    afterglow_s: float | None = column(
        "afterglow and aftersmoke once put out",
        unit="s",
        possible=(0, 3600),
        label="Afterglow",
        short="afterglow",
        told="out",
    )
    relit: bool | None = column(
        "burned again by itself",
        short="relighting",
        said={"yes": "burned again", "no": "stayed out"},
        told="out",
    )
    wick_moved: bool | None = column(
        "the wick floated or moved",
        short="wick",
        said={"yes": "floated or moved", "no": "stood"},
        told="out",
    )
    vessel_damage: str | None = column(
        "no, or what is damaged",
        words=("none", "yes", "chip", "crack", "leak"),
        short="vessel",
        said={"yes": "damaged"},
        told="out",
    )
    frosting: bool | None = column(
        "white bloom on the wax", short="frosting", said={"no": "none"}, told="out"
    )
    wet_spots: bool | None = column(
        "wax come away from the vessel", short="wet spots", said={"no": "none"}, told="out"
    )
    note: str | None = column(
        "the maker's own words; a corrected slip keeps the first figure here", told="out"
    )
    checks: tuple[Check, ...] = ()
    line: int = 0
