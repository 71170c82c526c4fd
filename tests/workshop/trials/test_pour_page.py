"""Pour day: which candles share a pitcher, and what is written on it."""

from typing import Any

from django.test import Client

from throwbench.workshop.shelf.models import Wax, Wick
from throwbench.workshop.trials.models import Candidate, TestCandle
from throwbench.workshop.trials.selectors.pitcher_names import PitcherNames, letter_of
from throwbench.workshop.trials.selectors.pour_page import next_for, pitchers, waiting
from throwbench.workshop.trials.services import plan
from throwbench.workshop.trials.services import pour as pouring
from throwbench.workshop.trials.sheets import pour_sheet_of
from workshop.trials.conftest import combined

By = dict[str, Any]


def test_letters_go_on_after_z() -> None:
    assert [letter_of(place) for place in (0, 25, 26, 27)] == ["A", "Z", "AA", "BB"]


def test_the_second_pitcher_of_an_oil_has_a_2(slate: Candidate, rhubarb: Candidate) -> None:
    names = PitcherNames(slate.trial)
    given = [names.next_of(one.pk) for one in (rhubarb, slate, rhubarb)]
    assert given == ["B", "A", "B2"]


def test_two_wicks_of_an_oil_share_a_pitcher(candle: TestCandle, by: By) -> None:
    oil = candle.combination.candidate
    thick = Wick.objects.create(series="flat cotton", size="5")
    plan.make_candle(combined(oil, thick, by), code="W5K", **by)
    (one,) = waiting(oil.trial)
    assert one.codes == "K7F, W5K"
    told = next_for(oil)
    assert told is not None
    assert told[1] == one
    assert round(one.wax_g or 0, 1) == 311.1


def test_another_load_is_another_pitcher(candle: TestCandle, wick: Wick, by: By) -> None:
    oil = candle.combination.candidate
    plan.make_candle(combined(oil, wick, by, load_percent=6), code="W6K", **by)
    assert [one.codes for one in waiting(oil.trial)] == ["K7F", "W6K"]


def test_the_sheet_and_the_page_name_a_pitcher_alike(
    candle: TestCandle, other_candle: TestCandle, wax: Wax, by: By, workshop: Any
) -> None:
    trial = candle.combination.candidate.trial
    sheet = pour_sheet_of(trial, here=workshop, day=by["now"].date())
    on_paper = {row.oil: row.name for row in sheet.pitchers}
    for one in (other_candle, candle):
        pouring.begin_pour(one.combination.candidate, wax=wax, load_percent=8, **by)
    assert {one.oil: one.letter for one in pitchers(trial)} == on_paper


def test_a_poured_pitcher_of_a_sealed_trial_is_a_number(
    candle: TestCandle, other_candle: TestCandle, wax: Wax, by: By
) -> None:
    trial = candle.combination.candidate.trial
    plan.change_plan(trial, sealed=True, **by)
    for one in (other_candle, candle):
        pitcher = pouring.begin_pour(one.combination.candidate, wax=wax, load_percent=8, **by)
        pouring.pour_candles(pitcher, candles=[one], **by)
    assert [(one.letter, one.oil) for one in pitchers(trial)] == [("1", ""), ("2", "")]


def test_two_candles_of_a_sealed_pitcher_do_not_stand_side_by_side(
    maker: Client, candle: TestCandle, other_candle: TestCandle, wax: Wax, by: By
) -> None:
    """Beside each other they would tell that they are of one oil."""
    trial = candle.combination.candidate.trial
    thick = Wick.objects.create(series="flat cotton", size="5")
    second = plan.make_candle(combined(candle.combination.candidate, thick, by), **by)
    candle.code, other_candle.code, second.code = "A2A", "B2B", "C2C"
    for one in (candle, other_candle, second):
        one.save()
    plan.change_plan(trial, sealed=True, **by)
    page = f"/trials/{trial.pk}/pour/"
    before, folded = maker.get(page).text.split("<summary>Which code for which oil</summary>")
    assert "A2A" not in before
    assert "A2A, C2C" in folded
    for these in ([candle, second], [other_candle]):
        made = these[0].combination.candidate
        pitcher = pouring.begin_pour(made, wax=wax, load_percent=8, **by)
        pouring.pour_candles(pitcher, candles=these, **by)
    text = maker.get(page).text
    assert "Poured, behind the seal: A2A, B2B, C2C." in text
    assert "Pitcher 1" not in text
