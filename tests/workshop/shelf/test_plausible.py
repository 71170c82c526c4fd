"""What is unlikely is asked about; what is usual is not."""

import pytest

from throwbench.workshop.shelf import plausible

CARD = {
    "melts_at_c": 46, "never_above_c": 85, "add_oil_low_c": 70, "add_oil_high_c": 74,
    "pour_low_c": 56, "pour_high_c": 60, "stir_min": 3, "cure_days": 10, "max_load_percent": 9,
    "liquid_g_ml": 0.86, "solid_g_ml": 0.91,
}  # fmt: skip


@pytest.mark.parametrize("told", [CARD, {}, dict.fromkeys(CARD)])
def test_a_usual_card_and_an_empty_one_ask_nothing(told):
    assert plausible.of_wax(told) == []


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"never_above_c": 185}, "Never above is 185 °C, which is rare. If 185 °F is meant"),
        ({"add_oil_low_c": 40}, "The oil would go in below the melting point."),
        ({"pour_high_c": 80}, "The wax would be poured hotter than the oil goes in."),
        ({"pour_low_c": 38, "pour_high_c": 40}, "The wax would be poured below its melting point."),
        ({"solid_g_ml": 0.8}, "Liquid wax would be heavier than solid wax."),
        ({"max_load_percent": 16}, "The maximum load is 16 % of wax."),
        ({"cure_days": 90}, "The cure is 90 days."),
    ],
)
def test_an_unlikely_card_is_asked_about(change, said):
    [question] = plausible.of_wax({**CARD, **change})
    assert question.startswith(said)


@pytest.mark.parametrize(
    "change",
    [
        {"never_above_c": 110},
        {"add_oil_low_c": 46},
        {"pour_high_c": 74},
        {"solid_g_ml": 0.86},
        {"max_load_percent": 15},
        {"cure_days": 60},
    ],
)
def test_a_card_at_the_end_of_the_usual_is_not(change):
    assert plausible.of_wax({**CARD, **change}) == []


@pytest.mark.parametrize(
    ("told", "said"),
    [
        (
            {"flash_c": 200},
            "Flash point is 200 °C, which is rare. If 200 °F is meant",
        ),
        ({"density_g_ml": 0.7}, "The density is 0.7 g/ml."),
        ({"density_g_ml": 1.3}, "The density is 1.3 g/ml."),
        ({"vanillin_percent": 30}, "Vanillin is 30 % of the oil."),
    ],
)
def test_an_unlikely_oil_is_asked_about(told, said):
    [question] = plausible.of_oil(told)
    assert question.startswith(said)


def test_a_usual_oil_asks_nothing():
    assert plausible.of_oil({"flash_c": 150, "density_g_ml": 0.8, "vanillin_percent": 25}) == []
    assert plausible.of_oil({}) == []


def test_a_volume_that_does_not_fit_its_vessel_is_asked_about():
    [question] = plausible.of_vessel({"inside_mm": 68, "height_mm": 74, "brim_ml": 2100})
    assert "a straight vessel of that size holds 269 ml" in question


@pytest.mark.parametrize("brim", [108, 210, 295, None])
def test_a_volume_that_fits_is_not(brim):
    assert plausible.of_vessel({"inside_mm": 68, "height_mm": 74, "brim_ml": brim}) == []


def test_a_straight_vessel_is_a_cylinder():
    """Definition: pi/4 * 100 mm squared * 100 mm is 785.4 ml."""
    assert plausible.straight_volume_ml(inside_mm=100, height_mm=100) == pytest.approx(785.398)
