"""Pouring: every weighing is kept, unlikely figures are asked about, a press counts once."""

from datetime import UTC, date, datetime
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError

from throwbench.science.errors import OutOfRangeError, UnclearError
from throwbench.workshop.house.models import Correction
from throwbench.workshop.shelf.models import Piece, Wax
from throwbench.workshop.trials.models import Candidate, Combination, Pour, TestCandle, Weighing
from throwbench.workshop.trials.pitcher import Scale, oil_for
from throwbench.workshop.trials.selectors.pour_page import pitchers
from throwbench.workshop.trials.services import pour as pouring
from throwbench.workshop.trials.services.weighed import put_weighing_right
from throwbench.workshop.trials.windows import AskedError

By = dict[str, Any]


@pytest.fixture
def pitcher(slate: Candidate, wax: Wax, by: By) -> Pour:
    return pouring.begin_pour(slate, wax=wax, load_percent=8, wax_mg=161_100, **by)


def test_the_last_weighing_of_the_wax_counts(pitcher: Pour, by: By) -> None:
    pouring.weigh(pitcher, what="wax", mg=173_700, **by)
    pouring.weigh(pitcher, what="wax", mg=161_100, **by)
    told = oil_for(pitcher, Scale.of(list(pitcher.weighings.all())))
    assert told is not None
    assert told.weighings_g == (173.7, 161.1)
    assert told.mix.oil_g == pytest.approx(12.888)


def test_a_load_of_total_is_worked_out_of_wax(slate: Candidate, wax: Wax, by: By) -> None:
    pitcher = pouring.begin_pour(slate, wax=wax, load_percent=8, basis="total", **by)
    pouring.weigh(pitcher, what="wax", mg=160_100, **by)
    told = oil_for(pitcher, Scale.of(list(pitcher.weighings.all())))
    assert told is not None
    assert told.mix.oil_g == pytest.approx(13.92, abs=0.005)


def test_a_share_of_total_above_the_card_is_refused(slate: Candidate, wax: Wax, by: By) -> None:
    with pytest.raises(OutOfRangeError, match=r"Load of wax is 9\.89011 %"):
        pouring.begin_pour(slate, wax=wax, load_percent=9, basis="total", **by)


@pytest.mark.parametrize("mg", [16_110, 1_611_000])
def test_wax_far_from_the_plan_is_asked_about(pitcher: Pour, mg: int, by: By) -> None:
    with pytest.raises(AskedError, match=r"161\.1 g was planned"):
        pouring.weigh(pitcher, what="wax", mg=mg, **by)
    assert not pitcher.weighings.exists()
    pouring.weigh(pitcher, what="wax", mg=mg, sure=True, **by)
    assert pitcher.weighings.get().mg == mg


def test_oil_above_the_wax_card_is_asked_about(pitcher: Pour, by: By) -> None:
    pouring.weigh(pitcher, what="wax", mg=161_100, **by)
    with pytest.raises(AskedError, match=r"allows 9 % of wax at most: do not pour it as it is"):
        pouring.weigh(pitcher, what="oil", mg=15_000, **by)
    pouring.weigh(pitcher, what="oil", mg=15_000, sure=True, **by)


def test_a_lost_decimal_point_in_the_oil_is_guessed(pitcher: Pour, by: By) -> None:
    pouring.weigh(pitcher, what="wax", mg=161_100, **by)
    with pytest.raises(AskedError) as asked:
        pouring.weigh(pitcher, what="oil", mg=129_000, **by)
    assert str(asked.value) == (
        "129 g of oil in 161.1 g of wax is 80.07 % of wax; 12.9 g was worked out. The wax card "
        "allows 9 % of wax at most. Did you mean 12.9 g?"
    )
    assert asked.value.guess == 12.9
    assert not pitcher.weighings.filter(what="oil").exists()


def test_a_decimal_point_set_too_early_is_guessed(pitcher: Pour, by: By) -> None:
    pouring.weigh(pitcher, what="wax", mg=161_100, **by)
    with pytest.raises(AskedError, match=r"Did you mean 12\.9 g\?"):
        pouring.weigh(pitcher, what="oil", mg=1_290, **by)


@pytest.fixture
def without_card(slate: Candidate, by: By) -> Pour:
    """190 g of a wax of which nothing is known, for 15.2 g of oil."""
    bare = Wax.objects.create(name="unknown wax")
    pitcher = pouring.begin_pour(slate, wax=bare, load_percent=8, **by)
    pouring.weigh(pitcher, what="wax", mg=190_000, **by)
    return pitcher


