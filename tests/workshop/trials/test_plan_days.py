"""Days of a plan: in their order, and each said in its tense."""

from datetime import date
from typing import Any

import pytest
from django.test import Client

from throwbench.science.errors import UnclearError
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.models import TestCandle, Trial
from throwbench.workshop.trials.selectors.plan_page import plan_page
from throwbench.workshop.trials.services import plan
from workshop.trials.conftest import poured

By = dict[str, Any]
TODAY = date(2027, 5, 24)


def test_a_decision_before_the_pour_is_refused(by: By) -> None:
    days = {"pour_on": date(2027, 6, 10), "decide_on": date(2027, 6, 1)}
    with pytest.raises(UnclearError) as refused:
        plan.plan_trial(name="Spring", **days, **by)
    assert str(refused.value) == (
        "The decision is on Tuesday 1 June 2027, the pour on Thursday 10 June 2027. A decision is "
        "on the day of the pour or later. Check both days."
    )


def test_a_change_of_days_keeps_their_order(trial: Trial, by: By) -> None:
    plan.change_plan(trial, pour_on=TODAY, decide_on=TODAY, **by)
    with pytest.raises(UnclearError, match="Check both days"):
        plan.change_plan(trial, decide_on=date(2027, 5, 23), **by)


def test_the_form_keeps_the_days_that_were_refused(maker: Client, wax: Wax) -> None:
    told = {"question": "Which?", "name": "Spring", "choose": 1, "scale": "1-5", "sealed": "no"}
    days = {"pour_on": "2027-06-10", "decide_on": "2027-06-01"}
    page = maker.post("/trials/new/", {**told, **days}).content.decode()
    assert "A decision is on the day of the pour or later." in page
    assert 'value="2027-06-10"' in page


@pytest.mark.parametrize(
    ("pour_on", "said"),
    [
        (date(2027, 6, 1), "Will be poured on Tuesday 1 June 2027, cures ten days."),
        (TODAY, "Will be poured today, cures ten days."),
        (date(2027, 5, 20), "The pour was planned for Thursday 20 May 2027."),
    ],
)
def test_what_is_not_poured_is_said_as_planned(trial: Trial, pour_on: date, said: str) -> None:
    trial.pour_on = pour_on
    assert plan_page(trial, TODAY).lead == (said,)


def test_two_days_of_pouring_are_both_said(candle: TestCandle, other_candle: TestCandle) -> None:
    poured(candle, date(2027, 4, 27))
    poured(other_candle, date(2027, 5, 21))
    (said,) = plan_page(candle.combination.candidate.trial, TODAY).lead[1:]
    assert said == (
        "Poured from Tuesday 27 April 2027 to Friday 21 May 2027, each candle cures ten days."
    )


@pytest.mark.parametrize(
    ("day", "said"),
    [
        (date(2027, 5, 20), "Poured on Thursday 20 May 2027, cures ten days."),
        (TODAY, "Poured today, cures ten days."),
    ],
)
def test_what_is_poured_is_said_with_its_day(candle: TestCandle, day: date, said: str) -> None:
    poured(candle, day)
    assert plan_page(candle.combination.candidate.trial, TODAY).lead == (said,)
