"""Lots: deliveries, and where one took the place of another."""

from datetime import date

import pytest

from throwbench.workshop.shelf import services
from throwbench.workshop.shelf.models import Wick
from throwbench.workshop.shelf.selectors.lots import changed_lots


@pytest.fixture
def wick(by) -> Wick:
    return services.add_wick(series="flat cotton", size="4", **by)


def test_a_lot_belongs_to_its_material(wick, rope, by):
    wax = services.add_wax(name="R-36", **by)
    cup = services.add_vessel(name="cup", **by)
    for material in (wick, rope, wax, cup):
        assert services.add_lot(material, code="A", **by).material == material


def test_the_wick_4_lot_changed_on_20_may(wick, by):
    services.add_lot(wick, code="FC4-2702", came_on=date(2027, 2, 14), count=60, **by)
    services.add_lot(wick, code="FC4-2705", came_on=date(2027, 5, 20), count=60, **by)
    [change] = changed_lots(date(2027, 4, 24))
    assert change.material == wick
    assert change.sentence() == (
        "The wick 4 lot (flat cotton) changed on 20 May: FC4-2705 after FC4-2702."
    )


def test_a_first_lot_is_no_change(wick, rope, by):
    services.add_lot(wick, code="FC4-2705", came_on=date(2027, 5, 20), **by)
    services.add_lot(rope, code="FD-2702", came_on=date(2027, 2, 14), **by)
    assert changed_lots(date(2027, 1, 1)) == ()


def test_a_change_before_the_day_is_not_named(wick, by):
    services.add_lot(wick, code="A", came_on=date(2027, 2, 14), **by)
    services.add_lot(wick, code="B", came_on=date(2027, 4, 23), **by)
    assert changed_lots(date(2027, 4, 24)) == ()


def test_a_lot_without_a_day_changes_nothing(wick, by):
    services.add_lot(wick, code="A", **by)
    services.add_lot(wick, code="B", came_on=date(2027, 5, 20), **by)
    assert changed_lots(date(2027, 4, 24)) == ()


def test_each_change_names_the_lot_just_before(wick, by):
    for code, day in (("A", 1), ("B", 10), ("C", 20)):
        services.add_lot(wick, code=code, came_on=date(2027, 5, day), **by)
    found = [(change.lot.code, change.before.code) for change in changed_lots(date(2027, 5, 2))]
    assert found == [("C", "B"), ("B", "A")]


def test_an_oils_change_of_lot_is_named_by_the_oil(rope, by):
    for code, day in (("A", 1), ("B", 10)):
        services.add_lot(rope, code=code, came_on=date(2027, 5, day), **by)
    [change] = changed_lots(date(2027, 5, 2))
    assert change.sentence() == "The lot of Ferry Rope changed on 10 May: B after A."
