"""Planning: what is asked, who competes, what each is made of, and the seal."""

import random
from typing import Any

import pytest
from django.core.exceptions import ValidationError

from throwbench.science.errors import OutOfRangeError, UnclearError
from throwbench.workshop.house.models import Correction
from throwbench.workshop.line.services import decide
from throwbench.workshop.shelf.models import Oil, Piece, Vessel, Wax, Wick
from throwbench.workshop.trials.codes import DIGITS, LETTERS, new_code
from throwbench.workshop.trials.models import Candidate, Combination, TestCandle, Trial
from throwbench.workshop.trials.services import plan
from throwbench.workshop.trials.services.candles import fit_out
from workshop.trials.conftest import combined

By = dict[str, Any]


def test_a_load_above_the_wax_card_is_refused(wax: Wax, by: By) -> None:
    with pytest.raises(OutOfRangeError, match=r"Load of wax is 10 %; 0.01 to 9 % is allowed"):
        plan.plan_trial(name="Too much", wax=wax, load_percent=10, **by)


def test_the_maximum_of_the_wax_card_itself_is_allowed(wax: Wax, by: By) -> None:
    assert plan.plan_trial(name="Full", wax=wax, load_percent=9, **by).load_percent == 9


def test_a_combination_above_the_wax_card_is_refused(slate: Candidate, wick: Wick, by: By) -> None:
    with pytest.raises(OutOfRangeError, match="Take less oil"):
        combined(slate, wick, by, load_percent=9.5)


def test_a_combination_stands_once_in_a_trial(slate: Candidate, wick: Wick, by: By) -> None:
    combined(slate, wick, by)
    with pytest.raises(ValidationError, match="planned already"):
        combined(slate, wick, by)


def test_a_combination_planned_before_is_found_again(
    slate: Candidate, wick: Wick, wax: Wax, cup: Vessel, by: By
) -> None:
    first = combined(slate, wick, by)
    again = plan.combination_for(slate, wax=wax, load_percent=8, wick=wick, vessel=cup, **by)
    assert again == first


@pytest.mark.parametrize(("low", "high"), [(0.5, 4), (3, 5.5)])
def test_a_band_outside_the_scale_is_refused(trial: Trial, low: float, high: float, by: By) -> None:
    with pytest.raises(ValidationError, match="Stay inside the scale"):
        plan.set_band(trial, low=low, high=high, **by)


def test_a_band_that_goes_down_is_refused(trial: Trial, by: By) -> None:
    with pytest.raises(ValidationError, match="from a lower to a higher score"):
        plan.set_band(trial, low=4, high=3, **by)


def test_a_band_is_changed_and_not_doubled(trial: Trial, by: By) -> None:
    plan.set_band(trial, low=3, high=4, room_kind="small room", **by)
    plan.set_band(trial, low=2.6, high=3.8, room_kind="small room", **by)
    plan.set_band(trial, low=3.2, high=4.4, **by)
    assert {band.room_kind: (band.low, band.high) for band in trial.bands.all()} == {
        "small room": (2.6, 3.8),
        "": (3.2, 4.4),
    }


def test_an_oil_stands_once_in_a_trial(slate: Candidate, by: By) -> None:
    with pytest.raises(ValidationError, match="in the trial already"):
        plan.add_candidate(slate.trial, oil=slate.oil, **by)


def test_at_least_one_is_chosen(by: By) -> None:
    with pytest.raises(ValidationError, match="At least 1 oil is chosen"):
        plan.plan_trial(name="None", choose=0, **by)


def test_a_scale_goes_up(by: By) -> None:
    with pytest.raises(ValidationError, match="from a lower to a higher step"):
        plan.plan_trial(name="Down", scale_low=5, scale_high=1, **by)


def test_fixing_makes_one_candle_of_each_combination(
    slate: Candidate, rhubarb: Candidate, wick: Wick, by: By
) -> None:
    combined(slate, wick, by)
    kept = plan.make_candle(combined(rhubarb, wick, by), code="M9C", **by)
    plan.fix_plan(slate.trial, **by)
    plan.fix_plan(slate.trial, **by)
    codes = set(TestCandle.objects.values_list("code", flat=True))
    assert len(codes) == 2
    assert kept.code in codes


def test_a_plan_without_a_wick_is_not_fixed(slate: Candidate, by: By) -> None:
    with pytest.raises(UnclearError, match="No candidate has a wick yet"):
        plan.fix_plan(slate.trial, **by)


def test_a_code_has_nothing_that_is_misread() -> None:
    code = new_code(set(), chance=random.Random(4))
    assert [place in LETTERS for place in code] == [True, False, True]
    assert code[1] in DIGITS
    assert not set(LETTERS + DIGITS) & set("01OI")


def test_codes_come_from_the_chance_that_is_given() -> None:
    assert new_code(set(), chance=random.Random(4)) == new_code(set(), chance=random.Random(4))


def test_a_used_code_is_not_given_again() -> None:
    used: set[str] = set()
    chance = random.Random(4)
    while len(used) < 300:
        code = new_code(used, chance=chance)
        assert code not in used
        used.add(code)


def test_when_all_codes_are_used_it_is_said() -> None:
    everything = {a + b + c for a in LETTERS for b in DIGITS for c in LETTERS}
    with pytest.raises(UnclearError, match="All 4,608 codes are used"):
        new_code(everything)


def test_a_chip_bars_the_vessel(slate: Candidate, wick: Wick, cup: Vessel, by: By) -> None:
    chipped = Piece.objects.create(vessel=cup, name="Cup 7", flaw="structural", flaw_note="a chip")
    with pytest.raises(UnclearError, match="a chip, a crack or a leak is never lit"):
        plan.make_candle(combined(slate, wick, by), piece=chipped, **by)


