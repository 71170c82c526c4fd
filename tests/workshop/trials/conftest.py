"""A small shelf and a trial of three oils, as a maker has them before the first pour."""

from datetime import date, datetime
from typing import Any

import pytest

from throwbench.workshop.house.models import Person
from throwbench.workshop.shelf.models import Fixing, Oil, Supplier, Vessel, Wax, Wick
from throwbench.workshop.trials.models import Candidate, Combination, TestCandle, Trial
from throwbench.workshop.trials.services import plan


@pytest.fixture
def wax(db: None) -> Wax:
    return Wax.objects.create(
        name="R-36", melts_at_c=46, never_above_c=85, add_oil_low_c=70, add_oil_high_c=74,
        stir_min=3, pour_low_c=56, pour_high_c=60, cure_days=10, max_load_percent=9,
    )  # fmt: skip


@pytest.fixture
def wick(db: None) -> Wick:
    return Wick.objects.create(series="flat cotton", size="4")


@pytest.fixture
def cup(db: None) -> Vessel:
    return Vessel.objects.create(name="stoneware cup", inside_mm=68)


@pytest.fixture
def glue(db: None) -> Fixing:
    return Fixing.objects.create(name="high-melt glue", kind="glue")


@pytest.fixture
def oils(db: None) -> list[Oil]:
    tarnholt = Supplier.objects.create(name="Tarnholt Riechstoffe")
    slate = Oil.objects.create(name="Slate After Rain", supplier=tarnholt, flash_c=96)
    rhubarb = Oil.objects.create(name="Rhubarb Cold Frame", supplier=tarnholt)
    return [slate, rhubarb, Oil.objects.create(name="Harbour Tar")]


@pytest.fixture
def by(owner: Person, now: datetime) -> dict[str, Any]:
    return {"who": owner, "now": now}


@pytest.fixture
def trial(wax: Wax, cup: Vessel, by: dict[str, Any]) -> Trial:
    return plan.plan_trial(
        name="Long Light", question="Which one joins?", load_percent=8, fill_mg=168_000,
        wax=wax, vessel=cup, **by,
    )  # fmt: skip


@pytest.fixture
def slate(trial: Trial, oils: list[Oil], by: dict[str, Any]) -> Candidate:
    return plan.add_candidate(trial, oil=oils[0], **by)


@pytest.fixture
def rhubarb(trial: Trial, oils: list[Oil], by: dict[str, Any]) -> Candidate:
    return plan.add_candidate(trial, oil=oils[1], group="rhubarb", **by)


def combined(candidate: Candidate, wick: Wick, by: dict[str, Any], **other: Any) -> Combination:
    """A combination of the trial's own wax, vessel, load and fill."""
    trial = candidate.trial
    facts = {
        "wax": trial.wax,
        "vessel": trial.vessel,
        "load_percent": trial.load_percent,
        "fill_mg": trial.fill_mg,
    }
    return plan.add_combination(candidate, wick=wick, **{**facts, **other}, **by)


@pytest.fixture
def candle(slate: Candidate, wick: Wick, by: dict[str, Any]) -> TestCandle:
    return plan.make_candle(combined(slate, wick, by), code="K7F", **by)


@pytest.fixture
def other_candle(rhubarb: Candidate, wick: Wick, by: dict[str, Any]) -> TestCandle:
    return plan.make_candle(combined(rhubarb, wick, by), code="M9C", **by)


@pytest.fixture
def cured(candle: TestCandle) -> TestCandle:
    """K7F, poured on 27 April: its ten days are over."""
    return poured(candle)


@pytest.fixture
def other_cured(other_candle: TestCandle) -> TestCandle:
    """M9C, poured on the same day."""
    return poured(other_candle)


def poured(candle: TestCandle, day: date = date(2027, 4, 27)) -> TestCandle:
    candle.poured_on = day
    candle.save()
    return candle
