"""The melt pool against the vessel and the hour."""

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reading import cases
from throwbench.science.errors import OutOfRangeError
from throwbench.science.pool import (
    NOT_KNOWN,
    FullPool,
    free_pool_full_h,
    free_pool_mm,
    pool_share,
    time_rule_h,
    time_to_full,
)

WORKED = {
    "BU056": lambda: free_pool_full_h(inside_mm=75, widest_mm=80, tau_h=0.6),
    "BU057": lambda: free_pool_mm(hours=1, widest_mm=80, tau_h=0.6),
    "BL007": lambda: time_rule_h(inside_mm=58),
    "BL008": lambda: time_rule_h(inside_mm=68),
    "BL009": lambda: time_rule_h(inside_mm=78),
    "BL010": lambda: time_rule_h(inside_mm=90),
}
CASES = {
    name: case
    for name, case in cases("burning.csv", "melt pool", "burn log").items()
    if name in WORKED
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_the_pool_is_what_its_definition_says(case):
    case.agrees(WORKED[case.id]())


def test_every_worked_row_is_in_the_table():
    assert set(CASES) == set(WORKED)


@pytest.mark.parametrize(
    ("checks", "after_h", "by_h", "words"),
    [
        ([(1, False), (2, False), (3, True), (4, True)], 2, 3, "between 2 and 3 h"),
        ([(1, True), (2, True)], None, 1, "by 1 h"),
        ([(1, False), (4, False)], 4, None, "more than 4 h"),
        ([], None, None, "not known"),
        ([(1, False), (2, True), (3, False)], 1, 2, "between 1 and 2 h"),
        ([(0.5, False), (2.25, True)], 0.5, 2.25, "between 0.5 and 2.25 h"),
        ([(2, False), (2, True)], None, 2, "by 2 h"),
    ],
)
def test_the_time_to_a_full_pool_is_an_interval(checks, after_h, by_h, words):
    for order in permutations(checks):
        full = time_to_full(order)
        assert full == FullPool(after_h=after_h, by_h=by_h)
        assert full.sentence() == words


def test_no_check_is_not_known():
    assert time_to_full([]) == NOT_KNOWN


def test_the_share_is_of_the_inside_diameter():
    assert pool_share(width_mm=60, inside_mm=75) == pytest.approx(0.8)  # definition
    assert pool_share(width_mm=75, inside_mm=75) == 1
    assert pool_share(width_mm=0, inside_mm=75) == 0


@pytest.mark.parametrize(("width", "inside"), [(75.1, 75), (-1, 75), (0, 0)])
def test_a_pool_wider_than_the_vessel_is_answered(width, inside):
    with pytest.raises(OutOfRangeError, match=r"is allowed"):
        pool_share(width_mm=width, inside_mm=inside)


def test_the_answer_says_what_to_do():
    with pytest.raises(OutOfRangeError, match=r"0 to 75 mm is allowed .* check the vessel"):
        pool_share(width_mm=80, inside_mm=75)


@pytest.mark.parametrize(
    ("inside", "hours"), [(20, 1), (25.4, 1), (25.5, 2), (50.8, 2), (76.2, 3), (76.3, 4), (200, 4)]
)
def test_an_inch_is_an_hour_rounded_up_to_at_most_four(inside, hours):
    assert time_rule_h(inside_mm=inside) == hours  # common practice


@pytest.mark.parametrize("inside", [0, -1])
def test_a_vessel_without_width_is_answered(inside):
    with pytest.raises(OutOfRangeError, match="The inside diameter"):
        time_rule_h(inside_mm=inside)
    with pytest.raises(OutOfRangeError, match="The inside diameter"):
        free_pool_full_h(inside_mm=inside, widest_mm=80, tau_h=0.6)


def test_a_pool_that_ends_at_the_wall_is_never_full():
    assert free_pool_full_h(inside_mm=75, widest_mm=75, tau_h=0.6) is None
    assert free_pool_full_h(inside_mm=75, widest_mm=60, tau_h=0.6) is None


@given(st.floats(30, 100), st.floats(1.01, 2), st.floats(0.2, 3))
def test_the_pool_reaches_the_wall_when_it_is_said_to(inside, wider, tau):
    hours = free_pool_full_h(inside_mm=inside, widest_mm=wider * inside, tau_h=tau)
    width = free_pool_mm(hours=hours, widest_mm=wider * inside, tau_h=tau)
    assert width == pytest.approx(inside, rel=1e-9)


@given(st.floats(0, 10), st.floats(0, 10))
def test_a_free_pool_only_grows_and_starts_at_nothing(one, other):
    widths = [free_pool_mm(hours=at, widest_mm=80, tau_h=0.6) for at in sorted((0, one, other))]
    assert widths == sorted(widths)
    assert widths[0] == 0
    assert widths[-1] <= 80


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"hours": -1}, "The time lit"),
        ({"widest_mm": -1}, "The widest pool"),
        ({"tau_h": 0}, "The time constant"),
    ],
)
def test_a_pool_that_cannot_be_is_answered(wrong, words):
    entries = {"hours": 1, "widest_mm": 80, "tau_h": 0.6, **wrong}
    with pytest.raises(OutOfRangeError, match=words):
        free_pool_mm(**entries)
    if "hours" not in wrong:
        del entries["hours"]
        with pytest.raises(OutOfRangeError, match=words):
            free_pool_full_h(inside_mm=75, **entries)
