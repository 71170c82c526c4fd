"""Deciding on the page: the pick in one press, one oil by itself, what was typed stays."""

import re
from uuid import UUID

import pytest
from django.urls import reverse

from throwbench.workshop.line.models import Decision
from throwbench.workshop.line.selectors import verdict_of
from throwbench.workshop.line.services import decide
from throwbench.workshop.shelf.models import Wick
from throwbench.workshop.trials.models import Burn, Combination, TestCandle

from .conftest import burn_again, candidate, combination
from .test_verdict_page import words

ENTRY = UUID(int=4711)


@pytest.fixture
def join(trial):
    return reverse("line:join", args=[trial.pk])


@pytest.fixture
def kelp(trial):
    return reverse("line:decide", args=[trial.pk, candidate(trial, "Kelp and Iron").pk])


@pytest.fixture
def slate(trial):
    return reverse("line:decide", args=[trial.pk, candidate(trial, "Slate After Rain").pk])


@pytest.fixture
def wick_5(trial):
    """Slate After Rain is planned on wick 5 too."""
    first = combination(trial, "K7F")
    return Combination.objects.create(
        candidate=first.candidate, wax=first.wax, load_percent=8, vessel=first.vessel,
        wick=Wick.objects.get(size="5"),
    )  # fmt: skip


def press(maker, join, **typed):
    """The button on the page as it stands now."""
    seen = re.search(r'name="seen" value="([^"]*)"', maker.get(join).content.decode())
    return maker.post(join, {"why": "", "seen": seen[1] if seen else "", **typed})


def test_the_page_lists_each_oil_of_the_pick(judgement, maker, join):
    shown = words(maker.get(join).content)
    for oil in verdict_of(judgement).pick:
        assert oil in shown
    assert "These two join the line" in shown
    assert not Decision.objects.exists()


def test_one_press_joins_the_pick(judgement, maker, join, owner, now):
    answer = press(maker, join, why="as judged")
    assert answer.headers["Location"] == reverse("line:verdict", args=[judgement.trial_id])
    made = Decision.objects.all()
    assert {str(one.candidate) for one in made} == set(verdict_of(judgement).pick)
    assert {(one.outcome, one.why, one.who, one.at, one.judgement) for one in made} == {
        ("joins the line", "as judged", owner, now, judgement)
    }


def test_pressed_twice_they_join_once(judgement, maker, join):
    html = maker.get(join).content.decode()
    typed = {"why": "", "seen": re.search(r'name="seen" value="([^"]*)"', html)[1]}
    for _ in range(2):
        answer = maker.post(join, {**typed, "entry": str(ENTRY)})
        assert answer.headers["Location"] == reverse("line:verdict", args=[judgement.trial_id])
    assert Decision.objects.count() == 2


def test_only_what_was_seen_joins(judgement, owner, maker, join, now):
    """Somebody asked again, or a limit broke, after the page was opened."""
    html = maker.get(join).content.decode()
    seen = re.search(r'name="seen" value="([^"]*)"', html)[1]
    burn_again(TestCandle.objects.get(code="K7F"), owner=owner, flare_up="pool")
    refused = maker.post(join, {"why": "tonight", "seen": seen})
    assert refused.status_code == 422
    assert "has changed since this page was opened" in words(refused.content)
    assert 'value="tonight"' in refused.content.decode()
    assert not Decision.objects.exists()
    fresh = re.search(r'name="seen" value="([^"]*)"', refused.content.decode())[1]
    assert maker.post(join, {"why": "tonight", "seen": fresh}).status_code == 302


def test_an_id_that_is_none_is_refused(judgement, maker, join):
    assert press(maker, join, entry="no id").status_code == 422
    assert not Decision.objects.exists()


def test_what_is_not_yet_known_stands_before_the_press(judgement, maker, join):
    burned = TestCandle.objects.filter(code__in=["K7F", "R9D"])
    for candle in burned:
        candle.burns.update(wax_left_mm=30)
    shown = words(maker.get(join).content)
    assert "Sell none before its limits are known. Burn K7F to 12 mm of wax." in shown
    assert "One may not be sold yet." in shown


def test_one_that_broke_a_limit_since_is_left_out_and_said(judgement, owner, maker, join):
    burn_again(TestCandle.objects.get(code="K7F"), owner=owner, flare_up="pool")
    shown = words(maker.get(join).content)
    assert "One cannot join." in shown
    assert "cannot join Slate After Rain broke a limit" in shown.replace(
        "Slate After Rain cannot join ", "cannot join "
    )
    press(maker, join)
    assert [str(one.candidate) for one in Decision.objects.all()] == ["Rebarbara K"]


def test_several_open_combinations_have_to_be_chosen_from(judgement, wick_5, maker, join):
    html = maker.get(join).content.decode()
    assert html.count('type="radio"') == 2
    tried = combination(judgement.trial, "K7F")
    assert re.search(rf'value="{tried.pk}"[^>]*checked', html)
    refused = press(maker, join, why="tonight")
    assert refused.status_code == 422
    assert "Say which." in words(refused.content)
    assert 'value="tonight"' in refused.content.decode()
    assert not Decision.objects.exists()
    field = f"combination-{wick_5.candidate_id}"
    press(maker, join, **{field: str(wick_5.pk)})
    assert Decision.objects.get(candidate=wick_5.candidate).combination == wick_5


