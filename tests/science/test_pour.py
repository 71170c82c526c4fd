"""Everything that can be worked out about one pour."""

import pytest

from throwbench.records import Pour
from throwbench.science.errors import OutOfRangeError, UnclearError
from throwbench.science.pour import CARE, work_out

SIX = {"load_percent": 8, "basis": "wax", "vessels": 6, "fill_g": 90, "residue_g": 6}


def answered(**entries):
    return work_out(Pour(**entries))


def test_a_load_alone_is_answered_on_both_bases_without_a_caution():
    answer = answered(load_percent=10, basis="total")
    assert answer.sentence() == "10 % of total is a load of 11.11 % of wax."
    assert answer.sums_g() == ()


def test_wax_and_total_lead_to_the_same_mix():
    by_wax = answered(load_percent=10, basis="wax", wax_g=200)
    by_total = answered(load_percent=10, basis="wax", total_g=220)
    assert by_wax.mix.oil_g == pytest.approx(20)  # definition
    assert by_total.mix.oil_g == pytest.approx(20)  # definition


def test_one_fill_without_a_number_of_vessels_is_one_vessel():
    assert answered(load_percent=10, basis="wax", fill_g=220).mix.oil_g == pytest.approx(20)


def test_the_set_of_test_candles_with_the_pitcher_weighed_and_the_oil_recorded():
    # definition: LF021-LF025
    answer = answered(**SIX, oils=7, weighings_g=(518.2, 506.9), oil_in_g=40.45)
    assert answer.batch.wax_to_melt_g == pytest.approx(3538.89, abs=0.01)
    assert answer.weighed.target_g == pytest.approx(505.556, abs=0.001)
    assert answer.pitcher.oil_g == pytest.approx(40.552, abs=0.001)
    assert answer.recorded.mix.load_percent == pytest.approx(7.98, abs=0.001)
    assert answer.sums_g()[-1] == ("oil poured in", 40.45)


def test_the_sums_are_those_of_the_wax_really_in_the_pitcher():
    sums = dict(answered(**SIX, weighings_g=(518.2, 506.9), scale_step_g=0.1).sums_g())
    assert sums["wax in one pitcher"] == 506.9
    assert sums["oil in one pitcher"] == pytest.approx(40.552)
    assert sums["oil as the scale shows it"] == pytest.approx(40.6)


def test_wax_weighed_without_a_plan_has_no_target():
    answer = answered(load_percent=8, weighings_g=(500,))
    assert answer.weighed.target_g is None
    assert answer.pitcher.oil_g == 40


def test_the_planned_wax_is_the_target_of_its_weighings():
    answer = answered(load_percent=8, wax_g=505.6, weighings_g=(518.2,))
    assert answer.weighed.target_g == 505.6
    assert "40.45 g" not in answer.sentence()  # definition: the oil of the plan, 505.6 * 0.08


@pytest.mark.parametrize("wax", [{"wax_g": 506.9}, {"weighings_g": (518.2, 506.9)}])
def test_a_record_needs_no_planned_load(wax):
    answer = answered(**wax, oil_in_g=40.45)
    assert answer.load is None
    assert answer.recorded.mix.load_percent == pytest.approx(7.98, abs=0.001)


def test_a_recorded_load_above_the_card_is_said_not_refused():
    answer = answered(wax_g=500, oil_in_g=50, card_maximum_percent=9)
    assert "do not pour it as it is" in answer.sentence()


def test_a_planned_load_above_the_card_is_refused():
    with pytest.raises(OutOfRangeError, match="the wax card's maximum"):
        answered(load_percent=9.5, wax_g=500, card_maximum_percent=9)


def test_the_card_is_held_against_the_load_of_wax_and_not_the_share_of_total():
    # definition: 8.5 % of total is 9.29 % of wax
    with pytest.raises(OutOfRangeError, match=r"Load of wax is 9\.28962 %"):
        answered(load_percent=8.5, basis="total", card_maximum_percent=9)
    assert answered(load_percent=8.2, basis="total", card_maximum_percent=9).load


def test_a_vessel_weighed_with_water_stands_in_for_its_fill():
    water = {"water_g": 250, "water_c": 22, "density_g_ml": 0.86}
    alone = answered(**water)
    assert alone.mix is None
    assert alone.cautions == ()
    one = answered(**water, load_percent=8)
    assert one.mix.total_g == pytest.approx(alone.fill.fill_g)
    six = answered(**water, load_percent=8, vessels=6)
    assert six.batch.pitcher.total_g == pytest.approx(6 * alone.fill.fill_g)


def test_a_fill_that_was_given_counts_above_the_one_from_water():
    answer = answered(**SIX, water_g=250, density_g_ml=0.86)
    assert answer.batch.fill_g == 90


def test_water_beside_a_weighed_pitcher_sets_no_target():
    answer = answered(load_percent=8, weighings_g=(500,), water_g=250, density_g_ml=0.86)
    assert answer.weighed.target_g is None


