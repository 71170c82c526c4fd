"""How much a vessel holds: from one weighing with water."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reading import cases
from throwbench.science.errors import OutOfRangeError
from throwbench.science.fill import (
    fill_g,
    line_error_percent,
    shrinkage_percent,
    vessel_fill,
    volume_ml,
    water_density_g_ml,
)

OZ = 28.349523125
FL_OZ = 29.5735295625
CASES = cases("load-and-fill.csv", "fill", "water")


def by_relative_density(water_g, relative):
    volume = volume_ml(water_g=water_g, temperature_c=20)
    return fill_g(volume_ml=volume, density_g_ml=relative * water_density_g_ml(temperature_c=20))


WORKED = {
    "LF029": lambda: fill_g(volume_ml=8 * FL_OZ, density_g_ml=0.86),
    "LF030": lambda: fill_g(volume_ml=8 * FL_OZ, density_g_ml=0.86) / OZ,
    "LF031": lambda: by_relative_density(12.85 * OZ, 0.89) / OZ,
    "LF039": lambda: volume_ml(water_g=250, temperature_c=22),
    "LF041": lambda: line_error_percent(inside_mm=75, volume_ml=250),
    "LF044": lambda: shrinkage_percent(liquid_g_ml=0.80, solid_g_ml=0.90),
    "TW00": lambda: water_density_g_ml(temperature_c=0),
    "TW04": lambda: water_density_g_ml(temperature_c=4),
    "TW15": lambda: water_density_g_ml(temperature_c=15),
    "TW20": lambda: water_density_g_ml(temperature_c=20),
    "TW22": lambda: water_density_g_ml(temperature_c=22),
    "TW25": lambda: water_density_g_ml(temperature_c=25),
    "TW40": lambda: water_density_g_ml(temperature_c=40),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_fill_is_what_its_source_says(case):
    case.agrees(WORKED[case.id]())


def kell_1975_g_ml(t):
    """Kell, J. Chem. Eng. Data 20 (1975) 97, equation 16, as transcribed in two open programs."""
    above = (
        999.83952
        + 16.945176 * t
        - 7.9870401e-3 * t**2
        - 46.170461e-6 * t**3
        + 105.56302e-9 * t**4
        - 280.54253e-12 * t**5
    )
    return above / (1 + 16.879850e-3 * t) / 1000


@given(st.floats(0, 40))
def test_an_older_relation_for_water_agrees_far_below_what_a_scale_shows(t):
    assert water_density_g_ml(temperature_c=t) == pytest.approx(kell_1975_g_ml(t), abs=1e-5)


@given(st.floats(4, 40), st.floats(4, 40))
def test_warmer_water_is_never_denser(one, other):
    cool, warm = sorted((one, other))
    dense, thin = (water_density_g_ml(temperature_c=t) for t in (cool, warm))
    assert dense >= thin - 1e-9


@pytest.mark.parametrize("t", [-1, 41, 185])
def test_water_outside_the_relation_is_refused_with_its_source(t):
    with pytest.raises(OutOfRangeError, match=r"0 to 40 °C is allowed \(range .* Tanaka"):
        water_density_g_ml(temperature_c=t)


@given(st.floats(10, 5000), st.floats(0.75, 1.05))
def test_a_fill_grows_with_the_vessel_and_the_density(volume, density):
    fill = fill_g(volume_ml=volume, density_g_ml=density)
    assert fill_g(volume_ml=volume * 1.01, density_g_ml=density) > fill
    assert fill_g(volume_ml=volume, density_g_ml=density * 1.01) > fill


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda: fill_g(volume_ml=250, density_g_ml=860), "Density of the wax is 860 g/ml"),
        (lambda: fill_g(volume_ml=0, density_g_ml=0.86), "Volume of the vessel is 0 ml"),
        (lambda: volume_ml(water_g=0, temperature_c=20), "Water in the vessel is 0 g"),
        (lambda: line_error_percent(inside_mm=3, volume_ml=250), "Inside diameter is 3 mm"),
        (lambda: line_error_percent(inside_mm=75, volume_ml=0), "Volume of the vessel is 0 ml"),
        (
            lambda: line_error_percent(inside_mm=75, volume_ml=250, off_mm=-1),
            "The line read wrong is -1 mm; 0 to 100 mm is allowed",
        ),
        (
            lambda: shrinkage_percent(liquid_g_ml=0.9, solid_g_ml=0.8),
            "Density of the solid wax is 0.8 g/ml; 0.9 to 1.1 g/ml is allowed",
        ),
    ],
)
def test_a_vessel_that_cannot_be_is_answered(call, said):
    with pytest.raises(OutOfRangeError, match=said):
        call()


def test_wax_of_one_density_does_not_shrink():
    assert shrinkage_percent(liquid_g_ml=0.9, solid_g_ml=0.9) == 0


def test_water_nobody_measured_is_taken_at_twenty_degrees_and_that_is_said():
    held = vessel_fill(water_g=250, density_g_ml=0.86)
    assert held.water_c_taken
    # definition: 250 / 0.9982067 * 0.86
    assert held.sentence() == (
        "250 g of water at 20 °C (taken, not measured) is 250.45 ml; at 0.86 g/ml that is "
        "215.39 g of mix in one vessel."
    )


def test_a_known_bore_and_a_known_solid_density_add_their_sentences():
    held = vessel_fill(water_g=250, density_g_ml=0.80, water_c=22, inside_mm=75, solid_g_ml=0.90)
    assert held.sentence() == (
        "250 g of water at 22 °C is 250.56 ml; at 0.8 g/ml that is 200.45 g of mix in one "
        "vessel. A line read 1 mm off is 1.76 % of the fill, 3.53 g: weigh each pour. "
        "It loses 11.11 % of its volume as it sets."
    )
