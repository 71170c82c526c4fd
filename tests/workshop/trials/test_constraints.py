"""Each constraint of plan, pour and swap: what it lets in, and its sentence."""

from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction
from django.db.models import Model

from throwbench.workshop.shelf.models import Oil, Wick
from throwbench.workshop.trials.models import (
    Band,
    Candidate,
    Combination,
    Pour,
    Swap,
    TestCandle,
    Trial,
    Weighing,
)
from throwbench.workshop.trials.services import pour as pouring
from workshop.trials.conftest import combined

By = dict[str, Any]


def refuses(row: Model, sentence: str) -> None:
    """The form hears the sentence, and the database itself refuses the row."""
    with pytest.raises(ValidationError, match=sentence):
        row.full_clean()
    with pytest.raises(IntegrityError), transaction.atomic():
        row.save()


def accepts(row: Model) -> None:
    row.full_clean()
    row.save()


def a_trial(by: By, **facts: Any) -> Trial:
    return Trial(name="Another", made_at=by["now"], made_by=by["who"], **facts)


def test_one_oil_may_be_chosen(by: By) -> None:
    accepts(a_trial(by, choose=1))


def test_none_to_be_chosen_is_refused(by: By) -> None:
    refuses(a_trial(by, choose=0), "At least 1 oil is chosen")


def test_a_scale_may_begin_at_0(by: By) -> None:
    accepts(a_trial(by, scale_low=0, scale_high=10))


@pytest.mark.parametrize("high", [1, 0])
def test_a_scale_without_a_step_up_is_refused(by: By, high: int) -> None:
    refuses(a_trial(by, scale_low=1, scale_high=high), "from a lower to a higher step")


def test_each_kind_of_room_may_have_a_band(trial: Trial) -> None:
    for kind in ("", "small room", "living room"):
        accepts(Band(trial=trial, room_kind=kind, low=3, high=4))


def test_a_second_band_of_a_kind_is_refused(trial: Trial) -> None:
    accepts(Band(trial=trial, room_kind="small room", low=3, high=4))
    refuses(Band(trial=trial, room_kind="small room", low=2, high=3), "has its band")


def test_a_band_that_does_not_go_up_is_refused(trial: Trial) -> None:
    refuses(Band(trial=trial, low=4, high=4), "from a lower to a higher score")


def test_an_oil_may_be_in_two_trials(slate: Candidate, by: By) -> None:
    other = a_trial(by)
    accepts(other)
    accepts(Candidate(trial=other, oil=slate.oil))


def test_an_oil_twice_in_a_trial_is_refused(slate: Candidate) -> None:
    refuses(Candidate(trial=slate.trial, oil=slate.oil), "in the trial already")


def like(made: Combination, **other: Any) -> Combination:
    same = {name: getattr(made, name) for name in ("candidate", "wax", "wick", "vessel", "fixing")}
    return Combination(**{**same, "load_percent": made.load_percent, **other})


def test_another_load_is_another_combination(slate: Candidate, wick: Wick, by: By) -> None:
    accepts(like(combined(slate, wick, by), load_percent=8.7))


def test_the_same_combination_twice_is_refused(slate: Candidate, wick: Wick, by: By) -> None:
    refuses(like(combined(slate, wick, by)), "planned already")


@pytest.mark.parametrize("load", [0, 40])
def test_a_load_may_be_from_none_to_40(slate: Candidate, wick: Wick, by: By, load: float) -> None:
    accepts(like(combined(slate, wick, by), load_percent=load))


@pytest.mark.parametrize("load", [-0.1, 40.1])
def test_a_load_no_wax_takes_is_refused(slate: Candidate, wick: Wick, by: By, load: float) -> None:
    refuses(like(combined(slate, wick, by), load_percent=load), "from 0 to 40 % of wax")


def test_two_candles_may_be_swapped(candle: TestCandle, other_candle: TestCandle, by: By) -> None:
    row = Swap(first=candle, second=other_candle, why="a slip", who=by["who"], at=by["now"])
    accepts(row)


def test_a_candle_swapped_with_itself_is_refused(candle: TestCandle, by: By) -> None:
    row = Swap(first=candle, second=candle, why="a slip", who=by["who"], at=by["now"])
    refuses(row, "Name another one")


def a_weighing(slate: Candidate, by: By, mg: int) -> Weighing:
    trial = slate.trial
    assert trial.wax is not None
    pitcher: Pour = pouring.begin_pour(slate, wax=trial.wax, load_percent=8, **by)
    return Weighing(pour=pitcher, what="wax", mg=mg, who=by["who"], at=by["now"])


@pytest.mark.parametrize("mg", [1, 50_000_000])
def test_a_weighing_may_be_up_to_50_kg(slate: Candidate, by: By, mg: int) -> None:
    accepts(a_weighing(slate, by, mg))


@pytest.mark.parametrize("mg", [0, -1, 50_000_001])
def test_a_weighing_of_nothing_or_too_much_is_refused(slate: Candidate, by: By, mg: int) -> None:
    refuses(a_weighing(slate, by, mg), "Weigh again")


@pytest.mark.parametrize("what", ["weighing", "temperature", "swap", "seal"])
def test_what_happened_is_neither_changed_nor_taken_out(
    slate: Candidate, candle: TestCandle, other_candle: TestCandle, by: By, what: str
) -> None:
    weighing = a_weighing(slate, by, 1000)
    weighing.save()
    rows: dict[str, Model] = {
        "weighing": weighing,
        "temperature": pouring.read_temperature(weighing.pour, step="poured", celsius=58, **by),
        "swap": Swap.objects.create(
            first=candle, second=other_candle, why="a slip", who=by["who"], at=by["now"]
        ),
        "seal": slate.trial.seal_breaks.create(who=by["who"], at=by["now"], why="a crack"),
    }
    for change in (rows[what].save, rows[what].delete):
        with pytest.raises(IntegrityError, match="is never"), transaction.atomic():
            change()


def test_an_oil_may_stand_beside_another(slate: Candidate, oils: list[Oil]) -> None:
    accepts(Candidate(trial=slate.trial, oil=oils[1]))
