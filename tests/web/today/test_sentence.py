"""The first sentence of the day: what wants a hand now, and by when."""

from datetime import date, timedelta

import pytest

from throwbench.web.today.page import today
from throwbench.workshop.house.models import Person
from throwbench.workshop.panel.models import Panel, Seat, Sitting

MIN = timedelta(minutes=1)


def test_nothing_lit_nothing_due(now):
    assert today(now).sentence == "Nothing is lit, nothing is due."


def test_one_lit_candle_is_named_with_its_end(now, lit, kitchen):
    lit("W8R", room=kitchen, ago=225 * MIN, kind="nose")
    assert today(now).sentence == "W8R is lit. Put it out by 11:20."


def test_seven_lit_candles_and_the_one_that_ends_first(now, lit, kitchen, loft):
    lit("W8R", room=kitchen, ago=225 * MIN, kind="nose")
    for code in ("K2F", "S4M", "T9R", "N5B", "R6J", "W2D"):
        lit(code, room=loft, ago=120 * MIN)
    assert today(now).sentence == "Seven candles are lit. Put out W8R by 11:20."


def test_all_lit_together_end_together(now, lit, loft):
    for code in ("K2F", "S4M"):
        lit(code, room=loft, ago=120 * MIN)
    assert today(now).sentence == "Two candles are lit. Put them out by 13:05."


def test_of_many_that_end_first_it_says_how_many(now, lit, kitchen, loft):
    for code in ("K2F", "S4M", "T9R", "N5B"):
        lit(code, room=loft, ago=120 * MIN)
    lit("W8R", room=kitchen, ago=60 * MIN)
    assert today(now).sentence == "Five candles are lit. Put out the first four by 13:05."


def test_a_late_candle_stands_above_all_others(now, lit, kitchen, loft):
    lit("W8R", room=kitchen, ago=290 * MIN)
    lit("K2F", room=loft, ago=120 * MIN)
    page = today(now)
    assert page.is_late
    assert page.sentence == "W8R should have been out by 10:15. Put it out now."


def test_late_from_the_very_minute(now, lit, kitchen):
    lit("W8R", room=kitchen, ago=240 * MIN)
    assert today(now).is_late


def test_not_late_a_minute_before(now, lit, kitchen):
    lit("W8R", room=kitchen, ago=239 * MIN)
    assert not today(now).is_late


def test_many_late_candles_are_counted(now, lit, loft):
    for code in ("K2F", "S4M", "T9R", "N5B"):
        lit(code, room=loft, ago=300 * MIN)
    assert today(now).sentence == "Four candles should have been out by 10:05. Put them out now."


def test_with_nothing_lit_the_noses_to_come_are_said(now, candle, kitchen, trial, owner):
    panel = Panel.objects.create(trial=trial, day=date(2027, 5, 24), opened_at=now, opened_by=owner)
    Seat.objects.create(panel=panel, candle=candle("K2F"), room=kitchen, tag="417")
    for name in ("Isak", "Tor"):
        Sitting.objects.create(panel=panel, assessor=Person.objects.create(name=name))
    assert today(now).sentence == "Nothing is lit. Two noses are still to come."


@pytest.mark.parametrize(
    ("codes", "said"),
    [(["G7A"], "One cure ends today."), (["G7A", "H2K", "M4P"], "Three cures end today.")],
)
def test_with_nothing_else_the_cures_that_end_today_are_said(now, candle, codes, said):
    for code in codes:
        candle(code, poured_on=date(2027, 5, 14))
    assert today(now).sentence == f"Nothing is lit. {said}"


def test_a_trial_that_is_decided_today_is_named(now, trial):
    trial.decide_on = date(2027, 5, 24)
    trial.sealed = True
    trial.save()
    assert today(now).decided == (
        "Long Light is decided today, sealed until its sittings are closed",
    )
