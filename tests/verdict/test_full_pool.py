"""The melt pool of one burn against the vessel and the time rule."""

import pytest

from burning import seen_burn
from throwbench.records import Check
from throwbench.science.pool import NOT_KNOWN, FullPool
from throwbench.verdict.full_pool import pool_of


def pool(*checks, inside_mm=68, number=3):
    return pool_of(seen_burn(number, checks=checks), inside_mm=inside_mm)


def wide(check_h, width_mm, **changes):
    return Check(check_h=check_h, pool_width_mm=width_mm, **changes)


def test_a_burn_says_its_share_and_its_time_to_full():
    found = pool(wide(1, 34), wide(2, 51), Check(check_h=3, pool_full=True), number=4)
    assert found.burn == 4
    assert found.share == 1
    assert found.to_full == FullPool(after_h=2, by_h=3)
    assert found.rule_h == 3
    assert found.narrow is False


def test_the_share_is_that_of_the_last_check():
    assert pool(wide(2, 51), wide(1, 34)).share == 0.75  # definition: 51/68
    assert pool(wide(1, 34), Check(check_h=2, soot="none")).share == 0.5


def test_a_width_that_is_the_vessels_is_full():
    assert pool(wide(2, 68)).to_full == FullPool(after_h=None, by_h=2)
    assert pool(wide(2, 67)).to_full == FullPool(after_h=2, by_h=None)


def test_the_makers_word_stands_above_the_width():
    assert pool(wide(2, 68, pool_full=False)).to_full == FullPool(after_h=2, by_h=None)
    assert pool(wide(2, 60, pool_full=True)).to_full == FullPool(after_h=None, by_h=2)
    assert pool(wide(2, 60, pool_full=True)).share == 1


def test_a_width_beyond_the_vessel_says_nothing():
    found = pool(wide(2, 70))
    assert (found.share, found.to_full) == (None, NOT_KNOWN)


def test_a_check_without_its_hour_says_nothing():
    assert pool(wide(None, 34)).share is None


def test_without_the_vessels_width_only_the_makers_word_counts():
    found = pool(wide(1, 34), Check(check_h=2, pool_full=False), inside_mm=None)
    assert found.to_full == FullPool(after_h=2, by_h=None)
    assert (found.share, found.rule_h, found.narrow) == (None, None, None)
    assert not found.late


def test_nothing_seen_is_not_known():
    found = pool(Check(check_h=1, no_change=True))
    assert (found.share, found.to_full, found.narrow) == (None, NOT_KNOWN, None)


@pytest.mark.parametrize(
    ("checks", "narrow"),
    [
        ([wide(3, 57.7)], True),  # 84.9 % at the hour of the rule
        ([wide(3, 57.8)], False),  # 85 % exactly: 0.85 of 68 mm
        ([wide(3, 58)], False),
        ([wide(4, 57)], True),  # narrow later is narrow at the hour
        ([wide(4, 60)], None),  # wide enough later says nothing of the hour
        ([wide(2, 57)], None),  # narrow before the hour says nothing of it
        ([wide(2, 60)], False),  # wide enough before the hour is wide enough
        ([wide(2, 60), wide(3, 57)], False),
        ([wide(1, 40), wide(3, 50), wide(4, 68)], True),
        ([wide(2 + 50 / 60, 57)], True),  # ten minutes early stands for the hour
        ([wide(2 + 49 / 60, 57)], None),
        ([wide(3 + 10 / 60, 60)], False),  # ten minutes late stands for the hour
        ([wide(3 + 11 / 60, 60)], None),
        ([Check(check_h=3, pool_full=True)], False),
        ([Check(check_h=3, pool_full=False)], None),
    ],
)
def test_narrow_is_under_85_percent_by_the_time_rule(checks, narrow):
    assert pool(*checks).narrow is narrow


@pytest.mark.parametrize(
    ("not_full_h", "full_h", "late"),
    [(2, 3, False), (3, 4, True), (2 + 50 / 60, 4, True), (2.8, 4, False), (4, None, False)],
)
def test_late_is_full_after_the_hour_of_the_rule(not_full_h, full_h, late):
    checks = [wide(not_full_h, 60)] + ([Check(check_h=full_h, pool_full=True)] if full_h else [])
    assert pool(*checks).late is late


def test_full_at_the_first_check_is_not_late():
    assert not pool(Check(check_h=4, pool_full=True)).late