def test_a_cosmetic_flaw_is_for_tests(slate: Candidate, wick: Wick, cup: Vessel, by: By) -> None:
    second = Piece.objects.create(vessel=cup, name="Cup 1", flaw="cosmetic", flaw_note="glaze")
    assert plan.make_candle(combined(slate, wick, by), piece=second, **by).piece == second


def test_a_piece_of_another_vessel_is_refused(slate: Candidate, wick: Wick, by: By) -> None:
    bowl = Vessel.objects.create(name="low glass bowl")
    piece = Piece.objects.create(vessel=bowl, name="Bowl 1")
    with pytest.raises(UnclearError, match="Bowl 1 is a low glass bowl"):
        plan.make_candle(combined(slate, wick, by), piece=piece, **by)


def test_breaking_the_seal_is_a_row_with_its_reason(trial: Trial, by: By) -> None:
    plan.change_plan(trial, sealed=True, **by)
    opened = plan.break_seal(trial, why="a cup cracked", **by)
    assert opened.why == "a cup cracked"
    assert not Trial.objects.get().is_sealed


def test_a_seal_is_not_broken_without_a_reason(trial: Trial, by: By) -> None:
    plan.change_plan(trial, sealed=True, **by)
    with pytest.raises(UnclearError, match="There is no reason"):
        plan.break_seal(trial, why="  ", **by)
    assert Trial.objects.get().is_sealed


def test_what_is_not_sealed_is_not_opened(trial: Trial, by: By) -> None:
    with pytest.raises(UnclearError, match="is not sealed"):
        plan.break_seal(trial, why="to see", **by)


def test_swapped_tags_name_what_the_other_one_was(
    candle: TestCandle, other_candle: TestCandle, by: By
) -> None:
    plan.swap_tags(candle, other_candle, why="the blotters told", **by)
    oil = {row.code: row.combination.candidate.oil.name for row in TestCandle.objects.all()}
    assert oil == {"K7F": "Rhubarb Cold Frame", "M9C": "Slate After Rain"}


def test_a_swap_back_is_a_second_row(candle: TestCandle, other_candle: TestCandle, by: By) -> None:
    first = plan.swap_tags(candle, other_candle, why="the blotters told", **by)
    second = plan.swap_tags(candle, other_candle, why="no, they did not", **by)
    assert second.pk != first.pk
    assert TestCandle.objects.get(code="K7F").combination.candidate.oil.name == "Slate After Rain"


def test_a_candle_is_not_swapped_with_itself(candle: TestCandle, by: By) -> None:
    with pytest.raises(ValidationError, match="Name another one"):
        plan.swap_tags(candle, candle, why="slip", **by)


def test_tags_of_two_trials_are_not_swapped(
    candle: TestCandle, oils: list[Oil], wick: Wick, by: By
) -> None:
    other = plan.plan_trial(name="Other", **by)
    like = candle.combination
    made = plan.add_combination(
        plan.add_candidate(other, oil=oils[2], **by),
        wax=like.wax, load_percent=8, wick=wick, vessel=like.vessel, **by,
    )  # fmt: skip
    with pytest.raises(UnclearError, match="of two trials"):
        plan.swap_tags(candle, plan.make_candle(made, **by), why="slip", **by)


def test_a_swap_needs_a_reason(candle: TestCandle, other_candle: TestCandle, by: By) -> None:
    with pytest.raises(UnclearError, match="Say how you know"):
        plan.swap_tags(candle, other_candle, why="", **by)


def test_a_planned_oil_leaves_the_plan(slate: Candidate, wick: Wick, by: By) -> None:
    combined(slate, wick, by)
    plan.take_out(slate, **by)
    assert not Candidate.objects.exists()
    assert not Combination.objects.exists()


def test_an_oil_with_a_candle_stays(candle: TestCandle, by: By) -> None:
    with pytest.raises(UnclearError, match="has test candles"):
        plan.take_out(candle.combination.candidate, **by)


def test_an_oil_of_which_something_was_decided_stays(slate: Candidate, wick: Wick, by: By) -> None:
    combined(slate, wick, by)
    decide(slate, outcome="test again", **by)
    with pytest.raises(UnclearError, match="Something was decided of Slate"):
        plan.take_out(slate, **by)
    assert slate.combinations.count() == 1


def test_a_vessel_noted_anew_stays_visible_as_a_slip(
    candle: TestCandle, cup: Vessel, by: By
) -> None:
    first, second = (Piece.objects.create(vessel=cup, name=name) for name in ("Cup 1", "Cup 2"))
    fit_out(candle, piece=first, shelf="upper shelf", **by)
    assert not Correction.objects.exists()
    fit_out(candle, piece=second, shelf="lower shelf", **by)
    slip = Correction.objects.get()
    assert (slip.field, slip.was, slip.became) == ("piece", "Cup 1", "Cup 2")
    assert TestCandle.objects.get().shelf == "lower shelf"


def test_a_chipped_vessel_is_not_fitted(candle: TestCandle, cup: Vessel, by: By) -> None:
    chipped = Piece.objects.create(vessel=cup, name="Cup 7", flaw="structural", flaw_note="a chip")
    with pytest.raises(UnclearError, match="never lit"):
        fit_out(candle, piece=chipped, **by)


def test_a_seal_is_not_taken_off_in_passing(trial: Trial, by: By) -> None:
    plan.change_plan(trial, sealed=True, **by)
    with pytest.raises(UnclearError, match="Leave it sealed"):
        plan.change_plan(trial, sealed=False, **by)
    assert Trial.objects.get().is_sealed
