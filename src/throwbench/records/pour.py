"""What a maker plans, weighs and pours: as far as it is known. Weights are of one pitcher."""

from dataclasses import dataclass
from typing import Literal

from throwbench.records.column import column


@dataclass(frozen=True, slots=True, kw_only=True)
class Pour:
    """One pitcher of wax and oil, and the vessels poured from it."""

    load_percent: float | None = column("load as written", unit="%")
    basis: Literal["wax", "total"] | None = column(
        "what the load is counted against", words=("wax", "total")
    )
    card_maximum_percent: float | None = column("most oil the wax card allows", unit="% of wax")
    flash_c: float | None = column("flash point of the oil, from its safety data", unit="°C")
    wax_g: float | None = column("wax planned", unit="g")
    total_g: float | None = column("wax and oil planned", unit="g")
    vessels: int | None = column("vessels from one pitcher")
    fill_g: float | None = column("wax and oil in one vessel", unit="g")
    oils: int = column("pitchers, one per oil", default=1)
    residue_g: float = column("mix left in a pitcher", default=0.0, unit="g")
    pot_residue_g: float = column("wax left in the pot", default=0.0, unit="g")
    weighings_g: tuple[float, ...] = ()
    """Every weighing of the wax in the pitcher, in order; the last counts."""
    oil_in_g: float | None = column("oil poured in", unit="g")
    scale_step_g: float | None = column("step of the scale", unit="g")
    blend: tuple[tuple[str, float], ...] = ()
    """Oils of a blend with their parts by weight."""
    water_g: float | None = column("water up to the fill line of one vessel", unit="g")
    water_c: float | None = column("that water", unit="°C")
    density_g_ml: float | None = column("density of the mix at pouring", unit="g/ml")
    solid_g_ml: float | None = column("density of the set wax", unit="g/ml")
    inside_mm: float | None = column("inside diameter of the vessel", unit="mm")
