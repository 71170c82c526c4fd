"""A sealed trial of three poured candles, three rooms, and noses to sniff them."""

import random
import re
from collections.abc import Callable
from datetime import date, datetime
from typing import Any

import pytest
from django.test import Client

from throwbench.records.attribute import KINDS
from throwbench.workshop.house.models import Person, Room
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Panel
from throwbench.workshop.shelf.models import Fixing, Oil, Supplier, Vessel, Wax, Wick
from throwbench.workshop.trials.models import TestCandle, Trial
from throwbench.workshop.trials.services import plan

DAY, POURED = date(2027, 5, 24), date(2027, 5, 10)
CODES = ("K7F", "M9C", "T4H")
TAGS = ("417", "682", "953")
OILS = (
    ("Slate After Rain", "Tarnholt Riechstoffe"),
    ("Rhubarb Cold Frame", "Tarnholt Riechstoffe"),
    ("Rebarbara K", "Kisbalog Illat"),
)
WHOLE: dict[str, dict[str, int | None]] = {
    **{name: dict.fromkeys(kind.names, 3) for name, kind in KINDS.items()},
    "lit": {"liking": 4, "hot_throw": 3},
    "unlit": {"cold_throw": 2},
    "likeness": {"likeness": 5},
    "blotter": {"liking": 2, "cold_throw": None},
}


def made(owner: Person, now: datetime, *, order: tuple[int, ...] = (0, 1, 2), sealed: bool = True):
    """Trial, oils and candles; `order` says which oil each candle is made of."""
    by: dict[str, Any] = {"who": owner, "now": now}
    oils = [
        Oil.objects.create(name=name, supplier=Supplier.objects.get_or_create(name=who)[0])
        for name, who in OILS
    ]
    wax = Wax.objects.create(name="R-36", cure_days=10, max_load_percent=9)
    wick, cup = (
        Wick.objects.create(series="flat cotton", size="4"),
        Vessel.objects.create(name="stoneware cup", inside_mm=68),
    )
    glue = Fixing.objects.create(name="high-melt glue", kind="glue")
    trial = plan.plan_trial(name="Long Light", wax=wax, vessel=cup, sealed=sealed, **by)
    candidates = [plan.add_candidate(trial, oil=oil, **by) for oil in oils]
    candles = []
    for code, which in zip(CODES, order, strict=True):
        combination = plan.add_combination(
            candidates[which], wax=wax, load_percent=8, wick=wick, vessel=cup, fixing=glue, **by
        )
        candle = plan.make_candle(combination, code=code, **by)
        candle.poured_on = POURED
        candle.save()
        candles.append(candle)
    return trial, oils, candles


@pytest.fixture
def by(owner: Person, now: datetime) -> dict[str, Any]:
    return {"who": owner, "now": now}


@pytest.fixture
def _world(owner: Person, now: datetime):
    return made(owner, now)


@pytest.fixture
def trial(_world) -> Trial:
    return _world[0]


@pytest.fixture
def oils(_world) -> list[Oil]:
    return _world[1]


@pytest.fixture
def candles(_world) -> list[TestCandle]:
    return _world[2]


@pytest.fixture
def rooms(kitchen: Room) -> list[Room]:
    return [
        kitchen,
        Room.objects.create(name="back room", kind="small room", has_door=True),
        Room.objects.create(name="loft", kind="large room", has_door=False),
    ]


@pytest.fixture
def noses(assessor: Person) -> list[Person]:
    others = [Person.objects.create(name=name) for name in ("Pernille", "Tor", "Åse")]
    return [assessor, *others]


@pytest.fixture
def opened(_world, rooms, noses, by) -> Callable[..., Panel]:
    """Opens a panel of a kind, with the tags 417, 682 and 953."""

    def open_one(asks: str = "lit", **other: Any) -> Panel:
        trial, oils, candles = _world
        seats = list(zip(oils if asks == "blotter" else candles, rooms, strict=True))
        facts = {"day": DAY, "asks": asks, "seats": seats, "assessors": noses, "tags": TAGS}
        return services.open_panel(trial, **{**facts, **other}, **by)

    return open_one


@pytest.fixture
def panel(opened) -> Panel:
    return opened()


@pytest.fixture
def chance() -> random.Random:
    return random.Random(417)


@pytest.fixture
def handed(maker: Client, panel: Panel) -> tuple[Client, str]:
    """The phone that goes round, and the code that was shown on it."""
    page = maker.post(f"/trials/{panel.trial_id}/panels/{panel.pk}/hand-round/")
    found = re.search(r'handed__code">(\d{4})<', page.text)
    assert found
    return maker, found[1]


@pytest.fixture
def phone(handed: tuple[Client, str]) -> Client:
    return handed[0]