@pytest.mark.parametrize(
    ("mg", "sentence"),
    [
        (152_000, r"is 80 % of wax; 15\.2 g was worked out\. .*usual is 2 to 15 % of wax\. "
                  r"Did you mean 15\.2 g\?"),
        (30_000, r"Weigh it again; if it is really in, do not pour it\."),
        (23_000, r"is 12\.11 % of wax; 15\.2 g was worked out\. Weigh it again, or note it"),
        (10_000, r"Weigh it again, or note it as it is\."),
    ],
)  # fmt: skip
def test_oil_far_from_the_dose_is_asked_about_without_a_card(
    without_card: Pour, mg: int, sentence: str, by: By
) -> None:
    with pytest.raises(AskedError, match=sentence):
        pouring.weigh(without_card, what="oil", mg=mg, **by)


@pytest.mark.parametrize("mg", [10_200, 15_200, 22_700])
def test_oil_near_the_dose_is_noted(without_card: Pour, mg: int, by: By) -> None:
    assert pouring.weigh(without_card, what="oil", mg=mg, **by).mg == mg


def test_too_much_oil_is_asked_about_once_more_before_it_is_poured(
    without_card: Pour, candle: TestCandle, by: By
) -> None:
    pouring.weigh(without_card, what="oil", mg=152_000, sure=True, **by)
    with pytest.raises(AskedError, match=r"It holds 80 % of wax; .* Do not pour it\."):
        pouring.pour_candles(without_card, candles=[candle], **by)
    without_card.refresh_from_db()
    assert without_card.poured_at is None


def test_a_weighing_of_nothing_is_refused(pitcher: Pour, by: By) -> None:
    with pytest.raises(ValidationError, match="above 0 g"):
        pouring.weigh(pitcher, what="oil", mg=0, **by)


@pytest.mark.parametrize(
    ("step", "celsius", "sentence"),
    [
        (
            "poured", 38,
            "Pour temperature is 38 °C; this wax sets at 46 °C. Warm it to 56–60 °C, or check the "
            "unit.",
        ),
        (
            "poured", 147,
            "147 °C is above this wax’s limit of 85 °C. Did you mean 147 °F? That is 64 °C.",
        ),
        (
            "poured", 66,
            "Pour temperature is 66 °C; the wax card says 56–60 °C. Let it cool to 56–60 °C, or "
            "note it as it was.",
        ),
        (
            "added oil", 66,
            "Temperature when the oil went in is 66 °C; the wax card says 70–74 °C. Warm it to "
            "70–74 °C, or note it as it was.",
        ),
        (
            "melted", 95,
            "95 °C is above this wax’s limit of 85 °C. Take it off the heat and let it cool, or "
            "check the unit.",
        ),
    ],
)  # fmt: skip
def test_a_temperature_outside_the_window_is_asked_about(
    pitcher: Pour, step: str, celsius: float, sentence: str, by: By
) -> None:
    with pytest.raises(AskedError) as asked:
        pouring.read_temperature(pitcher, step=step, celsius=celsius, **by)
    assert str(asked.value) == sentence
    assert not pitcher.temperatures.exists()


def test_a_reading_in_fahrenheit_is_guessed(pitcher: Pour, by: By) -> None:
    with pytest.raises(AskedError) as asked:
        pouring.read_temperature(pitcher, step="poured", celsius=147, **by)
    assert asked.value.guess == 64


@pytest.mark.parametrize(("step", "celsius"), [("poured", 56), ("poured", 60), ("melted", 85)])
def test_the_edges_of_a_window_belong_to_it(
    pitcher: Pour, step: str, celsius: float, by: By
) -> None:
    pouring.read_temperature(pitcher, step=step, celsius=celsius, instrument="probe", **by)
    assert pitcher.temperatures.get().instrument == "probe"


def test_what_was_hot_all_the_same_is_noted_when_the_maker_is_sure(pitcher: Pour, by: By) -> None:
    pouring.read_temperature(pitcher, step="melted", celsius=95, sure=True, **by)
    assert pitcher.temperatures.get().celsius == 95


def test_a_wax_without_a_card_asks_nothing(slate: Candidate, by: By) -> None:
    bare = Wax.objects.create(name="unknown wax")
    pitcher = pouring.begin_pour(slate, wax=bare, load_percent=8, **by)
    pouring.read_temperature(pitcher, step="poured", celsius=20, **by)
    assert pitcher.temperatures.count() == 1


def test_without_a_card_what_is_far_hotter_than_melted_wax_is_asked(
    slate: Candidate, by: By
) -> None:
    bare = Wax.objects.create(name="unknown wax")
    pitcher = pouring.begin_pour(slate, wax=bare, load_percent=8, **by)
    with pytest.raises(AskedError) as asked:
        pouring.read_temperature(pitcher, step="melted", celsius=185, **by)
    assert str(asked.value) == (
        "185 °C is far hotter than wax is melted. Did you mean 185 °F? That is 85 °C. If it really "
        "is that hot: heat off, and do not leave it."
    )
    assert asked.value.guess == 85
    assert not pitcher.temperatures.exists()


