"""All that was answered is part of an entry: the same id with another answer is a conflict."""

import uuid
from datetime import timedelta

import pytest

from throwbench.workshop.house.entries import EntryConflictError
from throwbench.workshop.shelf.models import Lot, Wax
from throwbench.workshop.trials.models import Burn, Pour, Weighing
from throwbench.workshop.trials.services import burn as burning
from throwbench.workshop.trials.services import pour as pouring
from throwbench.workshop.trials.services.together import light_together

MINUTE = timedelta(minutes=1)


@pytest.fixture
def entry() -> uuid.UUID:
    return uuid.uuid4()


@pytest.fixture
def burn(cured, by, now) -> Burn:
    at = now - timedelta(hours=2)
    return burning.light(cured, kind="wick", lit_at=at, mass_before_mg=490_000, **by)


LIT = {
    "kind": "wick", "room_c": 20.0, "trim_mm": 5.0, "mass_before_mg": 490_000,
    "scale_step_mg": 100, "limit_h": 3.0,
}  # fmt: skip


@pytest.mark.parametrize(
    "other",
    [{"kind": "long"}, {"room_c": 21.0}, {"trim_mm": 4.0}, {"mass_before_mg": 480_000},
     {"scale_step_mg": 1000}, {"limit_h": 2.0}, {"lit_at": MINUTE}],
    ids=str,
)  # fmt: skip
def test_lit_otherwise(cured, entry, by, now, other):
    told = {**LIT, "lit_at": now, "entry": entry, **by}
    burning.light(cured, **told)
    burning.light(cured, **told)
    if "lit_at" in other:
        other = {"lit_at": now - other["lit_at"]}
    with pytest.raises(EntryConflictError, match="sent already at 11:05"):
        burning.light(cured, **{**told, **other})
    assert Burn.objects.count() == 1


@pytest.mark.parametrize("other", [{"room_c": 21.0}, {"limit_h": 2.0}, {"kind": "long"}], ids=str)
def test_lit_together_otherwise(cured, other_cured, entry, by, other):
    told = {"kind": "wick", "lit_at": by["now"], "limit_h": 3.0, "entry": entry, **by}
    both = {cured: {"mass_before_mg": 490_000}, other_cured: {}}
    light_together(both, **told)
    light_together(both, **told)
    for again in ({**told, **other}, told):
        candles = both if again is not told else {**both, other_cured: {"mass_before_mg": 1}}
        with pytest.raises(EntryConflictError):
            light_together(candles, **again)
    assert Burn.objects.count() == 2


@pytest.mark.parametrize("which", ["wax", "wax_lot", "oil_lot", "wax_mg", "basis", "load_percent"])
def test_a_pitcher_begun_otherwise(slate, wax, entry, by, which):
    others = {
        "wax": Wax.objects.create(name="R-40"),
        "wax_lot": Lot.objects.create(code="T-1", wax=wax),
        "oil_lot": Lot.objects.create(code="T-2", oil=slate.oil),
        "wax_mg": 401_000,
        "basis": "total",
        "load_percent": 7,
    }
    told = {"wax": wax, "load_percent": 8, "wax_mg": 400_000, "entry": entry, **by}
    pouring.begin_pour(slate, **told)
    pouring.begin_pour(slate, **told)
    with pytest.raises(EntryConflictError):
        pouring.begin_pour(slate, **{**told, which: others[which]})
    assert Pour.objects.count() == 1


def test_a_scale_with_another_step(slate, wax, entry, by):
    pour = pouring.begin_pour(slate, wax=wax, load_percent=8, wax_mg=400_000, **by)
    told = {"what": "wax", "mg": 400_000, "entry": entry, **by}
    pouring.weigh(pour, scale_step_mg=100, **told)
    pouring.weigh(pour, scale_step_mg=100, **told)
    with pytest.raises(EntryConflictError):
        pouring.weigh(pour, scale_step_mg=1000, **told)
    assert Weighing.objects.count() == 1


def test_a_slip_put_right_for_another_reason(burn, entry, by):
    told = {"field": "mass_before_mg", "value": 491_000, "entry": entry, **by}
    burning.put_burn_right(burn, why="read it upside down", **told)
    burning.put_burn_right(burn, why="read it upside down", **told)
    with pytest.raises(EntryConflictError):
        burning.put_burn_right(burn, why="another scale", **told)
