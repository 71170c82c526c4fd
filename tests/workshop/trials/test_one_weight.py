"""What is to be weighed is one figure: on the plan, on pour day, on paper and at the bench."""

from typing import Any

import pytest
from django.test import Client

from throwbench.workshop.house.models import Workshop
from throwbench.workshop.shelf.models import Wax
from throwbench.workshop.trials.models import Pour, TestCandle, Trial, Weighing
from throwbench.workshop.trials.scale import last_steps
from throwbench.workshop.trials.selectors.bench import Bench, bench_of
from throwbench.workshop.trials.selectors.plan_page import plan_page
from throwbench.workshop.trials.selectors.pour_page import waiting
from throwbench.workshop.trials.selectors.sums import pitcher_of
from throwbench.workshop.trials.services import pour as pouring
from throwbench.workshop.trials.sheets import pour_sheet_of

By = dict[str, Any]


@pytest.fixture
def of_160(candle: TestCandle) -> Trial:
    """160 g at 8 % of wax: 148.148 g of wax; 11.852 g is the rest, 8 % of 148.1 g is 11.848 g."""
    trial = candle.combination.candidate.trial
    trial.fill_mg = 160_000
    trial.save()
    return trial


def begun(trial: Trial, wax: Wax, by: By, **other: Any) -> Pour:
    return pouring.begin_pour(trial.candidates.get(), wax=wax, load_percent=8, **{**by, **other})


def at_the_bench(pour: Pour, what: str) -> Bench:
    told = bench_of(pour)
    assert told.weigh == what
    return told


@pytest.mark.parametrize(
    ("step_mg", "weights"),
    [(100, (148.1, 11.8)), (1000, (148, 12)), (10, (148.15, 11.85)), (1, (148.148, 11.852))],
)
def test_plan_pour_day_paper_and_bench_say_one_weight(
    of_160: Trial, wax: Wax, by: By, step_mg: int, weights: tuple[float, float]
) -> None:
    wax_g, oil_g = weights
    earlier = begun(of_160, wax, by)
    pouring.weigh(earlier, what="wax", mg=100_000, scale_step_mg=step_mg, **by)
    pouring.weigh(earlier, what="oil", mg=8_000, scale_step_mg=step_mg, **by)
    Pour.objects.filter(pk=earlier.pk).update(poured_at=by["now"], poured_by=by["who"])
    day, here = by["now"].date(), Workshop.objects.get()
    (group,) = plan_page(of_160, day).groups
    mix = group.rows[0].pitcher
    assert mix is not None
    (listed,) = waiting(of_160)
    (paper,) = pour_sheet_of(of_160, here=here, day=day).pitchers
    assert (mix.wax_g, listed.wax_g, paper.wax_g) == (wax_g, wax_g, wax_g)
    assert (mix.oil_g, listed.oil_g, paper.oil_g) == (oil_g, oil_g, oil_g)
    pour = begun(of_160, wax, by, wax_mg=round(wax_g * 1000))
    assert at_the_bench(pour, "wax").figure == f"{wax_g:.10g}"
    pouring.weigh(pour, what="wax", mg=round(wax_g * 1000), scale_step_mg=step_mg, **by)
    assert at_the_bench(pour, "oil").figure == f"{oil_g:.10g}"


def test_wax_on_a_coarse_scale_leaves_the_oil_to_a_fine_one(
    maker: Client, of_160: Trial, wax: Wax, by: By
) -> None:
    pour = begun(of_160, wax, by, wax_mg=148_148)
    pouring.weigh(pour, what="wax", mg=148_000, scale_step_mg=1000, **by)
    told = at_the_bench(pour, "oil")
    assert (told.figure, told.weigh_initial["step_g"]) == ("11.8", 0.1)
    assert pitcher_shown(of_160) == (148, 11.8)


def pitcher_shown(trial: Trial) -> tuple[float, float]:
    mix = pitcher_of(trial, vessels=1, load_percent=8, steps=last_steps())
    assert mix is not None
    return mix.wax_g, mix.oil_g


def test_the_button_notes_what_it_shows_on_a_scale_of_whole_grams(
    maker: Client, of_160: Trial, wax: Wax, by: By
) -> None:
    first = begun(of_160, wax, by)
    pouring.weigh(first, what="oil", mg=12_000, scale_step_mg=1000, **by)
    pour = begun(of_160, wax, by, wax_mg=148_148)
    pouring.weigh(pour, what="wax", mg=147_000, scale_step_mg=1000, **by)
    told = at_the_bench(pour, "oil")
    assert told.figure == "12"  # 8 % of 147 g is 11.76 g
    assert told.weigh_initial == {"grams": 12, "step_g": 1}
    sent = {"grams": told.figure, "step_g": "1"}
    maker.post(f"/trials/{of_160.pk}/pour/{pour.pk}/weigh/oil/", sent)
    assert Weighing.objects.get(pour=pour, what="oil").mg == 12_000


def test_oil_too_little_for_the_scale_keeps_its_own_figure(of_160: Trial, wax: Wax, by: By) -> None:
    first = begun(of_160, wax, by)
    pouring.weigh(first, what="oil", mg=12_000, scale_step_mg=1000, **by)
    pour = begun(of_160, wax, by, wax_mg=5_000)
    pouring.weigh(pour, what="wax", mg=5_000, scale_step_mg=1000, **by)
    assert at_the_bench(pour, "oil").figure == "0.4"


def test_a_thousand_grams_are_written_as_they_are_typed(
    maker: Client, of_160: Trial, wax: Wax, by: By
) -> None:
    pour = begun(of_160, wax, by, wax_mg=1_234_500)
    assert at_the_bench(pour, "wax").figure == "1234.5"
    pouring.weigh(pour, what="wax", mg=1_234_500, **by)
    page = maker.get(f"/trials/{of_160.pk}/pour/{pour.pk}/").content.decode()
    assert "1234.5\N{NO-BREAK SPACE}g" in page
    assert "1,234" not in page