def test_a_load_unlike_the_trials_says_so_where_it_is_chosen(judgement, wick_5, trial, maker, join):
    trial.load_percent = 8
    trial.save()
    Combination.objects.filter(pk=combination(trial, "K7F").pk).update(load_percent=8.7)
    html = maker.get(join).content.decode()
    first = re.search(r'<label[^>]*>\s*<input type="radio"[^>]*checked[^>]*>([^<]*)<', html)[1]
    assert "8.7 % of wax (the trial plans 8 %), stoneware cup" in first
    assert words(html.encode()).count("(the trial plans 8 %)") == 2


def test_without_a_verdict_there_is_no_pick(trial, maker, join):
    assert maker.get(join).headers["Location"] == reverse("line:verdict", args=[trial.pk])


@pytest.mark.parametrize("outcome", ["joins the line", "test again", "dropped"])
def test_one_oil_is_decided_by_the_button_pressed(judgement, maker, slate, outcome):
    maker.post(slate, {"outcome": outcome, "why": "liked"})
    made = Decision.objects.get()
    assert (made.outcome, made.why) == (outcome, "liked")


def test_the_page_shows_each_combination_with_what_was_tried(trial, maker, kelp):
    shown = words(maker.get(kelp).content)
    assert "flat cotton 6, sticker, 8 % of wax, stoneware cup broken" in shown
    assert "flat cotton 5, sticker, 8 % of wax, stoneware cup not yet known" in shown
    assert "If it joins: sell none before its limits are known. Burn W8R to 12 mm" in shown


def test_nothing_joins_on_a_fixing_that_is_barred(trial, maker, kelp):
    Burn.objects.filter(candle__code="W3E", number=5).update(wick_moved=True)
    shown = words(maker.get(kelp).content)
    assert "flat cotton 5, sticker, 8 % of wax, stoneware cup not yet known" in shown
    assert "It would join on flat cotton 5, on another fixing, not yet tried, 8 % of wax" in shown


def test_an_oil_whose_every_combination_broke_cannot_be_pressed_in(trial, maker, kelp):
    combination(trial, "W8R").candles.update(combination=combination(trial, "W3E"))
    Combination.objects.filter(wick__size="5", candidate__oil__name="Kelp and Iron").delete()
    shown = words(maker.get(kelp).content)
    assert "It joins the line" not in shown
    assert "A combination with a broken limit never joins the line." in shown
    answer = maker.post(kelp, {"outcome": "joins the line", "why": "all the same"})
    assert answer.status_code == 422
    assert not Decision.objects.exists()


def test_no_button_is_no_decision(trial, maker, slate):
    answer = maker.post(slate, {"why": "perhaps"})
    assert answer.status_code == 422
    assert "Nothing is decided yet" in words(answer.content)
    assert 'value="perhaps"' in answer.content.decode()


def test_what_was_decided_before_stands_below(trial, maker, slate, by):
    decide(candidate(trial, "Slate After Rain"), outcome="test again", why="too few noses", **by)
    shown = words(maker.get(slate).content)
    assert "Decided before" in shown
    assert "too few noses" in shown


def test_an_oil_of_another_trial_is_not_there(trial, maker):
    assert maker.get(reverse("line:decide", args=[trial.pk, 4711])).status_code == 404


def test_an_assessor_decides_nothing(trial, nose, slate):
    assert nose.post(slate, {"outcome": "dropped"}).status_code == 403
    assert not Decision.objects.exists()


def test_one_more_test_candle_is_poured_from_the_page_of_a_decision(trial, maker, slate):
    text = maker.get(slate).content.decode()
    assert "It would join on" in words(text.encode())
    button = re.search(r'formaction="([^"]+)" name="to_pour"', text)
    before = TestCandle.objects.filter(combination__candidate__trial=trial).count()
    answer = maker.post(button[1], {"to_pour": "1"})
    assert answer.headers["Location"] == f"/trials/{trial.pk}/pour/"
    assert TestCandle.objects.filter(combination__candidate__trial=trial).count() == before + 1


def test_nothing_more_is_poured_of_what_broke(trial, maker, kelp):
    text = maker.get(kelp).content.decode()
    made = Combination.objects.get(candles__code="W3E")
    assert f"/trials/{trial.pk}/wicks/{made.pk}/more/" not in text


def test_what_may_not_be_sold_yet_has_its_next_candle_in_the_line(trial, maker, by):
    made = combination(trial, "W8R")
    decide(made.candidate, outcome="joins the line", combination=made, **by)
    text = maker.get(reverse("line:index")).content.decode()
    assert f'action="/trials/{trial.pk}/wicks/{made.pk}/more/"' in text
