"""A limit stands once: the setting that once stood beside it is carried, and all say the same."""

from importlib import import_module
from types import SimpleNamespace

import pytest

from throwbench.documents.burn_sheet import _lead
from throwbench.rules import figure_of, limits_on, newest_figure
from throwbench.workshop.house.models import HouseLimit, Person
from throwbench.workshop.house.selectors import house_figure, house_limits, overview
from throwbench.workshop.house.services import set_house_limit

CARRY = import_module("throwbench.workshop.house.migrations.0005_one_house_limit").carry


class Before:
    """The models as the step finds them: a workshop that still has both settings."""

    def __init__(self, *, hours=4.0, trim=5.0):
        here = SimpleNamespace(burn_limit_h=hours, trim_mm=trim)
        self.workshops = SimpleNamespace(objects=SimpleNamespace(all=lambda: [here]))

    def get_model(self, _app, name):
        return {"Workshop": self.workshops, "HouseLimit": HouseLimit, "Person": Person}[name]


def carried(**settings):
    CARRY(Before(**settings), None)
    return house_limits()


@pytest.mark.parametrize(
    ("settings", "limits"),
    [
        ({}, {}),
        ({"hours": 3.0}, {"burn-length": 3.0}),
        ({"hours": 6.0}, {"burn-length": 6.0}),
        ({"trim": 6.0}, {}),
        ({"trim": 2.0}, {"trim-short": 2.0}),
        ({"trim": 10.0}, {"trim-long": 10.0}),
        ({"hours": 3.5, "trim": 9.0}, {"burn-length": 3.5, "trim-long": 9.0}),
    ],
)
def test_a_setting_that_was_changed_becomes_the_house_limit(owner, settings, limits):
    assert carried(**settings) == limits
    assert {limit.set_by for limit in HouseLimit.objects.all()} <= {owner}


@pytest.mark.parametrize(("own", "hours", "stays"), [(2.0, 3.0, 2.0), (5.0, 3.0, 3.0)])
def test_of_two_limits_the_stricter_one_stays(owner, now, own, hours, stays):
    set_house_limit(rule="burn-length", value=own, who=owner, now=now)
    assert carried(hours=hours) == {"burn-length": stays}


def test_a_limit_beside_the_setting_nobody_changed_stays_as_it_is(owner, now):
    set_house_limit(rule="burn-length", value=5.0, who=owner, now=now)
    assert carried() == {"burn-length": 5.0}


@pytest.mark.django_db
def test_a_folder_without_a_person_keeps_its_setting_too():
    assert carried(hours=3.0) == {"burn-length": 3.0}
    assert HouseLimit.objects.get().set_by.role == "owner"


@pytest.mark.parametrize("own", [None, 3.0])
def test_page_sheet_marks_and_questions_say_the_same_hours(owner, now, own):
    set_house_limit(rule="burn-length", value=own, who=owner, now=now)
    day, house = now.date(), house_limits()
    figure = house_figure("burn-length", day)
    assert figure == (own or 4)
    hours = f"{figure:g}\N{NO-BREAK SPACE}h"
    assert f"burns end after {hours}" in overview(day)
    assert f"burn {hours}" in _lead(limits_on(day, house=house))
    assert figure_of("burn-length", limits_on(day, house=house)) == figure  # what marks a burn
    assert newest_figure("burn-length", house) == (own or 4.25)  # definition: 4 h and an allowance
