"""What the step of the scale does to a dose, and why a blend is mixed first."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from throwbench.science.dose import blend, dose, half_step_percent, off_percent, on_scale
from throwbench.science.errors import OutOfRangeError, UnclearError

ROPE_AND_LOFT = (("Ferry Rope", 80), ("Linen Loft", 20))


def test_the_scale_shows_the_step_nearest_to_what_is_wanted():
    # definition: 40.552 g on steps of 0.1 g is 40.6 g
    shown = dose(wax_g=506.9, oil_g=40.552, step_g=0.1)
    assert shown.shown_g == pytest.approx(40.6)
    assert shown.load_percent == pytest.approx(100 * 40.6 / 506.9)


def test_exactly_between_two_steps_the_larger_one_is_taken():
    assert dose(wax_g=500, oil_g=40.55, step_g=0.1).shown_g == pytest.approx(40.6)
    assert dose(wax_g=500, oil_g=40.5, step_g=1).shown_g == pytest.approx(41)


@pytest.mark.parametrize(
    ("weight_g", "step_g", "shown_g"),
    [(148.148, 0.1, 148.1), (0.3, 0.1, 0.3), (11.848, 1, 12), (0.4, 1, 0), (2.5, 1, 3)],
)
def test_a_weight_is_what_the_scale_shows_of_it(weight_g, step_g, shown_g):
    # definition: the nearest whole number of steps, written as the scale writes it
    assert on_scale(weight_g, step_g=step_g) == shown_g


def test_a_scale_has_a_step():
    with pytest.raises(OutOfRangeError, match="Step of the scale is 0 g"):
        on_scale(1, step_g=0)


@given(st.floats(50, 5000), st.floats(0.5, 35), st.sampled_from([0.01, 0.05, 0.1, 0.5]))
def test_what_was_wanted_lies_in_the_range_of_the_real_load(wax, percent, step):
    shown = dose(wax_g=wax, oil_g=wax * percent / 100, step_g=step)
    slack = 1e-6
    assert shown.load_low_percent - slack <= percent <= shown.load_high_percent + slack
    assert shown.load_low_percent < shown.load_percent < shown.load_high_percent
    assert shown.shown_g / step == pytest.approx(round(shown.shown_g / step))


@given(st.floats(1, 1000), st.floats(0.001, 1), st.floats(1, 10))
def test_a_coarser_scale_is_never_finer(weight_g, step, times):
    fine = half_step_percent(weight_g=weight_g, step_g=step)
    assert half_step_percent(weight_g=weight_g, step_g=step * times) >= fine


def test_a_dose_says_what_to_weigh_and_what_load_that_makes():
    assert dose(wax_g=111, oil_g=11.1, step_g=1).sentence() == (
        "On a scale with steps of 1 g weigh 11 g of oil (0.901 % too little); half a step is "
        "±4.55 % of it, so the real load lies between 9.46 and 10.36 % of wax."
    )
    assert "(as wanted)" in dose(wax_g=111, oil_g=11.1, step_g=0.1).sentence()
    assert "(6.38 % too much)" in dose(wax_g=100, oil_g=4.7, step_g=1).sentence()


def test_a_scale_that_would_not_show_the_oil_is_refused():
    with pytest.raises(OutOfRangeError, match=r"0\.4 g of oil would not show.*finer scale"):
        dose(wax_g=5, oil_g=0.4, step_g=1)


@pytest.mark.parametrize("step", [0, -0.1, 51])
def test_a_scale_without_a_step_is_answered(step):
    with pytest.raises(OutOfRangeError, match="Step of the scale is"):
        half_step_percent(weight_g=11.1, step_g=step)


def test_too_little_is_negative():
    # definition: (0.70 - 0.72) / 0.72; 0.70 is the step of 0.05 nearest to 0.72
    assert off_percent(wanted_g=0.72, shown_g=0.70) == pytest.approx(-2.778, abs=0.0005)


def test_ten_percent_of_a_small_dose_on_a_tenth_of_a_gram_is_four_and_a_half_percent():
    # definition: 0.05 / 1.11
    mixed = blend(parts=(("A", 90), ("B", 10)), oil_g=11.1, step_g=0.1)
    assert mixed.parts[1].oil_g == pytest.approx(1.11)
    assert mixed.parts[1].half_step_percent == pytest.approx(4.5, abs=0.005)
    assert "10 % of 11.1 g on a scale with steps of 0.1 g is ±4.5 %" in mixed.sentence()


def test_a_blend_of_any_parts_adds_up_to_its_dose():
    mixed = blend(parts=(("A", 3), ("B", 2), ("C", 1.5)), oil_g=40)
    assert sum(part.oil_g for part in mixed.parts) == pytest.approx(40)
    assert sum(part.share_percent for part in mixed.parts) == pytest.approx(100)


def test_the_smallest_premix_weighs_every_part_to_one_percent():
    mixed = blend(parts=ROPE_AND_LOFT, oil_g=11.1, step_g=0.1)
    assert mixed.premix_g == pytest.approx(25)  # definition: 0.05 / 0.01 / 0.2
    again = blend(parts=ROPE_AND_LOFT, oil_g=mixed.premix_g, step_g=0.1)
    assert max(part.half_step_percent for part in again.parts) == pytest.approx(1)


def test_a_blend_is_premixed_and_dosed_as_one_oil():
    said = (
        "Mix the blend first, by weight: 80 parts Ferry Rope (8.88 g), 20 parts Linen Loft "
        "(2.22 g); then dose 11.1 g of it as one oil."
    )
    assert blend(parts=ROPE_AND_LOFT, oil_g=11.1).sentence() == said
    assert blend(parts=ROPE_AND_LOFT, oil_g=11.1, step_g=0.1).sentence() == (
        f"{said} Weighed into the pitcher alone, 20 % of 11.1 g on a scale with steps of 0.1 g "
        "is ±2.25 %; from 25 g of blend on, every part is within ±1 %."
    )


@pytest.mark.parametrize("parts", [(), (("A", 80),), (("A", 80), ("A", 20))])
def test_a_blend_has_two_or_more_different_oils(parts):
    with pytest.raises(UnclearError, match="two or more different oils"):
        blend(parts=parts, oil_g=11.1)


def test_a_part_of_nothing_is_answered():
    with pytest.raises(OutOfRangeError, match="Parts of B is 0"):
        blend(parts=(("A", 80), ("B", 0)), oil_g=11.1)
