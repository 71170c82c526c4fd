"""A page asks the database as often for many candles as for few."""

from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from throwbench.workshop.shelf.models import Oil, Wick
from throwbench.workshop.trials.models import Candidate, TestCandle, Trial
from throwbench.workshop.trials.services import plan
from throwbench.workshop.trials.services import pour as pouring
from workshop.trials.conftest import combined

By = dict[str, Any]


def grow(trial: Trial, wick: Wick, by: By, *names: str) -> None:
    """More oils, each with a poured candle and one that waits."""
    for name in names:
        candidate = plan.add_candidate(trial, oil=Oil.objects.create(name=name), **by)
        made = combined(candidate, wick, by)
        for code in (f"{name}1", f"{name}2"):
            plan.make_candle(made, code=code, **by)
        pitcher = pouring.begin_pour(candidate, wax=made.wax, load_percent=8, **by)
        pouring.weigh(pitcher, what="wax", mg=160_000, **by)
        pouring.weigh(pitcher, what="oil", mg=12_800, **by)
        pouring.read_temperature(pitcher, step="poured", celsius=58, **by)
        pouring.pour_candles(
            pitcher, candles=list(TestCandle.objects.filter(code=f"{name}1")), **by
        )


def asked(client: Client, path: str) -> int:
    with CaptureQueriesContext(
        connection,
    ) as queries:
        assert client.get(path).status_code == 200
    return len(queries)


@pytest.mark.parametrize("page", ["", "pour/", "cure/"])
def test_a_trial_of_many_asks_no_more_than_one_of_few(
    maker: Client, trial: Trial, wick: Wick, by: By, page: str
) -> None:
    path = f"/trials/{trial.pk}/{page}"
    grow(trial, wick, by, "A", "B")
    few = asked(maker, path)
    grow(trial, wick, by, "C", "D", "E", "F")
    assert asked(maker, path) == few


def test_the_bench_asks_no_more_with_many_pitchers(
    maker: Client, trial: Trial, wick: Wick, by: By
) -> None:
    grow(trial, wick, by, "A", "B")
    candidate = Candidate.objects.get(oil__name="A")
    made = candidate.combinations.get()
    pitcher = pouring.begin_pour(candidate, wax=made.wax, load_percent=8, **by)
    path = f"/trials/{trial.pk}/pour/{pitcher.pk}/"
    few = asked(maker, path)
    grow(trial, wick, by, "C", "D", "E", "F")
    assert asked(maker, path) == few


def test_many_trials_are_listed_in_one_go(maker: Client, trial: Trial, by: By) -> None:
    few = asked(maker, "/trials/")
    for name in ("second", "third", "fourth"):
        plan.plan_trial(name=name, **by)
    assert asked(maker, "/trials/") == few
