"""A lit panel takes candles that can burn, one in a room: here, at other panels, and lit now."""

from datetime import timedelta

import pytest

from throwbench.science.errors import UnclearError
from throwbench.workshop.panel import services
from throwbench.workshop.panel.lit_seats import may_be_sniffed_lit
from throwbench.workshop.panel.models import Panel
from throwbench.workshop.trials.models import TestCandle
from throwbench.workshop.trials.services import burn as burning
from throwbench.workshop.trials.services import plan
from workshop.panel.conftest import DAY, WHOLE

HOUR = timedelta(hours=1)
OTHER_TAGS = ["111", "222", "333"]
SOME_TIME_AGO = 30 * HOUR


@pytest.fixture
def burned(candles, owner, now):
    """The first candle burned for two hours, yesterday."""

    def burn_it(*, check=None, **end):
        lit_at = now - SOME_TIME_AGO
        burn = burning.light(candles[0], kind="wick", lit_at=lit_at, who=owner, now=lit_at)
        if check:
            at = lit_at + HOUR
            burning.check(burn, at=at, **check, who=owner, now=at)
        at = lit_at + 2 * HOUR
        burning.put_out(burn, at=at, **end, who=owner, now=at)

    return burn_it


@pytest.fixture
def spare(candles, by) -> TestCandle:
    """One more candle of the trial, that stands nowhere."""
    candle = plan.make_candle(candles[0].combination, code="X9B", **by)
    candle.poured_on = candles[0].poured_on
    candle.save()
    return candle


def lit(candle, room, owner, at):
    return burning.light(candle, kind="wick", room=room, lit_at=at, who=owner, now=at)


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({"wax_left_mm": 9}, "K7F burned to its end. .*Take another test candle, or ask unlit."),
        ({"check": {"flame": "over"}}, "K7F broke a limit: flame height. Such a candle"),
        ({"wick_moved": True}, "K7F was ended: the wick floated"),
    ],
    ids=["at its end", "broken", "ended"],
)
def test_a_candle_that_is_not_lit_again_is_not_sniffed_lit(opened, burned, told, said):
    burned(**told)
    with pytest.raises(UnclearError, match=said):
        opened()
    assert not Panel.objects.exists()
    assert opened("unlit").seats.count() == 3


def test_one_that_burns_was_asked_about_when_it_was_lit(opened, burned, candles, owner, now):
    burned(wax_left_mm=9)
    burning.light(candles[0], kind="wick", lit_at=now, sure=True, who=owner, now=now)
    assert opened().seats.count() == 3


def test_what_was_lit_later_says_nothing_of_the_panel(burned, candles, rooms, now):
    """As where the burns of an evening are noted before its panel is."""
    burned(wax_left_mm=9)
    early = now - 2 * SOME_TIME_AGO
    may_be_sniffed_lit([(candles[0], rooms[0])], day=early.date(), now=early)
    with pytest.raises(UnclearError, match="to its end"):
        may_be_sniffed_lit([(candles[0], rooms[0])], day=now.date(), now=now)


def test_slips_of_another_day_are_typed_in_whatever_burns_now(opened, spare, rooms, owner, now):
    lit(spare, rooms[0], owner, now - HOUR)
    assert opened(day=DAY - timedelta(days=1)).seats.count() == 3


def test_a_room_in_which_another_candle_burns_is_not_free(opened, spare, rooms, owner, now):
    burn = lit(spare, rooms[0], owner, now - HOUR)
    with pytest.raises(UnclearError, match=r"X9B is lit in the kitchen.*Put that one out first"):
        opened()
    assert opened("unlit").seats.count() == 3
    burning.put_out(burn, at=now, who=owner, now=now)
    assert opened(tags=OTHER_TAGS).seats.count() == 3


def test_a_candle_that_burns_in_its_own_room_is_there(opened, candles, rooms, owner, now):
    lit(candles[0], rooms[0], owner, now - HOUR)
    assert opened().seats.count() == 3


@pytest.fixture
def beside(panel, spare, *, rooms, noses, trial, by):
    """Opens a second lit panel with another candle in the kitchen."""

    def open_one(**other):
        facts = {"day": DAY, "asks": "lit", "seats": [(spare, rooms[0])], "assessors": noses}
        return services.open_panel(trial, **{**facts, **other}, **by)

    return open_one


def test_a_room_in_which_another_candle_is_awaited_is_not_free(beside, candles, rooms, panel, by):
    with pytest.raises(UnclearError, match="K7F stands in the kitchen at a panel that is open"):
        beside()
    assert beside(asks="unlit").seats.count() == 1
    assert beside(seats=[(candles[0], rooms[0])]).seats.count() == 1
    services.close_panel(panel, **by)
    Panel.objects.update(closed_at=by["now"])
    assert beside().seats.count() == 1


def test_once_all_have_answered_there_the_next_candle_may_come(beside, panel, owner, now):
    """Else a sealed trial would have to be opened between two candles of one room."""
    seat, (first, *rest) = panel.seats.get(tag="417"), panel.sittings.all()
    services.sit_out(first, who=owner, now=now)
    for sitting in rest:
        services.answer(
            sitting, seat, scores=WHOLE["lit"], at=now, way="hand-round", now=now,
        )  # fmt: skip
    assert beside().seats.count() == 1


def test_what_is_not_lit_again_is_named_where_it_would_be_chosen(maker, trial, burned, rooms):
    burned(wax_left_mm=9)
    page = maker.get(f"/trials/{trial.pk}/panels/new/").text
    assert page.count("burned to its end: not lit again") == 1


def test_what_does_not_count_yet_is_named_where_it_is_chosen(maker, *, trial, candles, rooms, now):
    candles[1].poured_on = now.date() - timedelta(days=9)
    candles[1].save()
    page = maker.get(f"/trials/{trial.pk}/panels/new/").text
    assert page.count("day 9 of 10 of its cure: its scores are shown and not counted") == 1
