"""One nose answers at one tag, once; what is known of the moment is kept with it."""

import uuid
from datetime import timedelta

import pytest
from django.core.exceptions import ValidationError

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import EntryConflictError
from throwbench.workshop.panel import services
from throwbench.workshop.panel.models import Score, Sniff
from throwbench.workshop.panel.selectors.moments import moment_of
from throwbench.workshop.trials.models import Burn
from workshop.panel.conftest import WHOLE


@pytest.fixture
def answered(panel, now):
    """Answers of one nose at one tag, some minutes after the clock's now."""

    def answer(place=0, tag="417", minutes=0, **other):
        at = now + timedelta(minutes=minutes)
        facts = {"scores": WHOLE["lit"], "at": at, "way": "hand-round", "now": at}
        sitting = panel.sittings.all()[place]
        return services.answer(sitting, panel.seats.get(tag=tag), **{**facts, **other})

    return answer


def test_the_answers_are_kept_in_the_order_in_which_they_were_asked(answered):
    answered()
    assert list(Score.objects.values_list("attribute", "value")) == [
        ("liking", 4),
        ("hot_throw", 3),
    ]


def test_cannot_tell_is_a_full_answer(answered):
    answered(scores={"liking": None, "hot_throw": None})
    assert list(Score.objects.values_list("value", flat=True)) == [None, None]


def test_a_word_and_a_recognition_are_kept(answered):
    sniff = answered(word=" wet stone ", recognised=True)
    assert (sniff.word, sniff.recognised) == ("wet stone", True)


@pytest.mark.parametrize("asks", WHOLE)
def test_each_kind_of_panel_takes_its_own_answers(opened, asks, now):
    panel = opened(asks)
    sniff = services.answer(
        panel.sittings.first(), panel.seats.first(), scores=WHOLE[asks], at=now, way="link",
        now=now,
    )  # fmt: skip
    assert dict(sniff.scores.values_list("attribute", "value")) == WHOLE[asks]


@pytest.mark.parametrize(
    "scores",
    [{"liking": 4}, {}, {"liking": 4, "cold_throw": 2}, {**WHOLE["lit"], "likeness": 3}],
    ids=str,
)
def test_what_was_not_asked_or_is_missing_is_refused(answered, scores):
    with pytest.raises(UnclearError, match="missing or was not asked for"):
        answered(scores=scores)


@pytest.mark.parametrize("value", [0, 6, -1])
def test_a_score_off_the_scale_is_refused(answered, value):
    with pytest.raises(UnclearError, match=f"The score is {value}. A score is a whole step"):
        answered(scores={"liking": value, "hot_throw": 3})
    assert not Sniff.objects.exists()


@pytest.mark.parametrize("value", [1, 5])
def test_both_ends_of_the_scale_are_on_it(answered, value):
    assert answered(scores={"liking": value, "hot_throw": value}).scores.count() == 2


def test_a_second_send_of_the_same_page_does_nothing(answered):
    entry = uuid.uuid4()
    first = answered(entry=entry)
    assert answered(entry=entry, minutes=3) == first
    assert Score.objects.count() == 2


def test_the_same_page_with_other_answers_is_refused(answered):
    entry = uuid.uuid4()
    answered(entry=entry)
    with pytest.raises(EntryConflictError):
        answered(entry=entry, scores={"liking": 1, "hot_throw": 1})


def test_a_nose_answers_once_at_a_tag(answered):
    answered()
    with pytest.raises(ValidationError, match="The first is kept"):
        answered(scores={"liking": 1, "hot_throw": 1})
    assert Score.objects.get(attribute="liking").value == 4


def test_a_nose_that_sits_out_does_not_answer(panel, answered, by):
    services.sit_out(panel.sittings.first(), **by)
    with pytest.raises(UnclearError, match="Odd sits out"):
        answered()
    services.sit_out(panel.sittings.first(), out=False, **by)
    assert answered().pk


def test_a_closed_panel_takes_no_answer(panel, answered, by):
    services.close_panel(panel, **by)
    with pytest.raises(UnclearError, match="This panel is closed"):
        answered()


def test_a_tag_of_another_panel_is_refused(panel, opened, now):
    other = opened("lit", tags=["100", "200", "300"])
    with pytest.raises(UnclearError, match="100 stands at another panel"):
        services.answer(
            panel.sittings.first(), other.seats.first(), scores=WHOLE["lit"], at=now, way="link",
            now=now,
        )  # fmt: skip


def test_the_first_sniff_knows_nothing_of_the_air_before(answered):
    assert moment_of(answered()).clean_air_min is None


def test_a_sniff_before_the_time_is_taken_and_marked(answered):
    answered()
    assert moment_of(answered(tag="682", minutes=3)).clean_air_min == 3


def test_the_air_is_reckoned_from_the_last_sniff_of_that_nose_alone(answered):
    answered()
    answered(place=1, minutes=6)
    assert moment_of(answered(tag="682", minutes=8.5)).clean_air_min == 8.5


def test_a_sniff_at_another_panel_counts_too(answered, opened, now):
    answered()
    other = opened("unlit", tags=["100", "200", "300"])
    at = now + timedelta(minutes=4)
    sniff = services.answer(
        other.sittings.first(), other.seats.first(), scores=WHOLE["unlit"], at=at, way="link",
        now=at,
    )  # fmt: skip
    assert moment_of(sniff).clean_air_min == 4


def test_after_a_day_nothing_is_known_of_the_air(answered):
    answered()
    assert moment_of(answered(tag="682", minutes=24 * 60)).clean_air_min == 24 * 60
    assert moment_of(answered(tag="953", minutes=49 * 60)).clean_air_min is None


def lit(candle, owner, now, minutes):
    at = now - timedelta(minutes=minutes)
    return Burn.objects.create(
        candle=candle, number=1, kind="nose", lit_at=at, lit_by=owner,
        out_by_at=at + timedelta(hours=4),
    )  # fmt: skip


def test_minutes_lit_are_reckoned_from_the_burn(answered, candles, owner, now):
    lit(candles[0], owner, now, 75)
    assert moment_of(answered(minutes=5)).minutes_lit == 80


def test_out_again_nothing_is_known_of_minutes_lit(answered, candles, owner, now):
    burn = lit(candles[0], owner, now, 75)
    Burn.objects.filter(pk=burn.pk).update(out_at=now - timedelta(minutes=1))
    assert moment_of(answered()).minutes_lit is None


def test_an_unlit_panel_has_no_minutes_lit(opened, candles, owner, now):
    lit(candles[0], owner, now, 75)
    panel = opened("unlit")
    sniff = services.answer(
        panel.sittings.first(), panel.seats.first(), scores=WHOLE["unlit"], at=now, way="link",
        now=now,
    )  # fmt: skip
    assert moment_of(sniff).minutes_lit is None


def test_what_is_given_is_not_reckoned(answered, candles, owner, now):
    lit(candles[0], owner, now, 75)
    answered()
    sniff = answered(tag="682", minutes=3, clean_air_min=30, minutes_lit=12)
    assert (moment_of(sniff).clean_air_min, moment_of(sniff).minutes_lit) == (30, 12)
