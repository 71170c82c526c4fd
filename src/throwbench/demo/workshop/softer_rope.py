"""A second trial: a blend of Ferry Rope and Linen Loft, sealed, with a panel open on the day."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from random import Random

import numpy as np

from throwbench.demo.plan import DEMO_DAY, LOAD_PERCENT, WAX_G, WAX_MM
from throwbench.demo.truths import OILS
from throwbench.demo.workshop.materials import Shelf
from throwbench.demo.workshop.people import By, House
from throwbench.demo.workshop.times import at
from throwbench.workshop.panel import services as panel
from throwbench.workshop.panel.models import Panel, Seat
from throwbench.workshop.shelf import services as shelf_services
from throwbench.workshop.shelf.models import Oil
from throwbench.workshop.trials.models import TestCandle as Candle
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.services import burn, plan, pour

NAME = "Softer Rope"
PARTS = {"Ferry Rope": 80, "Linen Loft": 20}
BLOTTERS, POURED = date(2027, 5, 3), date(2027, 5, 10)
CODES = {NAME: "B5L", "Ferry Rope": "F7R"}
LIKED = {NAME: 3.3, "Ferry Rope": 2.9}
"""The blend is softer, and still splits the noses."""
LOVED_BY = OILS["Ferry Rope"].loved_by
LIT = (9, 45)
SENT = ("Maren", "Odd")
"""Two noses have answered by the time the demo opens."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rope:
    trial: Trial
    oils: dict[str, Oil]
    candles: dict[str, Candle]


def softer_rope(house: House, shelf: Shelf) -> Rope:
    """Blotters first, then one candle each; cured for its sitting on the demo's day."""
    by: By = {"who": house.owner, "now": at(BLOTTERS, 9)}
    blend = shelf_services.add_blend(
        name=NAME, parts={shelf.oils[name]: parts for name, parts in PARTS.items()}, **by
    )
    oils = {NAME: blend, "Ferry Rope": shelf.oils["Ferry Rope"]}
    trial = plan.plan_trial(
        name=NAME,
        question="Is the blend liked better than Ferry Rope alone?",
        choose=1,
        load_percent=LOAD_PERCENT,
        fill_mg=WAX_G * 1000,
        wax=shelf.wax,
        vessel=shelf.cup,
        pour_on=POURED,
        decide_on=date(2027, 5, 31),
        sealed=True,
        **by,
    )
    plan.set_band(trial, low=3.2, high=4.4, room_kind="living room", **by)
    candles = {name: _candle(trial, oil, shelf, by) for name, oil in oils.items()}
    rope = Rope(trial=trial, oils=oils, candles=candles)
    _blotters(house, rope)
    for name, candle in candles.items():
        _pour(house, shelf, candle, begins=at(POURED, 10 + list(candles).index(name)))
    return rope


def _candle(trial: Trial, oil: Oil, shelf: Shelf, by: By) -> Candle:
    combination = plan.add_combination(
        plan.add_candidate(trial, oil=oil, **by),
        wax=shelf.wax,
        load_percent=LOAD_PERCENT,
        wick=shelf.wicks[4],
        vessel=shelf.cup,
        fixing=shelf.fixings["glue"],
        fill_mg=WAX_G * 1000,
        fill_mm=WAX_MM,
        **by,
    )
    return plan.make_candle(
        combination, code=CODES[oil.name], wick_lot=shelf.wick_lots["FC4-2702"],
        shelf="boat-shed, lower shelf", **by,
    )  # fmt: skip


def _pour(house: House, shelf: Shelf, candle: Candle, *, begins: datetime) -> None:
    who = house.owner
    wax_mg = 161_100
    made = pour.begin_pour(
        candle.combination.candidate, wax=shelf.wax, wax_lot=shelf.wax_lots["R36-2704"],
        load_percent=LOAD_PERCENT, wax_mg=wax_mg, now=begins, who=who,
    )  # fmt: skip
    pour.weigh(made, what="wax", mg=wax_mg, scale_step_mg=100, now=begins, who=who)
    pour.read_temperature(
        made, step="added oil", celsius=72, instrument="probe thermometer",
        now=begins + timedelta(minutes=10), who=who,
    )  # fmt: skip
    pour.weigh(
        made, what="oil", mg=12_900, scale_step_mg=100, now=begins + timedelta(minutes=11), who=who
    )
    pour.pour_candles(
        made, candles=[candle], stirred_s=184, now=begins + timedelta(minutes=27), who=who
    )


def _blotters(house: House, rope: Rope) -> None:
    """Bottle and blotter: nothing is burned."""
    rng = np.random.default_rng(80)
    row = panel.open_panel(
        rope.trial, day=BLOTTERS, asks="blotter",
        seats=[(oil, house.rooms["kitchen"]) for oil in rope.oils.values()],
        assessors=list(house.noses.values()), who=house.owner, now=at(BLOTTERS, 18),
        chance=Random(80),
    )  # fmt: skip
    for place, name in enumerate(house.noses):
        _answers(house, row, rng, name, begins=at(BLOTTERS, 18, 5 + 6 * place), throw="cold_throw")
    panel.close_panel(row, who=house.owner, now=at(BLOTTERS, 19, 30))


def open_on_the_day(house: House, rope: Rope) -> Panel:
    """Both candles are lit in the morning; two of six noses have answered."""
    for candle, room in zip(rope.candles.values(), ("kitchen", "back room"), strict=True):
        lit_at = at(DEMO_DAY, *LIT)
        burn.light(
            candle, kind="nose", room=house.rooms[room], lit_at=lit_at, room_c=21, trim_mm=5,
            who=house.owner, now=lit_at,
        )  # fmt: skip
    row = panel.open_panel(
        rope.trial,
        day=DEMO_DAY,
        asks="lit",
        seats=[
            (candle, house.rooms[room])
            for candle, room in zip(rope.candles.values(), ("kitchen", "back room"), strict=True)
        ],
        assessors=list(house.noses.values()),
        who=house.owner,
        now=at(DEMO_DAY, 9, 50),
        tags=["417", "682"],
    )
    rng = np.random.default_rng(417)
    for place, name in enumerate(SENT):
        _answers(house, row, rng, name, begins=at(DEMO_DAY, 10, 45 + 3 * place), throw="hot_throw")
    panel.sit_out(
        row.sittings.get(assessor=house.noses["Åse"]), who=house.owner, now=at(DEMO_DAY, 9, 55)
    )
    return row


def _answers(
    house: House,
    row: Panel,
    rng: np.random.Generator,
    name: str,
    *,
    begins: datetime,
    throw: str,
) -> None:
    sitting = row.sittings.get(assessor=house.noses[name])
    for place, seat in enumerate(row.seats.all()):
        liked = LIKED[_oil_at(seat).name] + LOVED_BY.get(name, 0.0)
        sent = begins + timedelta(minutes=8 * place)
        panel.answer(
            sitting,
            seat,
            scores={"liking": _step(rng, liked), throw: _step(rng, 3.6)},
            at=sent,
            way="hand-round",
            minutes_lit=(sent - at(DEMO_DAY, *LIT)).total_seconds() // 60
            if throw == "hot_throw"
            else None,
            now=sent,
        )


def _oil_at(seat: Seat) -> Oil:
    """The oil of a blotter, or of the candle that stands there."""
    if seat.candle is not None:
        return seat.candle.combination.candidate.oil
    assert seat.oil is not None  # a seat holds a candle or a blotter
    return seat.oil


def _step(rng: np.random.Generator, level: float) -> int:
    return int(np.clip(round(level + float(rng.normal(0, 0.6))), 1, 5))
