"""Opening a panel: fresh tags, what does not fit, and a page sent twice."""

import random
import uuid
from datetime import date
from itertools import combinations

import pytest

from throwbench.science.errors import UnclearError
from throwbench.verdict.reasons import LITTLE_AIR_MIN
from throwbench.workshop.house.entries import EntryConflictError
from throwbench.workshop.panel import services
from throwbench.workshop.panel.forms_panel import PanelForm
from throwbench.workshop.panel.models import Panel, Seat
from throwbench.workshop.panel.tags import TAGS as ALL_TAGS
from throwbench.workshop.panel.tags import fresh_tags
from throwbench.workshop.trials.services import plan
from workshop.panel.conftest import DAY, TAGS


def test_drawn_tags_differ_in_two_figures_and_none_is_666(trial):
    for seed in range(20):
        drawn = fresh_tags(trial, 40, chance=random.Random(seed))
        assert len(set(drawn)) == 40
        assert "666" not in drawn
        for one, other in combinations(drawn, 2):
            assert sum(a != b for a, b in zip(one, other, strict=True)) >= 2


def test_each_candle_has_its_room_and_its_tag(panel, rooms):
    assert [(seat.tag, seat.candle.code, seat.room) for seat in panel.seats.all()] == [
        ("417", "K7F", rooms[0]),
        ("682", "M9C", rooms[1]),
        ("953", "T4H", rooms[2]),
    ]


def test_each_assessor_has_a_sitting(panel, noses):
    assert [sitting.assessor for sitting in panel.sittings.all()] == noses


def test_tags_are_drawn_when_none_are_given(opened, chance):
    tags = [seat.tag for seat in opened(tags=None, chance=chance).seats.all()]
    assert len(set(tags)) == 3
    assert set(tags) <= set(ALL_TAGS)


@pytest.mark.parametrize("asks", ["lit", "blotter"])
def test_the_order_of_the_tags_does_not_follow_the_plan(opened, asks):
    """A nose that knows the plan would read the oil off the first tag on the list."""
    first = {
        (seat := opened(asks, tags=None, chance=random.Random(seed)).seats.all()[0]).candle_id
        or seat.oil_id
        for seed in range(20)
    }
    assert len(first) == 3


def test_the_draw_does_not_follow_the_order_of_candles(trial):
    """Of 600 draws of three tags, each of the six orders comes up about 100 times."""
    draws = [fresh_tags(trial, 3, chance=random.Random(seed)) for seed in range(600)]
    ups = sum(tags == sorted(tags) for tags in draws)
    assert 60 < ups < 140


def test_a_trial_never_sees_a_tag_again_while_others_are_left(opened, trial, by):
    services.close_panel(opened(), **by)
    assert not set(TAGS) & set(fresh_tags(trial, 896))


def test_then_only_tags_of_open_panels_are_left_out(opened, trial):
    opened()
    with pytest.raises(UnclearError, match="897 tags are needed and 896 are free"):
        fresh_tags(trial, 897)


def test_a_tag_in_front_elsewhere_is_refused(opened):
    opened()
    with pytest.raises(UnclearError, match="417 stands in front of another candle now"):
        opened("unlit")


@pytest.mark.parametrize("tags", [["417", "682"], ["417", "417", "682"]], ids=str)
def test_each_candle_needs_a_tag_of_its_own(opened, tags):
    with pytest.raises(UnclearError, match="2 different tags came for 3 candles"):
        opened(tags=tags)


@pytest.mark.parametrize("tag", ["K7F", "41", "4170", "４１７"])
def test_a_tag_is_three_digits(opened, tag):
    with pytest.raises(UnclearError, match="three digits"):
        opened(tags=[tag, "682", "953"])


def test_nobody_sits(opened):
    with pytest.raises(UnclearError, match="Nobody sits"):
        opened(assessors=[])


def test_nothing_is_sniffed(opened):
    with pytest.raises(UnclearError, match="Nothing is sniffed"):
        opened(seats=[])


def test_one_lit_candle_a_room(opened, candles, kitchen):
    seats = [(candle, kitchen) for candle in candles]
    with pytest.raises(UnclearError, match="Two lit candles stand in the kitchen"):
        opened(seats=seats)
    assert opened("unlit", seats=seats).seats.count() == 3


def test_candles_and_blotters_do_not_mix(opened, candles, oils, rooms):
    with pytest.raises(UnclearError, match="mixed up"):
        opened("unlit", seats=[(candles[0], rooms[0]), (oils[1], rooms[1])], tags=["417", "682"])
    with pytest.raises(UnclearError, match="mixed up"):
        opened("blotter", seats=[(candles[0], rooms[0])], tags=["417"])
    with pytest.raises(UnclearError, match="mixed up"):
        opened("lit", seats=[(oils[0], rooms[0])], tags=["417"])


def test_a_candle_of_another_trial_is_refused(opened, candles, rooms, by):
    other = plan.plan_trial(name="Softer Rope", **by)
    candles[0].combination.candidate.trial = other
    candles[0].combination.candidate.save()
    with pytest.raises(UnclearError, match="K7F is of another trial"):
        opened()


def test_a_candle_is_not_sniffed_before_it_was_poured(opened):
    with pytest.raises(UnclearError, match="K7F was poured on 10 May 2027"):
        opened(day=date(2027, 5, 9))
    assert opened(day=date(2027, 5, 10)).day == date(2027, 5, 10)


def test_a_page_sent_twice_opens_one_panel(opened):
    entry = uuid.uuid4()
    first = opened(tags=None, entry=entry)
    assert opened(tags=None, entry=entry) == first
    assert Panel.objects.count() == 1
    assert Seat.objects.count() == 3


def test_a_page_sent_twice_with_other_candles_is_refused(opened, noses):
    entry = uuid.uuid4()
    opened(tags=None, entry=entry)
    with pytest.raises(EntryConflictError):
        opened(tags=None, entry=entry, assessors=noses[:1])


def test_a_refused_panel_leaves_nothing(opened):
    with pytest.raises(UnclearError):
        opened(tags=["417", "682", "K7F"])
    assert not Panel.objects.exists()


def test_the_day_is_kept(panel):
    assert (panel.day, panel.clean_air_min, panel.closed_at) == (DAY, 5, None)


def test_a_panel_asks_for_the_clean_air_that_the_verdict_wants():
    """One figure: who keeps to what a new panel asks for is not mentioned in the verdict."""
    assert PanelForm.base_fields["clean_air_min"].initial == LITTLE_AIR_MIN
    assert Panel._meta.get_field("clean_air_min").default == LITTLE_AIR_MIN


@pytest.mark.parametrize(
    "other", [{"clean_air_min": 9}, {"tags": ("417", "682", "111")}, {"asks": "unlit"}], ids=str
)
def test_opened_once_more_with_other_answers_it_is_a_conflict(opened, other):
    entry = uuid.uuid4()
    first = opened(entry=entry)
    assert opened(entry=entry) == first
    with pytest.raises(EntryConflictError):
        opened(**{"entry": entry, **other})
    assert Panel.objects.count() == 1
