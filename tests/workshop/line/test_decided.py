"""The verdict page keeps the judgement's words, and says under them what was decided otherwise."""

import re
from datetime import timedelta

import pytest
from django.urls import reverse

from throwbench.workshop.line.selectors import verdict_of
from throwbench.workshop.line.services import ask_verdict, decide, join_the_line
from throwbench.workshop.panel.models import Score

from .conftest import candidate
from .test_verdict_page import words


@pytest.fixture
def page(trial):
    return reverse("line:verdict", args=[trial.pk])


@pytest.fixture
def pick(trial, judgement):
    return [candidate(trial, name) for name in verdict_of(judgement).pick]


def leads(maker, page) -> list[str]:
    content = maker.get(page).content.decode()
    return [words(one.encode()).strip() for one in re.findall(r'<p class="lead">.*?</p>', content)]


def test_nothing_is_said_before_anything_is_decided(pick, maker, page):
    assert not [one for one in leads(maker, page) if "joined" in one or "dropped" in one]


def test_what_was_dropped_is_said_under_the_headline(pick, judgement, by, maker, page):
    decide(pick[0], outcome="dropped", why="too dear", **by)
    said = f"You dropped {pick[0]} on 24 May; the scores alone would pick it."
    assert said in leads(maker, page)
    assert verdict_of(judgement).headline in words(maker.get(page).content)


def test_both_dropped_are_one_sentence(pick, by, maker, page):
    for one in pick:
        decide(one, outcome="dropped", **by)
    said = f"You dropped {pick[0]} and {pick[1]} on 24 May; the scores alone would pick them."
    assert said in [one.replace(f"{pick[1]} and {pick[0]}", f"{pick[0]} and {pick[1]}")
                    for one in leads(maker, page)]  # fmt: skip


def test_another_hand_is_named(pick, helper, now, maker, page):
    decide(pick[0], outcome="test again", who=helper, now=now)
    said = f"Isak decided on 24 May to test {pick[0]} again; the scores alone would pick it."
    assert said in leads(maker, page)


def test_all_of_the_pick_joined_in_one_sentence_and_no_button(pick, trial, by, maker, page):
    join_the_line(trial, chosen=dict.fromkeys(pick), **by)
    assert "These two joined the line on 24 May." in leads(maker, page)
    assert reverse("line:join", args=[trial.pk]) not in maker.get(page).content.decode()


def test_an_oil_beside_the_pick_that_joined_is_said(trial, pick, by, maker, page):
    other = trial.candidates.get(oil__name="Kelp and Iron")
    five = other.combinations.get(wick__size="5")
    decide(other, outcome="joins the line", combination=five, **by)
    assert "Kelp and Iron joined the line on 24 May; it is not in the pick." in leads(maker, page)


def test_dropping_beside_the_pick_agrees_with_the_verdict(trial, pick, by, maker, page):
    before = leads(maker, page)
    decide(candidate(trial, "Kelp and Iron"), outcome="dropped", **by)
    assert leads(maker, page) == before


def test_what_was_dropped_is_in_no_button_and_not_on_the_page_of_joining(
    trial, pick, by, maker, page
):
    decide(pick[0], outcome="dropped", **by)
    assert f"{pick[1]} joins the line" in words(maker.get(page).content)
    join = reverse("line:join", args=[trial.pk])
    assert str(pick[0]) not in words(maker.get(join).content)
    decide(pick[1], outcome="dropped", **by)
    assert join not in maker.get(page).content.decode()
    assert "All of the pick is decided." in words(maker.get(join).content)


def test_each_oil_can_still_be_decided_anew(pick, by, maker, page):
    decide(pick[0], outcome="dropped", **by)
    assert "Decide anew" in words(maker.get(page).content)


def test_what_was_tested_again_waits_anew_on_a_later_verdict(trial, pick, by, maker, page):
    for one in pick:
        decide(one, outcome="test again", **by)
    assert "join the line" not in words(maker.get(page).content)
    Score.objects.filter(attribute="liking").order_by("pk").first().delete()
    ask_verdict(trial, who=by["who"], now=by["now"] + timedelta(hours=1))
    assert "These two join the line" in words(maker.get(page).content)
    assert not [one for one in leads(maker, page) if "test" in one]
