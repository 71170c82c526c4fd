"""Temperatures that were slips, and those that a wax card known later finds too hot."""

from typing import Any

import pytest
from django.test import Client

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.models import Correction
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.models import Pour, TestCandle
from throwbench.workshop.trials.selectors.bench import bench_of
from throwbench.workshop.trials.services import pour as pouring
from throwbench.workshop.trials.services.readings import put_reading_right

By = dict[str, Any]


@pytest.fixture
def pitcher(candle: TestCandle, by: By) -> Pour:
    bare = Wax.objects.create(name="unknown wax")
    oil = candle.combination.candidate
    return pouring.begin_pour(oil, wax=bare, load_percent=8, wax_mg=155_600, **by)


def read(pitcher: Pour, celsius: float, by: By) -> Any:
    return pouring.read_temperature(pitcher, step="melted", celsius=celsius, sure=True, **by)


def test_a_card_known_later_finds_the_last_reading_too_hot(pitcher: Pour, by: By) -> None:
    read(pitcher, 100, by)
    assert bench_of(pitcher).too_hot == ""
    pitcher.wax.never_above_c = 85
    pitcher.wax.save()
    pitcher.refresh_from_db()
    said = bench_of(pitcher).too_hot
    assert said == "Last reading 100 °C is above this wax’s limit of 85 °C."


def test_an_earlier_reading_that_was_too_hot_stays_said(pitcher: Pour, by: By) -> None:
    read(pitcher, 185, by)
    read(pitcher, 80, by)
    said = bench_of(pitcher).too_hot
    assert said == "The reading at 11:05: 185 °C is far hotter than wax is melted."


def test_a_reading_is_put_right_and_the_first_stays(pitcher: Pour, by: By) -> None:
    wrong = read(pitcher, 185, by)
    put_reading_right(wrong, celsius=85, why="it was in °F", **by)
    assert [each.celsius for each in pitcher.temperatures.all()] == [185, 85]
    kept = Correction.objects.get()
    assert (kept.field, kept.was, kept.became) == ("celsius", "185", "85")
    assert bench_of(pitcher).too_hot == ""
    assert bench_of(pitcher).last.startswith("Last 85 °C")


def test_a_reading_is_put_right_with_a_reason(pitcher: Pour, by: By) -> None:
    wrong = read(pitcher, 185, by)
    with pytest.raises(UnclearError, match="There is no reason"):
        put_reading_right(wrong, celsius=85, why=" ", **by)
    assert pitcher.temperatures.count() == 1


def test_the_bench_leads_to_the_slip_and_shows_it(
    maker: Client, pitcher: Pour, candle: TestCandle, by: By
) -> None:
    wrong = read(pitcher, 185, by)
    bench = f"/trials/{pitcher.candidate.trial_id}/pour/{pitcher.pk}/"
    slip = f"{bench}read/{wrong.pk}/slip/"
    before = maker.get(bench).content.decode()
    assert slip in before
    assert "Last reading 185 °C is far hotter than wax is melted." in before
    assert maker.get(slip).status_code == 200
    maker.post(slip, {"celsius": "185F", "why": "it was in °F"})
    assert round(pitcher.temperatures.last().celsius) == 85
    after = maker.get(bench).content.decode().replace("\N{NO-BREAK SPACE}", " ")
    assert "<s>185 °C</s>" in after
    assert "far hotter" not in after
    assert maker.get(slip).status_code == 404
    pouring.pour_candles(pitcher, candles=[candle], **by)
    assert (
        "A reading first typed as 185 °C was 85 °C" in maker.get("/candles/K7F/").content.decode()
    )
