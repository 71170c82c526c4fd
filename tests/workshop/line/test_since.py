"""What came since the notes were judged, said without judging them."""

from datetime import timedelta

import pytest

from throwbench.workshop.line import services
from throwbench.workshop.line.since import changed_since
from throwbench.workshop.panel.models import Score
from throwbench.workshop.trials.models import TestCandle, Trial

from .conftest import burn_again


@pytest.fixture(autouse=True)
def _judged(judgement, monkeypatch):
    monkeypatch.setattr(services, "judged_apart", None)


def test_nothing_is_said_of_the_same_notes(judgement):
    assert changed_since(judgement) == ""


def test_a_later_day_alone_is_no_change(judgement):
    judgement.made_at -= timedelta(days=3)
    assert changed_since(judgement) == ""


@pytest.mark.parametrize(("count", "said"), [(1, "1 score came"), (3, "3 scores came")])
def test_scores_are_counted(judgement, count, said):
    scores = list(Score.objects.filter(attribute="liking").order_by("pk")[:count])
    for score in scores:
        score.value = 1 if score.value != 1 else 2
        score.save()
    assert changed_since(judgement).startswith(said)


def test_a_burn_is_told_by_the_lines_of_its_log(judgement, owner):
    burn = burn_again(TestCandle.objects.get(code="W8R"), owner=owner)
    lines = burn.checks.count()
    assert changed_since(judgement) == f"{lines} lines of the burn log came or changed since."


def test_a_score_that_is_taken_out_is_a_change(judgement):
    Score.objects.filter(attribute="liking").order_by("pk").first().delete()
    assert changed_since(judgement) == "1 score came or changed since."


def test_another_question_is_a_change(judgement):
    Trial.objects.update(choose=3)
    judgement.trial.refresh_from_db()
    assert changed_since(judgement) == "What is asked of this trial has changed since."
