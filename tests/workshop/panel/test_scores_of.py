"""Scores come back as records, equal to those of the example when the same facts are entered."""

from datetime import date, timedelta

import pytest

from throwbench.records import Score
from throwbench.verdict.counted import sort_scores
from throwbench.workshop.panel import services
from throwbench.workshop.panel.selectors import scores_of
from throwbench.workshop.trials.models import Burn
from workshop.panel.conftest import WHOLE


@pytest.fixture
def given(opened, now):
    """A panel at which the first nose has answered at 417."""

    def give(asks="lit", **other):
        panel = opened(asks)
        services.answer(
            panel.sittings.first(), panel.seats.get(tag="417"), scores=WHOLE[asks], at=now,
            way="hand-round", now=now, **other,
        )  # fmt: skip
        return panel

    return give


def test_a_score_carries_what_is_known_of_its_sniff(given, trial):
    given(recognised=True, minutes_lit=80, clean_air_min=12)
    assert scores_of(trial)[1] == Score(
        candle="K7F", candidate="Slate After Rain", assessor="Odd", room="kitchen",
        sitting="24 May Odd", attribute="hot_throw", score=3, cure_days=14, minutes_lit=80,
        clean_air_min=12, burn_kind="nose", recognised=True,
    )  # fmt: skip


def test_unlit_scores_say_so(given, trial):
    given("unlit")
    (score,) = scores_of(trial)
    assert (score.burn_kind, score.minutes_lit) == ("unlit", None)


def test_a_blotter_is_of_no_candle(given, trial):
    given("blotter")
    assert scores_of(trial) == ()


def test_the_kind_is_that_of_the_burn_at_that_time(given, trial, candles, owner, now):
    Burn.objects.create(
        candle=candles[0], number=1, kind="wick", lit_at=now - timedelta(hours=1), lit_by=owner,
        out_by_at=now, out_at=now + timedelta(hours=1),
    )  # fmt: skip
    given()
    assert {score.burn_kind for score in scores_of(trial)} == {"wick"}


def burned(candle, owner, *, lit_at, out_at=None):
    return Burn.objects.create(
        candle=candle, number=1, kind="nose", lit_at=lit_at, lit_by=owner, out_by_at=lit_at,
        out_at=out_at,
    )  # fmt: skip


@pytest.mark.parametrize("minutes", [-20, 5], ids=["out before", "lit after"])
def test_a_candle_whose_burns_are_noted_is_not_lit_outside_of_them(
    given, trial, candles, *, owner, now, minutes
):
    """Its hot throw is shown and never counted; a file of the scores tells the same."""
    lit_at = now + timedelta(minutes=minutes)
    burned(candles[0], owner, lit_at=lit_at, out_at=lit_at + timedelta(minutes=15))
    given()
    found = scores_of(trial)
    assert {(score.burn_kind, score.minutes_lit) for score in found} == {("unlit", None)}
    sorted_ = sort_scores(
        found, combinations={}, broken=frozenset(), badly_wicked=frozenset(), cure_days=None,
        leave_out=frozenset(),
    )  # fmt: skip
    assert (sorted_.counted, sorted_.why()) == ((), ["2 not lit"])


@pytest.mark.parametrize("seconds", [-45, 45], ids=["just put out", "just lit"])
def test_within_the_minute_by_which_a_burn_is_noted_it_was_lit(
    given, trial, candles, *, owner, now, seconds
):
    edge = now + timedelta(seconds=seconds)
    lit_at, out_at = (edge, None) if seconds > 0 else (now - timedelta(hours=1), edge)
    burned(candles[0], owner, lit_at=lit_at, out_at=out_at)
    given()
    assert {score.burn_kind for score in scores_of(trial)} == {"nose"}
    assert scores_of(trial)[0].minutes_lit == (0 if seconds > 0 else 60)


def test_a_slip_is_of_another_time_than_it_was_typed_in(opened, trial, candles, owner, now):
    hour = timedelta(hours=1)
    burned(candles[0], owner, lit_at=now - 3 * hour, out_at=now - hour)
    panel = opened()
    slip = services.TypedSlip(seat=panel.seats.get(tag="417"), scores=WHOLE["lit"])
    services.type_slips(panel.sittings.first(), [slip], who=owner, now=now)
    assert {score.burn_kind for score in scores_of(trial)} == {"nose"}


def test_a_slip_is_not_of_the_burn_that_it_was_typed_in_at(opened, trial, candles, owner, now):
    burned(candles[0], owner, lit_at=now - timedelta(hours=1))
    Burn.objects.update(kind="wick")
    panel = opened()
    slip = services.TypedSlip(seat=panel.seats.get(tag="417"), scores=WHOLE["lit"])
    services.type_slips(panel.sittings.first(), [slip], who=owner, now=now)
    assert {(score.burn_kind, score.minutes_lit) for score in scores_of(trial)} == {("nose", None)}


def test_minutes_lit_that_were_given_say_that_it_was_lit(given, trial, candles, owner, now):
    burned(candles[0], owner, lit_at=now + timedelta(days=1))
    given(minutes_lit=80)
    assert {score.burn_kind for score in scores_of(trial)} == {"nose"}


def test_a_nose_tired_all_evening_is_so_in_each_score(given, trial, now):
    sitting = given().sittings.first()
    services.note_nose(sitting, tired=True, perfume=False, now=now)
    assert {(score.tired, score.perfume) for score in scores_of(trial)} == {(True, False)}


def test_tired_at_one_sniff_is_not_tired_at_the_next(given, trial, now):
    panel = given(tired=True)
    services.answer(
        panel.sittings.first(), panel.seats.get(tag="682"), scores=WHOLE["lit"], at=now,
        way="hand-round", now=now,
    )  # fmt: skip
    assert [score.tired for score in scores_of(trial)] == [True, True, None, None]


def test_a_candle_of_unknown_pour_has_no_cure_days(given, trial, candles):
    candles[0].poured_on = None
    candles[0].save()
    given()
    assert scores_of(trial)[0].cure_days is None


def test_years_apart_the_year_is_said(given, opened, trial, by, now):
    services.close_panel(given(), **by)
    other = opened(day=date(2028, 5, 24), tags=None)
    services.answer(
        other.sittings.first(), other.seats.first(), scores=WHOLE["lit"], at=now, way="link",
        now=now,
    )  # fmt: skip
    names = [score.sitting for score in scores_of(trial)]
    assert names == ["24 May 2027 Odd"] * 2 + ["24 May 2028 Odd"] * 2


def test_no_query_a_row(given, trial, now, django_assert_num_queries):
    panel = given()
    with django_assert_num_queries(4):
        scores_of(trial)
    for sitting in panel.sittings.all()[1:]:
        services.answer(
            sitting, panel.seats.get(tag="682"), scores=WHOLE["lit"], at=now, way="link", now=now
        )
    with django_assert_num_queries(4):
        assert len(scores_of(trial)) == 8
