"""What the database refuses, each with its sentence, and the neighbour that it takes."""

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, transaction

from throwbench.workshop.panel.models import Score, Seat, Sitting, Sniff


def taken(row) -> None:
    row.full_clean()
    row.save()


def refused(row, sentence: str) -> None:
    with pytest.raises(ValidationError, match=sentence):
        row.full_clean()
    with pytest.raises(IntegrityError), transaction.atomic():
        row.save()


@pytest.fixture
def sniff(panel, now):
    return Sniff.objects.create(
        sitting=panel.sittings.first(), seat=panel.seats.first(), at=now, way="slip"
    )


def test_a_tag_stands_once_at_a_panel(panel, candles, kitchen):
    sentence = "stands in front of another candle"
    refused(Seat(panel=panel, candle=candles[0], room=kitchen, tag="417"), sentence)
    taken(Seat(panel=panel, candle=candles[0], room=kitchen, tag="418"))


def test_a_seat_holds_a_candle_or_a_blotter(panel, candles, oils, kitchen):
    sentence = "one candle or one blotter"
    refused(Seat(panel=panel, room=kitchen, tag="100"), sentence)
    refused(Seat(panel=panel, candle=candles[0], oil=oils[0], room=kitchen, tag="100"), sentence)
    taken(Seat(panel=panel, oil=oils[0], room=kitchen, tag="100"))


def test_an_assessor_sits_once_at_a_panel(panel, opened, noses):
    refused(Sitting(panel=panel, assessor=noses[0]), "sits at the panel already")
    other = opened("unlit", tags=["100", "200", "300"], assessors=noses[1:])
    taken(Sitting(panel=other, assessor=noses[0]))


def test_a_link_is_for_one_sitting(panel):
    first, second, third, _ = panel.sittings.all()
    first.link_hash = second.link_hash = "a" * 64
    taken(first)
    refused(second, "another sitting's")
    third.link_hash = ""
    taken(third)


def test_a_nose_answers_once_at_a_tag(sniff, now):
    other = {"at": now, "way": "slip"}
    refused(Sniff(sitting=sniff.sitting, seat=sniff.seat, **other), "The first is kept")
    taken(Sniff(sitting=sniff.sitting, seat=sniff.seat.panel.seats.last(), **other))


def test_one_score_an_attribute(sniff):
    taken(Score(sniff=sniff, attribute="liking", value=4))
    refused(Score(sniff=sniff, attribute="liking", value=5), "has a score on that already")
    taken(Score(sniff=sniff, attribute="hot_throw", value=None))


@pytest.mark.parametrize("value", [-101, 101])
def test_a_score_is_on_a_scale(sniff, value):
    refused(Score(sniff=sniff, attribute="liking", value=value), "a step of the trial's scale")


@pytest.mark.parametrize("value", [-100, 100, None])
def test_the_ends_of_all_scales_are_taken(sniff, value):
    taken(Score(sniff=sniff, attribute="liking", value=value))
