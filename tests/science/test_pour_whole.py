"""One pour with everything in it: each entry reaches its sum, and each sum has its name."""

import pytest

from throwbench.records import Pour
from throwbench.science.errors import OutOfRangeError, UnclearError
from throwbench.science.pour import work_out

ALL = {
    "load_percent": 8,
    "water_g": 250,
    "density_g_ml": 0.86,
    "water_c": 25,
    "inside_mm": 70,
    "solid_g_ml": 0.93,
    "vessels": 6,
    "residue_g": 20,
    "oils": 3,
    "pot_residue_g": 50,
    "weighings_g": (1190, 1210),
    "scale_step_g": 0.1,
    "blend": (("Elm", 3), ("Fir", 1)),
    "oil_in_g": 97,
}


def answered(**entries):
    return work_out(Pour(**entries))


def test_every_sum_of_a_pour_stands_with_its_name_in_the_order_of_the_work():
    """Definition, from 250.738 ml of water at 25 °C: fill, mix and wax follow by hand."""
    fill = 0.86 * 250 / 0.997047
    melt = 3 * (6 * fill + 20) / 1.08 + 50
    oil = 1210 * 0.08
    found = answered(**ALL).sums_g()
    assert [name for name, _ in found] == [
        "mix in one vessel",
        "wax to melt",
        "wax in one pitcher",
        "oil in one pitcher",
        "mix in one pitcher",
        "oil as the scale shows it",
        "of it Elm",
        "of it Fir",
        "oil poured in",
    ]
    assert [value for _, value in found] == pytest.approx(
        [fill, melt, 1210, oil, 1210 + oil, 96.8, oil * 3 / 4, oil / 4, 97], rel=1e-5
    )


def test_what_is_known_of_the_vessel_reaches_its_fill():
    found = answered(**ALL).fill
    assert (found.water_c, found.water_c_taken) == (25, False)
    assert found.line_error_percent == pytest.approx(100 * 3.14159 / 4 * 4.9 / 250.74, rel=1e-3)
    assert found.shrinkage_percent == pytest.approx(100 * (1 - 0.86 / 0.93))


def test_the_step_of_the_scale_reaches_the_blend():
    found = answered(**ALL).blend
    assert found.step_g == 0.1
    assert found.premix_g == pytest.approx(100 * 0.05 / 1 / 0.25)
    assert answered(**(ALL | {"scale_step_g": None})).blend.premix_g is None


@pytest.mark.parametrize(
    ("entries", "wax_g"),
    [
        ({"weighings_g": (490, 510)}, 510),  # the last weighing counts
        ({"load_percent": 8, "total_g": 540}, 500),  # as planned
        ({"wax_g": 500}, 500),
        ({"load_percent": 8, "total_g": 540, "weighings_g": (505,)}, 505),
    ],
)
def test_a_recorded_load_is_of_the_wax_that_the_oil_went_into(entries, wax_g):
    found = answered(**entries, oil_in_g=40).recorded.mix
    assert (found.wax_g, found.oil_g) == (pytest.approx(wax_g), 40)
    assert found.load_percent == pytest.approx(100 * 40 / wax_g)


def test_a_pour_is_said_in_grams_one_sentence_after_the_other():
    found = answered(**ALL)
    assert found.sentences() == found.sentences(ounces=False)
    assert "oz" not in found.sentence()
    assert found.sentence() == " ".join(found.sentences())


@pytest.mark.parametrize(
    ("entries", "happened", "needed"),
    [
        (
            {"water_g": 250},
            "The vessel was weighed with water, but the density of the wax is missing",
            "density of the wax",
        ),
        (
            {"vessels": 6, "load_percent": 8},
            "The number of vessels is known, but not what goes into one",
            "fill",
        ),
        (
            {"blend": (("Elm", 1), ("Fir", 1)), "load_percent": 8},
            "The parts of the blend are known, but not how much of it",
            "wax",
        ),
        (
            {"scale_step_g": 0.1, "load_percent": 8},
            "The step of the scale is known, but not what is weighed",
            "wax",
        ),
        ({"oil_in_g": 40}, "The oil poured in is known, but not the wax it went into", "wax"),
    ],
)
def test_what_is_missing_is_a_whole_sentence(entries, happened, needed):
    with pytest.raises(UnclearError) as refused:
        answered(**entries)
    assert str(refused.value) == f"{happened}. The {needed} is needed as well. Give the {needed}."


def test_an_amount_given_twice_is_a_whole_sentence():
    with pytest.raises(UnclearError) as refused:
        answered(wax_g=500, total_g=540, load_percent=8)
    assert str(refused.value) == (
        "The amount is given 2 times: wax, total. One of wax, total, or vessels with their fill "
        "is enough. Leave the others out."
    )


@pytest.mark.parametrize("flash_c", [0, 300])
def test_a_flash_point_on_its_limit_is_told(flash_c):
    said = answered(load_percent=8, wax_g=500, flash_c=flash_c).cautions[-1]
    assert said == f"Flash point of the oil: {flash_c} °C."


@pytest.mark.parametrize("flash_c", [-0.1, 300.1])
def test_a_flash_point_beyond_it_is_refused(flash_c):
    with pytest.raises(OutOfRangeError) as refused:
        answered(load_percent=8, wax_g=500, flash_c=flash_c)
    assert str(refused.value) == (
        f"Flash point is {flash_c} °C; 0 to 300 °C is allowed (plausibility limit of this bench). "
        "Check the value and its unit."
    )
