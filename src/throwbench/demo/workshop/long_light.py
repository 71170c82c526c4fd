"""The trial Long Light: planned, poured, burned and sniffed as the example says."""

from dataclasses import dataclass
from datetime import date

from throwbench.demo.plan import CANDLES, LOAD_PERCENT, WAX_G, WAX_MM, TestCandle
from throwbench.demo.truths import OILS
from throwbench.demo.workshop.materials import Shelf
from throwbench.demo.workshop.people import By, House
from throwbench.demo.workshop.times import at
from throwbench.workshop.trials.models import Candidate, Combination, Trial
from throwbench.workshop.trials.models import TestCandle as Candle
from throwbench.workshop.trials.services import plan

NAME = "Long Light"
PLANNED = date(2027, 4, 5)
SWAPPED = {"T4H": "M9C", "M9C": "T4H"}
"""On pour day each of these two wore the tag of the other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LongLight:
    trial: Trial
    candidates: dict[str, Candidate]
    candles: dict[str, Candle]


def long_light(house: House, shelf: Shelf) -> LongLight:
    """The plan, and the test candles with their codes."""
    by: By = {"who": house.owner, "now": at(PLANNED)}
    trial = plan.plan_trial(
        name=NAME,
        question="Which four of these nine oils join the Long Light line?",
        choose=4,
        load_percent=LOAD_PERCENT,
        fill_mg=WAX_G * 1000,
        wax=shelf.wax,
        vessel=shelf.cup,
        pour_on=date(2027, 4, 27),
        decide_on=date(2027, 5, 24),
        sealed=True,
        **by,
    )
    plan.set_band(trial, low=3.2, high=4.4, room_kind="living room", **by)
    plan.set_band(trial, low=2.6, high=3.8, room_kind="small room", **by)
    candidates = {
        name: plan.add_candidate(
            trial, oil=shelf.oils[name], role=oil.role, group=oil.group or "", **by
        )
        for name, oil in OILS.items()
    }
    candles = {
        candle.code: _candle(_worn_by(candle), candle.code, shelf, candidates, by)
        for candle in CANDLES
    }
    plan.fix_plan(trial, **by)
    return LongLight(trial=trial, candidates=candidates, candles=candles)


def _worn_by(candle: TestCandle) -> TestCandle:
    other = SWAPPED.get(candle.code)
    return next(c for c in CANDLES if c.code == other) if other else candle


def _candle(
    made_as: TestCandle, code: str, shelf: Shelf, candidates: dict[str, Candidate], by: By
) -> Candle:
    lot = made_as.combination().wick_lot
    combination = _combination(made_as, shelf, candidates, by)
    return plan.make_candle(
        combination,
        code=code,
        wick_lot=shelf.wick_lots.get(lot or ""),
        shelf="boat-shed, upper shelf",
        **by,
    )


def _combination(
    made_as: TestCandle, shelf: Shelf, candidates: dict[str, Candidate], by: By
) -> Combination:
    """As planned: what was dosed otherwise shows on pour day. Candles made alike share one."""
    candidate = candidates[made_as.oil]
    wick, fixing = shelf.wicks[made_as.wick], shelf.fixings[made_as.fixing]
    there = candidate.combinations.filter(wick=wick, fixing=fixing).first()
    return there or plan.add_combination(
        candidate,
        wax=shelf.wax,
        load_percent=LOAD_PERCENT,
        wick=wick,
        vessel=shelf.cup,
        fixing=fixing,
        fill_mg=WAX_G * 1000,
        fill_mm=WAX_MM,
        **by,
    )
