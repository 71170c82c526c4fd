"""How much a vessel holds: from one weighing with water, and the density of the wax."""

from dataclasses import dataclass
from math import pi

from throwbench.science.errors import in_range
from throwbench.science.load import BENCH, weight_of
from throwbench.science.units import weight_words
from throwbench.science.words import plain

USUAL_WATER_C = 20.0
WATER_LIMITS_C = (0.0, 40.0)
DENSITY_LIMITS_G_ML = (0.7, 1.1)
INSIDE_LIMITS_MM = (10.0, 500.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class VesselFill:
    """What one vessel holds up to the line to which it was filled with water."""

    water_g: float
    water_c: float
    water_c_taken: bool
    """True where nobody measured the water and 20 °C was taken."""
    volume_ml: float
    density_g_ml: float
    fill_g: float
    line_error_percent: float | None
    shrinkage_percent: float | None

    def sentence(self, *, ounces: bool = False) -> str:
        taken = " (taken, not measured)" if self.water_c_taken else ""
        said = [
            f"{weight_words(self.water_g, ounces=ounces)} of water at "
            f"{plain(self.water_c)} °C{taken} is {plain(self.volume_ml)} ml; "
            f"at {self.density_g_ml:.4g} g/ml that is "
            f"{weight_words(self.fill_g, ounces=ounces)} of mix in one vessel."
        ]
        if self.line_error_percent is not None:
            said.append(
                f"A line read 1 mm off is {plain(self.line_error_percent)} % of the fill, "
                f"{weight_words(self.fill_g * self.line_error_percent / 100, ounces=ounces)}: "
                "weigh each pour."
            )
        if self.shrinkage_percent is not None:
            said.append(f"It loses {plain(self.shrinkage_percent)} % of its volume as it sets.")
        return " ".join(said)


def water_density_g_ml(*, temperature_c: float) -> float:
    """Density of air-free water at 101325 Pa [g/ml].

    Parameters
    ----------
    temperature_c : of the water [°C], 0 to 40

    Raises
    ------
    OutOfRangeError
        Outside 0 to 40 °C, the range of the relation.

    Notes
    -----
    rho = a5 * (1 - (t + a1)^2 * (t + a2) / (a3 * (t + a4))). Tap water differs by a few parts in
    10,000, far less than a kitchen scale shows.

    References
    ----------
    Tanaka, Girard, Davis, Peuto, Bignell: Recommended table for the density of water between 0 °C
    and 40 °C based on recent experimental reports. Metrologia 38 (2001) 301-309,
    doi:10.1088/0026-1394/38/4/3.

    Checked against: printed (their table, TW00-TW40); Kell 1975 within 0.00001 g/ml.
    """
    t = in_range(
        temperature_c,
        what="Water temperature",
        unit="°C",
        limits=WATER_LIMITS_C,
        source="range of the density of water, Tanaka et al. 2001",
        advice="Weigh with water at room temperature, or check the unit.",
    )
    slope = (t - 3.983035) ** 2 * (t + 301.797) / (522528.9 * (t + 69.34881))
    return 0.99997495 * (1 - slope)


def volume_ml(*, water_g: float, temperature_c: float) -> float:
    """Volume [ml] of so much water: one weighing of a vessel filled to its line.

    Raises
    ------
    OutOfRangeError
        As `water_density_g_ml`, or where the weight is not 1 mg to 500 kg.

    Notes
    -----
    volume = mass / density. The lift of air, 0.1 %, is left out.

    Checked against: definition (LF039).
    """
    water = weight_of(water_g, what="Water in the vessel")
    return water / water_density_g_ml(temperature_c=temperature_c)


def fill_g(*, volume_ml: float, density_g_ml: float) -> float:
    """Mass [g] of mix in a volume [ml], by the density of the mix at pouring [g/ml].

    Raises
    ------
    OutOfRangeError
        Where the density is not 0.7 to 1.1 g/ml or the volume not 0.1 ml to 100 l.

    Notes
    -----
    mass = volume * density. A fluid ounce is a volume; taking it for an ounce is 4 % short.

    Checked against: definition (LF029, LF030).
    """
    return _volume(volume_ml) * _density(density_g_ml, "Density of the wax")


def line_error_percent(*, inside_mm: float, volume_ml: float, off_mm: float = 1.0) -> float:
    """What a fill line read `off_mm` wrong does to the fill of a straight vessel [%].

    Raises
    ------
    OutOfRangeError
        Where the inside diameter is not 10 to 500 mm, the volume not 0.1 ml to 100 l, or the line
        off by less than 0 or more than 100 mm.

    Notes
    -----
    error = pi / 4 * inside^2 * off / volume.

    Checked against: definition (LF041).
    """
    inside = in_range(
        inside_mm, what="Inside diameter", unit="mm", limits=INSIDE_LIMITS_MM, source=BENCH
    )
    off = in_range(off_mm, what="The line read wrong", unit="mm", limits=(0, 100), source=BENCH)
    return 100 * pi / 4 * inside**2 * off / (1000 * _volume(volume_ml))


def shrinkage_percent(*, liquid_g_ml: float, solid_g_ml: float) -> float:
    """Volume that is lost as liquid wax sets [% of the liquid volume].

    Raises
    ------
    OutOfRangeError
        Where a density is not 0.7 to 1.1 g/ml, or the solid is lighter than the liquid.

    Notes
    -----
    shrinkage = 1 - liquid / solid density.

    Checked against: definition (LF044).
    """
    liquid = _density(liquid_g_ml, "Density of the wax")
    solid = in_range(
        solid_g_ml,
        what="Density of the solid wax",
        unit="g/ml",
        limits=(liquid, DENSITY_LIMITS_G_ML[1]),
        source="wax shrinks as it sets",
        advice="Check the two densities.",
    )
    return 100 * (1 - liquid / solid)


def vessel_fill(
    *,
    water_g: float,
    density_g_ml: float,
    water_c: float | None = None,
    inside_mm: float | None = None,
    solid_g_ml: float | None = None,
) -> VesselFill:
    """The fill of one vessel from one weighing with water.

    Parameters
    ----------
    water_g : water up to the fill line [g]
    density_g_ml : of the mix at pouring [g/ml]
    water_c : of the water [°C]; None takes 20 °C and says so
    inside_mm : inside diameter [mm], where known
    solid_g_ml : density of the set wax [g/ml], where known

    Raises
    ------
    OutOfRangeError
        As the relations that it uses.

    Checked against: definition (LF039, LF041, LF044).
    """
    at_c = USUAL_WATER_C if water_c is None else water_c
    volume = volume_ml(water_g=water_g, temperature_c=at_c)
    return VesselFill(
        water_g=water_g,
        water_c=at_c,
        water_c_taken=water_c is None,
        volume_ml=volume,
        density_g_ml=density_g_ml,
        fill_g=fill_g(volume_ml=volume, density_g_ml=density_g_ml),
        line_error_percent=None
        if inside_mm is None
        else line_error_percent(inside_mm=inside_mm, volume_ml=volume),
        shrinkage_percent=None
        if solid_g_ml is None
        else shrinkage_percent(liquid_g_ml=density_g_ml, solid_g_ml=solid_g_ml),
    )


def _volume(volume_ml: float) -> float:
    return in_range(
        volume_ml, what="Volume of the vessel", unit="ml", limits=(0.1, 100_000.0), source=BENCH
    )


def _density(value_g_ml: float, what: str) -> float:
    return in_range(
        value_g_ml,
        what=what,
        unit="g/ml",
        limits=DENSITY_LIMITS_G_ML,
        source="plausibility limit: melted paraffin 0.8, palm wax 0.97, common practice",
    )