def test_a_blend_is_dosed_as_the_oil_of_the_pitcher():
    answer = answered(load_percent=10, wax_g=111, blend=(("Ferry Rope", 80), ("Linen Loft", 20)))
    assert answer.blend.oil_g == pytest.approx(11.1)
    assert dict(answer.sums_g())["of it Linen Loft"] == pytest.approx(2.22)


def test_the_caution_stands_where_wax_is_hot_and_oil_goes_in():
    cautions = answered(load_percent=8, wax_g=500).cautions
    assert cautions[:2] == CARE
    assert CARE[1] == "Wax on fire: lid on, no water."
    assert cautions[2] == "Flash point of the oil: not known here; its safety data sheet names it."


def test_a_known_flash_point_stands_beside_the_oil():
    cautions = answered(wax_g=500, oil_in_g=40, flash_c=93).cautions
    assert cautions[2] == "Flash point of the oil: 93 °C."
    with pytest.raises(OutOfRangeError, match="Flash point is 999 °C"):
        answered(wax_g=500, oil_in_g=40, flash_c=999)


@pytest.mark.parametrize(
    "entries",
    [
        {"load_percent": 8, "weighings_g": (500,)},
        {"load_percent": 8, "total_g": 540},
        {"load_percent": 8, "fill_g": 90},
        {"load_percent": 8, "vessels": 6, "fill_g": 90},
        {"load_percent": 8, "water_g": 250, "density_g_ml": 0.86},
    ],
)
def test_a_flash_point_is_checked_wherever_oil_goes_in(entries):
    assert answered(**entries, flash_c=65).cautions[-1] == "Flash point of the oil: 65 °C."
    with pytest.raises(OutOfRangeError, match="Flash point is 5000 °C"):
        answered(**entries, flash_c=5000)


@pytest.mark.parametrize("maximum", [0, 500])
def test_a_wax_card_that_cannot_be_is_answered_beside_a_record_too(maximum):
    with pytest.raises(OutOfRangeError, match=f"The wax card's maximum is {maximum} %"):
        answered(wax_g=500, oil_in_g=40, card_maximum_percent=maximum)
    assert answered(wax_g=500, oil_in_g=40, card_maximum_percent=9).recorded.above_card is False


def test_ounces_stand_beside_grams_when_the_maker_weighs_in_them():
    said = answered(load_percent=10, basis="wax", wax_g=155.9223771875).sentences(ounces=True)
    assert said[1].startswith("15.59 g (0.55 oz) of oil into 155.92 g (5.5 oz) of wax")


@pytest.mark.parametrize(
    ("entries", "said"),
    [
        ({"wax_g": 500}, "not the load. The load is needed"),
        ({"total_g": 500}, "not the load"),
        ({"weighings_g": (500,)}, "not the load"),
        ({"vessels": 6, "fill_g": 90}, "not the load"),
        ({"vessels": 6, "load_percent": 8}, "not what goes into one. The fill is needed"),
        ({"wax_g": 500, "total_g": 540, "load_percent": 8}, "given 2 times: wax, total"),
        ({"water_g": 250}, "The density of the wax is needed"),
        ({"scale_step_g": 0.1, "load_percent": 8}, "not what is weighed. The wax is needed"),
        ({"blend": (("A", 1), ("B", 1)), "load_percent": 8}, "not how much of it"),
        ({"oil_in_g": 40}, "not the wax it went into"),
        ({"basis": "wax"}, "The basis is given, but nothing it could be used for"),
        ({"load_percent": 8, "flash_c": 65}, "The flash point is given, but nothing it could"),
        ({"water_g": 250, "density_g_ml": 0.86, "flash_c": 65}, "Give the weight of wax"),
        (
            {"water_g": 250, "density_g_ml": 0.86, "card_maximum_percent": 9},
            "The wax card's maximum is given, but nothing it could be used for",
        ),
        ({"load_percent": 8, "basis": "Total"}, "The load is of 'Total'. A load is of wax or of"),
        ({"load_percent": 8, "wax_g": 500, "residue_g": 6}, "The residue in the pitcher is given"),
        ({"load_percent": 8, "wax_g": 500, "pot_residue_g": 6}, "The residue in the pot is given"),
        ({"load_percent": 8, "wax_g": 500, "oils": 7}, "Give the number of vessels"),
        ({"load_percent": 8, "wax_g": 500, "fill_g": 90}, "The fill is given"),
        ({"load_percent": 8, "density_g_ml": 0.86}, "The density of the wax is given"),
        ({"load_percent": 8, "solid_g_ml": 0.9}, "The density of the set wax is given"),
        ({"load_percent": 8, "water_c": 20}, "The water temperature is given"),
        ({"load_percent": 8, "inside_mm": 75}, "Give the weight of water"),
    ],
)
def test_what_is_missing_or_of_no_use_is_said(entries, said):
    with pytest.raises(UnclearError, match=said):
        answered(**entries)
