"""For a maker who weighs in ounces, every weight of a sentence has them beside it."""

import re

import pytest

from throwbench.science.batch import batch, recorded, weighed
from throwbench.science.dose import blend, dose
from throwbench.science.fill import vessel_fill
from throwbench.science.load import mix_for_wax

SAID = [
    batch(vessels=6, fill_g=180, load_percent=8, residue_g=30, oils=4, pot_residue_g=50),
    weighed(weighings_g=[990.0, 1000.0], load_percent=8, target_g=1010.0),
    weighed(weighings_g=[1000.0], load_percent=8),
    recorded(wax_g=1000, oil_g=130, card_maximum_percent=10),
    dose(wax_g=139, oil_g=11.12, step_g=0.5),
    blend(parts=[("Elm", 3), ("Fir", 1)], oil_g=40, step_g=0.1),
    vessel_fill(water_g=200, density_g_ml=0.88, inside_mm=70, solid_g_ml=0.93),
    mix_for_wax(wax_g=1000, load_percent=8),
]
GRAMS = r"(\d+(?:\.\d+)?) g(?!/)"


@pytest.mark.parametrize("said", SAID, ids=lambda said: type(said).__name__)
def test_every_weight_of_a_sentence_has_ounces_beside_it_if_asked_for(said):
    both = re.findall(GRAMS + r" \((\d+(?:\.\d+)?) oz\)", said.sentence(ounces=True))
    weights = re.findall(GRAMS, said.sentence())
    assert [grams for grams, _ in both] == weights
    assert weights
    for grams, ounces in both:  # definition: 28.349523125 g; two decimals, or three digits
        assert float(ounces) == pytest.approx(float(grams) / 28.349523125, rel=0.01, abs=0.006)
    assert "oz" not in said.sentence()


@pytest.mark.parametrize(
    ("target_g", "words"),
    [
        (1000.0, ", 0 g over the target of 1000 g."),
        (999.5, ", 0.5 g over the target of 999.5 g."),
        (1000.5, ", 0.5 g under the target of 1000.5 g."),
        (None, "Weighed 1000 g. At"),
    ],
)
def test_wax_against_its_target(target_g, words):
    assert words in weighed(weighings_g=[1000.0], load_percent=8, target_g=target_g).sentence()


@pytest.mark.parametrize(
    ("oil_g", "words"),
    [
        (8.0, "8 g of oil (as wanted)"),
        (8.04, "8 g of oil (0.498 % too little)"),
        (7.96, "8 g of oil (0.503 % too much)"),
    ],
)
def test_a_dose_says_how_far_it_is_off(oil_g, words):
    assert words in dose(wax_g=100, oil_g=oil_g, step_g=0.1).sentence()


def test_a_dose_keeps_what_was_wanted_and_the_loads_half_a_step_away():
    found = dose(wax_g=100, oil_g=8.04, step_g=0.1)
    assert found.wanted_g == 8.04
    assert found.load_percent == pytest.approx(8.0)
    assert (found.load_low_percent, found.load_high_percent) == pytest.approx((7.95, 8.05))