def test_without_a_card_110_degrees_is_the_border(slate: Candidate, by: By) -> None:
    bare = Wax.objects.create(name="unknown wax")
    pitcher = pouring.begin_pour(slate, wax=bare, load_percent=8, **by)
    pouring.read_temperature(pitcher, step="melted", celsius=110, **by)
    with pytest.raises(AskedError, match=r"260 °C .* heat off, and do not leave it\."):
        pouring.read_temperature(pitcher, step="melted", celsius=260, **by)


def test_a_candle_as_planned_keeps_its_planned_load(
    pitcher: Pour, candle: TestCandle, by: By
) -> None:
    pouring.weigh(pitcher, what="wax", mg=161_100, **by)
    pouring.weigh(pitcher, what="oil", mg=12_900, **by)
    pouring.pour_candles(pitcher, candles=[candle], stirred_s=183, **by)
    candle.refresh_from_db()
    assert candle.combination.load_percent == 8
    assert candle.pour == pitcher


def test_a_candle_dosed_otherwise_gets_a_combination_of_its_own(
    pitcher: Pour, candle: TestCandle, by: By
) -> None:
    pouring.weigh(pitcher, what="wax", mg=160_100, **by)
    pouring.weigh(pitcher, what="oil", mg=13_900, **by)
    pouring.pour_candles(pitcher, candles=[candle], **by)
    candle.refresh_from_db()
    assert candle.combination.load_percent == 8.7
    assert candle.combination.fill_mg == 168_000


def test_the_day_of_a_pour_is_the_workshops_own(pitcher: Pour, candle: TestCandle, by: By) -> None:
    late = datetime(2027, 5, 24, 22, 30, tzinfo=UTC)
    pouring.pour_candles(pitcher, candles=[candle], **{**by, "now": late})
    assert f"{TestCandle.objects.get().poured_on}" == "2027-05-25"


def test_a_candle_is_poured_once(
    pitcher: Pour, candle: TestCandle, slate: Candidate, wax: Wax, by: By
) -> None:
    pouring.pour_candles(pitcher, candles=[candle], **by)
    second = pouring.begin_pour(slate, wax=wax, load_percent=8, **by)
    candle.refresh_from_db()
    with pytest.raises(UnclearError, match="K7F was poured already"):
        pouring.pour_candles(second, candles=[candle], **by)


def test_a_pitcher_is_poured_once(pitcher: Pour, candle: TestCandle, by: By) -> None:
    pouring.pour_candles(pitcher, candles=[candle], **by)
    with pytest.raises(UnclearError, match="poured once"):
        pouring.pour_candles(pitcher, candles=[candle], **by)
    with pytest.raises(UnclearError, match="empty pitcher"):
        pouring.weigh(pitcher, what="oil", mg=1000, **by)


def test_a_pour_fills_at_least_one(pitcher: Pour, by: By) -> None:
    with pytest.raises(UnclearError, match="No candle is chosen"):
        pouring.pour_candles(pitcher, candles=[], **by)


def test_another_oils_candle_is_not_poured(pitcher: Pour, other_candle: TestCandle, by: By) -> None:
    with pytest.raises(UnclearError, match="another oil"):
        pouring.pour_candles(pitcher, candles=[other_candle], **by)


def test_a_chip_found_before_the_pour_bars_the_vessel(
    pitcher: Pour, candle: TestCandle, by: By
) -> None:
    vessel = candle.combination.vessel
    candle.piece = Piece.objects.create(vessel=vessel, name="Cup 7", flaw="structural")
    candle.save()
    with pytest.raises(UnclearError, match="never lit"):
        pouring.pour_candles(pitcher, candles=[candle], **by)


def test_a_button_pressed_twice_weighs_once(pitcher: Pour, by: By) -> None:
    entry = uuid4()
    first = pouring.weigh(pitcher, what="wax", mg=161_100, entry=entry, **by)
    again = pouring.weigh(pitcher, what="wax", mg=161_100, entry=entry, **by)
    assert first == again
    assert Weighing.objects.count() == 1


def test_a_button_pressed_twice_begins_one_pitcher(slate: Candidate, wax: Wax, by: By) -> None:
    entry = uuid4()
    for _ in range(2):
        pouring.begin_pour(slate, wax=wax, load_percent=8, entry=entry, **by)
    assert Pour.objects.count() == 1


def test_a_button_pressed_twice_pours_once(pitcher: Pour, candle: TestCandle, by: By) -> None:
    entry = uuid4()
    for _ in range(2):
        pouring.pour_candles(pitcher, candles=[candle], entry=entry, **by)
    assert pitcher.candles.count() == 1


