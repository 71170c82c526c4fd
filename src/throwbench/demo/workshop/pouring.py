"""Pour days of Long Light: each pitcher with its weighings, temperatures and candles."""

from collections import defaultdict
from datetime import date, datetime, timedelta

import numpy as np

from throwbench.demo.plan import CANDLES, LAST_YEAR, LOAD_PERCENT, WAX_G, TestCandle
from throwbench.demo.workshop.long_light import SWAPPED, LongLight
from throwbench.demo.workshop.materials import Shelf
from throwbench.demo.workshop.people import House
from throwbench.demo.workshop.times import at
from throwbench.workshop.house.models import Person
from throwbench.workshop.trials.models import Pour
from throwbench.workshop.trials.services import plan, pour

RESIDUE_G = 6
SCALE_STEP_MG = 100
OVER_POURED = "W8R"
OVER_G = 12.6
OF_TOTAL = "P2N"
PROBE = "probe thermometer"
PITCHER_MIN = 35
"""From one pitcher to the next."""
PUT_RIGHT = date(2027, 4, 30)


def pour_days(house: House, shelf: Shelf, trial: LongLight) -> None:
    """All pitchers in the order of the days; two tags are swapped and put right on day 3."""
    rng = np.random.default_rng(36)
    pitchers: dict[date, list[list[TestCandle]]] = defaultdict(list)
    for group in _by_pitcher():
        pitchers[group[0].poured].append(group)
    for day in sorted(pitchers):
        for place, group in enumerate(pitchers[day]):
            begins = at(day, 10) + timedelta(minutes=PITCHER_MIN * place)
            _pitcher(rng, house, shelf, trial, group=group, begins=begins)
    first, second = (trial.candles[code] for code in SWAPPED)
    for candle in (first, second):
        candle.refresh_from_db()
    plan.swap_tags(
        first,
        second,
        why="the tags were swapped on pour day: the blotters under the cups told",
        who=house.owner,
        now=at(PUT_RIGHT, 9),
    )


def _by_pitcher() -> list[list[TestCandle]]:
    """One pitcher per oil, load and day."""
    found: dict[tuple[str, date, float], list[TestCandle]] = defaultdict(list)
    for candle in CANDLES:
        found[candle.oil, candle.poured, candle.load_percent].append(candle)
    return list(found.values())


def _pitcher(
    rng: np.random.Generator,
    house: House,
    shelf: Shelf,
    trial: LongLight,
    *,
    group: list[TestCandle],
    begins: datetime,
) -> None:
    code = group[0].code
    who = house.owner
    of_total = code == OF_TOTAL
    wax_mg = _wax_mg(len(group), of_total=of_total)
    late = begins.date() >= date(2027, 5, 1)
    made = pour.begin_pour(
        trial.candidates[group[0].oil],
        wax=shelf.wax,
        wax_lot=shelf.wax_lots["R36-2704" if late else "R36-2702"]
        if begins.date() > LAST_YEAR
        else None,
        oil_lot=shelf.oil_lots[group[0].oil] if begins.date() > LAST_YEAR else None,
        load_percent=LOAD_PERCENT,
        basis="total" if of_total else "wax",
        wax_mg=wax_mg,
        who=who,
        now=begins,
    )
    if code == OVER_POURED:
        _weigh(made, "wax", wax_mg + round(OVER_G * 1000), who, begins + timedelta(minutes=2))
    _weigh(made, "wax", wax_mg, who, begins + timedelta(minutes=4))
    _read(made, "added oil", 71 + 2 * float(rng.random()), who, begins + timedelta(minutes=12))
    share = LOAD_PERCENT / (100 - LOAD_PERCENT) if of_total else LOAD_PERCENT / 100
    _weigh(made, "oil", 100 * round(wax_mg * share / 100), who, begins + timedelta(minutes=13))
    _read(made, "poured", 57 + 2 * float(rng.random()), who, begins + timedelta(minutes=28))
    pour.pour_candles(
        made,
        candles=[trial.candles[SWAPPED.get(one.code, one.code)] for one in group],
        stirred_s=180 + int(rng.integers(0, 12)),
        who=who,
        now=begins + timedelta(minutes=30),
    )


def _wax_mg(candles: int, *, of_total: bool) -> int:
    """Wax for the fills and what stays in the pitcher, to the step of the scale."""
    mix_g = candles * WAX_G + RESIDUE_G
    share = 1 - LOAD_PERCENT / 100 if of_total else 1 / (1 + LOAD_PERCENT / 100)
    return SCALE_STEP_MG * round(mix_g * share * 1000 / SCALE_STEP_MG)


def _weigh(made: Pour, what: str, mg: int, who: Person, now: datetime) -> None:
    pour.weigh(made, what=what, mg=mg, scale_step_mg=SCALE_STEP_MG, who=who, now=now)


def _read(made: Pour, step: str, celsius: float, who: Person, now: datetime) -> None:
    pour.read_temperature(
        made, step=step, celsius=round(celsius, 1), instrument=PROBE, who=who, now=now
    )
