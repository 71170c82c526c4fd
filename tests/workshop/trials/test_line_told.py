"""An oil whose line said load and wick brings them to its trial; a size alone names a wick."""

from typing import Any

import pytest
from django.test import Client

from throwbench.science.errors import UnclearError
from throwbench.workshop.shelf.models import Wick
from throwbench.workshop.trials.in_passing import wick_named
from throwbench.workshop.trials.models import Combination, Trial
from throwbench.workshop.trials.selectors.line_told import line_told

By = dict[str, Any]
LINE = "Ferry Rope, Fjellrype Duft, 8.5 %, wick 4"


def added(maker: Client, trial: Trial, line: str) -> None:
    told = {"oil": line, "role": "candidate", "group": ""}
    assert maker.post(f"/trials/{trial.pk}/oils/", told).status_code == 302


def test_load_and_wick_of_the_line_stand_ready(maker: Client, trial: Trial, wick: Wick) -> None:
    added(maker, trial, LINE)
    told = line_told(trial)
    assert told is not None
    assert told.said == "The line of Ferry Rope said 8.5 % of wax and wick 4."
    assert told.initial["load_percent"] == 8.5
    assert told.initial["wick"] == "flat cotton 4"
    page = maker.get(f"/trials/{trial.pk}/").content.decode()
    assert told.said in page
    assert 'value="8.5"' in page
    assert 'value="flat cotton 4"' in page


def test_a_size_of_two_series_is_asked_about(maker: Client, trial: Trial, wick: Wick) -> None:
    Wick.objects.create(series="wood", size="4")
    added(maker, trial, LINE)
    told = line_told(trial)
    assert told is not None
    assert told.said.endswith("wick 4. Is it flat cotton 4 or wood 4?")
    assert "wick" not in told.initial


def test_a_wick_that_is_not_there_is_said(maker: Client, trial: Trial) -> None:
    added(maker, trial, LINE)
    told = line_told(trial)
    assert told is not None
    assert "No wick 4 stands on the shelf yet: write its series and its size." in told.said


def test_a_line_without_load_and_wick_says_nothing(maker: Client, trial: Trial) -> None:
    added(maker, trial, "Ferry Rope, Fjellrype Duft")
    assert line_told(trial) is None


@pytest.mark.parametrize("typed", ["4", " wick 4 "])
def test_a_size_alone_names_the_only_wick_of_it(
    maker: Client, trial: Trial, wick: Wick, typed: str
) -> None:
    added(maker, trial, LINE)
    told = {"wick": typed, "fixing": "", "wax": "R-36", "vessel": "stoneware cup"}
    maker.post(f"/trials/{trial.pk}/wicks/", {**told, "load_percent": "8.5"})
    assert Combination.objects.get().wick == wick
    assert line_told(trial) is None


def test_lines_that_differ_are_said_and_fill_nothing(
    maker: Client, trial: Trial, wick: Wick
) -> None:
    added(maker, trial, LINE)
    added(maker, trial, "Slate Rain, Tarnholt, 6 %, wick 4")
    told = line_told(trial)
    assert told is not None
    assert "Ferry Rope said 8.5 % of wax" in told.said
    assert "Slate Rain said 6 % of wax" in told.said
    assert told.initial == {}


def test_a_size_of_two_series_needs_its_series(wick: Wick, by: By) -> None:
    Wick.objects.create(series="wood", size="4")
    with pytest.raises(UnclearError) as refused:
        wick_named("4", by)
    assert str(refused.value) == (
        "2 wicks have the size 4: flat cotton 4 or wood 4. A wick is its series and its size. "
        "Write both, as in “flat cotton 4”."
    )