def test_a_button_pressed_twice_reads_once(pitcher: Pour, by: By) -> None:
    entry = uuid4()
    for _ in range(2):
        pouring.read_temperature(pitcher, step="poured", celsius=58, entry=entry, **by)
    assert pitcher.temperatures.count() == 1


def test_a_typing_slip_keeps_the_first_figure(pitcher: Pour, candle: TestCandle, by: By) -> None:
    pouring.weigh(pitcher, what="wax", mg=161_100, **by)
    slip = pouring.weigh(pitcher, what="oil", mg=19_200, sure=True, **by)
    pouring.pour_candles(pitcher, candles=[candle], sure=True, **by)
    assert TestCandle.objects.get().combination.load_percent == 11.9
    put_weighing_right(slip, mg=12_900, why="12.9 read as 19.2", **by)
    assert TestCandle.objects.get().combination.load_percent == 8
    assert [each.mg for each in pitcher.weighings.filter(what="oil")] == [19_200, 12_900]
    assert Correction.objects.get().was == "19200"


@pytest.mark.parametrize("load", [8, 8.2])
def test_a_slip_put_right_gives_the_combination_of_the_same_figure_typed_at_once(
    pitcher: Pour, candle: TestCandle, by: By, load: float
) -> None:
    pouring.weigh(pitcher, what="wax", mg=160_000, **by)
    slip = pouring.weigh(pitcher, what="oil", mg=16_000, sure=True, **by)
    pouring.pour_candles(pitcher, candles=[candle], sure=True, **by)
    assert TestCandle.objects.get().combination.load_percent == 10
    put_weighing_right(slip, mg=round(1600 * load), why="slip", **by)
    put_right = TestCandle.objects.get().combination
    assert put_right.load_percent == 8
    assert Combination.objects.order_by("pk").first() == put_right


def test_a_load_dosed_of_total_still_departs_when_it_is_put_right(
    slate: Candidate, candle: TestCandle, wax: Wax, by: By
) -> None:
    pour = pouring.begin_pour(slate, wax=wax, load_percent=8, basis="total", **by)
    pouring.weigh(pour, what="wax", mg=160_100, **by)
    slip = pouring.weigh(pour, what="oil", mg=31_900, sure=True, **by)
    pouring.pour_candles(pour, candles=[candle], sure=True, **by)
    put_weighing_right(slip, mg=13_900, why="slip", **by)
    assert TestCandle.objects.get().combination.load_percent == 8.7


def test_a_slip_in_the_wax_took_nothing_back(pitcher: Pour, by: By) -> None:
    slip = pouring.weigh(pitcher, what="wax", mg=1_611_000, sure=True, **by)
    put_weighing_right(slip, mg=161_100, why="the point was lost", **by)
    (told,) = pitchers(pitcher.candidate.trial)
    assert told.took_back == ""
    assert [(each.mg, each.words) for each in told.weighings] == [
        (1_611_000, "wax in the pitcher, typed wrongly and put right"),
        (161_100, "wax in the pitcher"),
    ]
    assert Scale.at(pitcher).wax_g == (161.1,)


def test_a_slip_in_an_earlier_weighing_leaves_the_last_one_last(pitcher: Pour, by: By) -> None:
    early = pouring.weigh(pitcher, what="wax", mg=178_700, **by)
    after = by | {"now": by["now"].replace(minute=10)}
    pouring.weigh(pitcher, what="wax", mg=161_100, **after)
    later = by | {"now": by["now"].replace(minute=30)}
    put_weighing_right(early, mg=173_700, why="slip", **later)
    assert [each.mg for each in pitcher.weighings.all()] == [178_700, 173_700, 161_100]


def test_a_slip_is_put_right_with_a_reason(pitcher: Pour, by: By) -> None:
    slip = pouring.weigh(pitcher, what="wax", mg=161_100, **by)
    with pytest.raises(UnclearError, match="There is no reason"):
        put_weighing_right(slip, mg=161_000, why=" ", **by)
    assert pitcher.weighings.count() == 1


def test_a_candle_poured_before_keeps_its_day(pitcher: Pour, candle: TestCandle, by: By) -> None:
    pouring.pour_candles(pitcher, candles=[candle], poured_on=date(2026, 9, 14), **by)
    assert TestCandle.objects.get().poured_on == date(2026, 9, 14)


def test_a_pour_is_not_of_a_day_to_come(pitcher: Pour, candle: TestCandle, by: By) -> None:
    with pytest.raises(UnclearError, match="dated Tuesday 25 May 2027; today is Monday 24 May"):
        pouring.pour_candles(pitcher, candles=[candle], poured_on=date(2027, 5, 25), **by)
