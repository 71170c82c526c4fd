"""What the records say a candle is made of."""

from typing import Any

import pytest

from throwbench.demo.plan import CANDLES, WAX_G, WAX_MM, combinations, theme
from throwbench.demo.truths import OILS
from throwbench.workshop.shelf.models import Fixing, Lot, Oil, Supplier, Vessel, Wax, Wick
from throwbench.workshop.trials.models import TestCandle, Trial
from throwbench.workshop.trials.selectors import candle_named, combinations_of, theme_of
from throwbench.workshop.trials.services import plan, pour

By = dict[str, Any]


@pytest.fixture
def long_light(wax: Wax, cup: Vessel, by: By) -> Trial:
    """The demo's candles, entered through the services and poured as weighed."""
    trial = plan.plan_trial(name="Long Light", choose=4, load_percent=8, wax=wax, **by)
    candidates = {}
    for name, oil in OILS.items():
        supplier = Supplier.objects.get_or_create(name=oil.supplier)[0]
        made = Oil.objects.create(name=name, supplier=supplier)
        candidates[name] = plan.add_candidate(
            trial, oil=made, role=oil.role, group=oil.group or "", **by
        )
    for one in CANDLES:
        facts = one.combination()
        wick = Wick.objects.get_or_create(series="flat cotton", size=str(one.wick))[0]
        combination = plan.combination_for(
            candidates[one.oil], wax=wax, load_percent=8, wick=wick, vessel=cup,
            fixing=Fixing.objects.get_or_create(name=f"a {one.fixing}", kind=one.fixing)[0],
            fill_mg=WAX_G * 1000, fill_mm=WAX_MM, **by,
        )  # fmt: skip
        lot = Lot.objects.get_or_create(code=facts.wick_lot, wick=wick)[0]
        candle = plan.make_candle(combination, code=one.code, wick_lot=lot, **by)
        pitcher = pour.begin_pour(candidates[one.oil], wax=wax, load_percent=8, **by)
        pour.weigh(pitcher, what="wax", mg=160_100, **by)
        oil_mg = round(1601 * one.load_percent / 100) * 100
        pour.weigh(pitcher, what="oil", mg=oil_mg, **by)
        pour.pour_candles(pitcher, candles=[candle], **by)
    return trial


def test_the_workshop_tells_what_the_files_tell(long_light: Trial) -> None:
    assert combinations_of(long_light) == combinations()


def test_the_theme_is_told_in_the_order_of_the_candidates(long_light: Trial) -> None:
    assert theme_of(long_light) == theme()


def test_a_candle_is_found_by_its_code_in_small_letters(candle: TestCandle) -> None:
    assert candle_named(" k7f ") == candle
    assert candle_named("K8F") is None


def test_what_is_not_known_is_empty(candle: TestCandle) -> None:
    (told,) = combinations_of(candle.combination.candidate.trial)
    assert (told.fixing, told.wick_lot, told.wax_mm, told.group) == (None, None, None, None)
    assert told.wax_g == 168
