"""What is asked about one burn: at the limit, just over, just under."""

from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from throwbench.formats.burn_questions import questions_of_burn
from throwbench.formats.questions import held_back
from throwbench.records import Burn, Check

LIT = datetime(2027, 5, 1, 18)
FOUR_HOURS = Burn(candle="K1", burn=1, lit_at=LIT, out_at=LIT + timedelta(hours=4), line=2)


def lasting(**time):
    return replace(FOUR_HOURS, out_at=LIT + timedelta(**time))


def checked(*checks, **burn):
    lines = (replace(check, line=2 + number) for number, check in enumerate(checks))
    return replace(FOUR_HOURS, checks=tuple(lines), **burn)


def asked(burn, **vessel):
    return [
        (note.line, note.column, note.fault.outcome) for note in questions_of_burn(burn, **vessel)
    ]


def sentence(burn, **vessel):
    (note,) = questions_of_burn(burn, **vessel)
    return note.fault.sentence()


def test_a_plain_burn_of_four_hours_raises_no_question():
    assert asked(FOUR_HOURS) == []


@pytest.mark.parametrize("minutes", [0, -60])
def test_a_burn_that_ends_before_it_began_is_refused(minutes):
    burn = lasting(minutes=minutes)
    assert asked(burn) == [(2, "out_at", "refused")]
    assert "a burn ends after it began" in sentence(burn)


@pytest.mark.parametrize("minutes", [60, 255])
def test_one_hour_and_four_and_a_quarter_are_usual(minutes):
    assert asked(lasting(minutes=minutes)) == []


@pytest.mark.parametrize("minutes", [59, 256])
def test_a_shorter_or_longer_burn_is_asked_about(minutes):
    assert asked(lasting(minutes=minutes)) == [(2, "out_at", "asked")]


@pytest.mark.parametrize(("minutes", "questions"), [(180, 0), (181, 1), (240, 1)])
def test_a_burn_longer_than_the_makers_own_limit_is_asked_about(minutes, questions):
    notes = questions_of_burn(lasting(minutes=minutes), house={"burn-length": 3.0})
    assert [note.column for note in notes] == ["out_at"] * questions
    assert all("usual is 1 h to 3 h" in note.fault.sentence() for note in notes)


def test_a_candle_that_gets_heavier_is_held_back():
    burn = replace(FOUR_HOURS, mass_before_g=300.0, mass_after_g=300.5)
    notes = questions_of_burn(burn)
    assert [note.fault.outcome for note in notes] == ["held back"]
    assert held_back(burn, notes) == replace(burn, mass_after_g=None)


@pytest.mark.parametrize("after", [292.0, 240.0])  # definition: 8 g and 60 g in 4 h
def test_two_and_fifteen_grams_an_hour_are_usual(after):
    assert asked(replace(FOUR_HOURS, mass_before_g=300.0, mass_after_g=after)) == []


@pytest.mark.parametrize("after", [292.1, 239.9, 300.0])
def test_a_slower_or_faster_burn_is_asked_about(after):
    burn = replace(FOUR_HOURS, mass_before_g=300.0, mass_after_g=after)
    assert asked(burn) == [(2, "mass_after_g", "asked")]


def test_one_mass_alone_raises_no_question():
    assert asked(replace(FOUR_HOURS, mass_before_g=300.0)) == []


@pytest.mark.parametrize("hour", [1.0, 4.0, 1 + 10 / 60, 2 - 10 / 60, 4.0 + 1 / 60])
def test_a_check_within_ten_minutes_of_the_hour_is_usual(hour):
    assert asked(checked(Check(check_h=hour))) == []


@pytest.mark.parametrize("hour", [1.2, 1.5, 1.8])
def test_a_check_off_the_hour_is_asked_about(hour):
    assert asked(checked(Check(check_h=hour))) == [(2, "check_h", "asked")]


@pytest.mark.parametrize("hour", [0.0, 4.1, 20.0])
def test_a_check_outside_its_burn_loses_its_hour_and_keeps_the_rest(hour):
    burn = checked(Check(check_h=hour, flame="over"))
    notes = questions_of_burn(burn)
    assert [note.fault.outcome for note in notes] == ["held back"]
    assert held_back(burn, notes).checks == (Check(flame="over", line=2),)


def test_a_vessel_colder_than_the_room_is_held_back():
    burn = checked(Check(check_h=1, vessel_c=20.0), room_c=21.0)
    assert asked(burn) == [(2, "vessel_c", "held back")]
    assert "the room had 21 °C" in sentence(burn)


def test_a_vessel_colder_than_the_room_is_used_where_the_maker_is_sure():
    assert asked(checked(Check(check_h=1, vessel_c=20.0, sure=True), room_c=21.0)) == []


def test_a_vessel_as_warm_as_the_room_raises_no_question():
    assert asked(checked(Check(check_h=1, vessel_c=21.0), room_c=21.0)) == []


def test_a_melt_pool_wider_than_the_vessel_is_held_back():
    burn = checked(Check(check_h=1, pool_width_mm=68.1))
    assert asked(burn, inside_mm=68.0) == [(2, "pool_width_mm", "held back")]
    assert "the vessel is 68 mm wide inside" in sentence(burn, inside_mm=68.0)


def test_a_melt_pool_as_wide_as_the_vessel_raises_no_question():
    assert asked(checked(Check(check_h=1, pool_width_mm=68.0)), inside_mm=68.0) == []


def test_without_the_vessel_s_width_no_width_is_too_wide():
    assert asked(checked(Check(check_h=1, pool_width_mm=900.0))) == []


@pytest.mark.parametrize(("width", "questions"), [(90.0, 0), (89.9, 1)])
def test_a_full_pool_narrower_than_nine_tenths_is_asked_about(width, questions):
    burn = checked(Check(check_h=1, pool_width_mm=width, pool_full=True))
    assert asked(burn, inside_mm=100.0) == [(2, "pool_full", "asked")] * questions


@pytest.mark.parametrize(("later", "questions"), [(46.0, 0), (45.9, 1)])
def test_a_pool_that_shrinks_by_more_than_four_mm_is_asked_about(later, questions):
    burn = checked(Check(check_h=1, pool_width_mm=50.0), Check(check_h=2, pool_width_mm=later))
    assert asked(burn) == [(3, "pool_width_mm", "asked")] * questions


def test_a_width_that_is_held_back_is_not_compared():
    burn = checked(Check(check_h=1, pool_width_mm=99.0), Check(check_h=2, pool_width_mm=50.0))
    assert asked(burn, inside_mm=68.0) == [(2, "pool_width_mm", "held back")]


def test_a_full_pool_that_is_full_no_more_is_asked_about():
    burn = checked(Check(check_h=1, pool_full=True), Check(check_h=2, pool_full=False))
    assert asked(burn) == [(3, "pool_full", "asked")]
    assert "at 1 h the melt pool was full" in sentence(burn)


def test_a_pool_that_becomes_full_and_stays_so_raises_no_question():
    burn = checked(*(Check(check_h=hour, pool_full=hour > 1) for hour in (1, 2, 3)))
    assert asked(burn) == []


def test_checks_without_an_hour_are_not_compared():
    burn = checked(
        Check(check_h=1, pool_width_mm=50.0, pool_full=True),
        Check(pool_width_mm=10.0, pool_full=False),
    )
    assert asked(burn) == []
