"""Deciding: what may join, with what held back, and that the last decision counts."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import connection, transaction
from django.db.utils import IntegrityError

from throwbench.science.errors import UnclearError
from throwbench.workshop.house.entries import EntryConflictError
from throwbench.workshop.line.models import Decision, Judgement
from throwbench.workshop.line.pick import decisions_of
from throwbench.workshop.line.selectors import last_decisions
from throwbench.workshop.line.services import decide, join_the_line
from throwbench.workshop.shelf.models import Oil, Wick
from throwbench.workshop.trials.models import Burn, Candidate, Combination, TestCandle, Trial

from .conftest import burn_again, candidate, combination

JOINS = "joins the line"


def test_an_oil_with_no_limit_broken_joins_without_a_hold(trial, judgement, by):
    made = decide(candidate(trial, "Slate After Rain"), outcome=JOINS, why=" liked best ", **by)
    assert made.sell_none_before == ""
    assert made.why == "liked best"
    assert made.combination == combination(trial, "K7F")


def test_it_rests_on_the_last_verdict_of_its_trial(trial, judgement, by):
    assert (
        decide(candidate(trial, "Slate After Rain"), outcome="dropped", **by).judgement == judgement
    )


def test_it_can_be_made_before_any_verdict(trial, by):
    made = decide(candidate(trial, "Slate After Rain"), outcome="dropped", **by)
    assert made.judgement is None


def test_a_verdict_on_another_trial_is_refused(trial, judgement, owner, by, now):
    other = Trial.objects.create(name="Autumn", made_at=now, made_by=owner)
    oil = Oil.objects.create(name="Fog")
    fog = Candidate.objects.create(trial=other, oil=oil)
    with pytest.raises(UnclearError, match="on its own trial"):
        decide(fog, outcome="dropped", judgement=judgement, **by)


def test_a_limit_not_yet_known_joins_with_the_check_that_would_settle_it(trial, by):
    made = decide(
        candidate(trial, "Kelp and Iron"),
        outcome=JOINS,
        combination=combination(trial, "W8R"),
        **by,
    )
    assert made.sell_none_before == "its limits are known. Burn W8R to 12 mm of wax."


def test_a_combination_with_a_broken_limit_cannot_join(trial, by):
    with pytest.raises(UnclearError) as refused:
        decide(
            candidate(trial, "Kelp and Iron"),
            outcome=JOINS,
            combination=combination(trial, "W3E"),
            **by,
        )
    happened, allowed, advice = str(refused.value).split(". ", 2)
    assert happened.startswith("Kelp and Iron broke a limit on flat cotton 6: soot")
    assert allowed == "A combination with a broken limit never joins the line"
    assert advice == "Pour one test candle on another wick, or drop the oil."
    assert not Decision.objects.exists()


def test_the_open_combination_joins_where_the_other_is_broken(trial, by):
    made = decide(candidate(trial, "Kelp and Iron"), outcome=JOINS, **by)
    assert made.combination == combination(trial, "W8R")


def test_a_limit_that_broke_since_the_verdict_bars_at_once(trial, judgement, owner, by):
    burn_again(TestCandle.objects.get(code="W8R"), owner=owner, flare_up="pool")
    with pytest.raises(UnclearError, match=r"Kelp and Iron broke a limit .* on flat cotton 5:"):
        decide(candidate(trial, "Kelp and Iron"), outcome=JOINS, **by)


def test_all_broken_is_said(trial, by):
    combination(trial, "W8R").candles.update(combination=combination(trial, "W3E"))
    Combination.objects.filter(wick__size="5").delete()
    with pytest.raises(UnclearError, match="Pour one test candle on another wick"):
        decide(candidate(trial, "Kelp and Iron"), outcome=JOINS, **by)


@pytest.fixture
def two_open(trial):
    """Slate After Rain is planned on wick 5 too."""
    first = combination(trial, "K7F")
    return Combination.objects.create(
        candidate=first.candidate, wax=first.wax, load_percent=8, vessel=first.vessel,
        wick=Wick.objects.get(size="5"),
    )  # fmt: skip


def test_several_open_combinations_are_asked_about(trial, two_open, by):
    with pytest.raises(UnclearError, match=r"has 2 combinations that are open: .* Say which"):
        decide(candidate(trial, "Slate After Rain"), outcome=JOINS, **by)


def test_the_one_that_is_named_joins(trial, two_open, by):
    made = decide(candidate(trial, "Slate After Rain"), outcome=JOINS, combination=two_open, **by)
    assert made.combination == two_open
    assert made.sell_none_before.startswith("its limits are known. Burn one test candle of it")


def test_the_combination_of_another_oil_is_refused(trial, by):
    with pytest.raises(UnclearError, match="is not a combination of Slate After Rain"):
        decide(
            candidate(trial, "Slate After Rain"),
            outcome=JOINS,
            combination=combination(trial, "W8R"),
            **by,
        )


def test_an_oil_without_a_combination_joins_with_all_to_be_seen(trial, by):
    tar = Candidate.objects.create(trial=trial, oil=Oil.objects.create(name="Harbour Tar"))
    made = decide(tar, outcome=JOINS, **by)
    assert made.combination is None
    assert made.sell_none_before.startswith("its limits are known. Burn one test candle")


def test_a_barred_fixing_holds_every_oil_on_it(trial, by):
    Burn.objects.filter(candle__code="W3E", number=5).update(wick_moved=True)
    made = decide(candidate(trial, "Kelp and Iron"), outcome=JOINS, **by)
    assert "Sticker is barred as a fixing (W3E, burn 5)" in made.sell_none_before
    slate = decide(candidate(trial, "Slate After Rain"), outcome=JOINS, **by)
    assert slate.sell_none_before == ""


def test_a_damaged_vessel_holds_every_oil_in_it(trial, by):
    Burn.objects.filter(candle__code="W3E", number=5).update(vessel_damage="crack")
    made = decide(candidate(trial, "Slate After Rain"), outcome=JOINS, **by)
    assert made.sell_none_before.startswith("this is settled. Its vessel is barred (W3E, burn 5)")


def test_at_most_one_of_a_theme_joins(trial, by):
    decide(candidate(trial, "Rebarbara K"), outcome=JOINS, **by)
    with pytest.raises(UnclearError, match="Rebarbara K is the one rhubarb of the line already"):
        decide(candidate(trial, "Rhubarb Cold Frame"), outcome=JOINS, **by)


def test_the_place_of_a_theme_is_free_again_once_the_first_is_dropped(trial, by):
    decide(candidate(trial, "Rebarbara K"), outcome=JOINS, **by)
    later = by | {"now": by["now"] + timedelta(hours=1)}
    decide(candidate(trial, "Rebarbara K"), outcome="dropped", **later)
    assert decide(candidate(trial, "Rhubarb Cold Frame"), outcome=JOINS, **later).pk


def test_the_last_decision_counts_and_the_first_is_kept(trial, by):
    slate = candidate(trial, "Slate After Rain")
    decide(slate, outcome="dropped", **by)
    decide(slate, outcome=JOINS, **by | {"now": by["now"] + timedelta(hours=1)})
    history = list(decisions_of(trial))
    assert [one.outcome for one in history] == [JOINS, "dropped"]
    assert [one.outcome for one in last_decisions(history)] == [JOINS]


def test_an_outcome_that_is_none_is_refused(trial, by):
    with pytest.raises(ValidationError, match="maybe"):
        decide(candidate(trial, "Slate After Rain"), outcome="maybe", **by)


def test_pressed_twice_it_is_decided_once(trial, by):
    slate, entry = candidate(trial, "Slate After Rain"), uuid4()
    first = decide(slate, outcome=JOINS, entry=entry, **by)
    assert decide(slate, outcome=JOINS, entry=entry, **by) == first
    assert Decision.objects.count() == 1


def test_one_page_decides_one_thing(trial, by):
    slate, entry = candidate(trial, "Slate After Rain"), uuid4()
    decide(slate, outcome=JOINS, entry=entry, **by)
    with pytest.raises(EntryConflictError, match="sent already"):
        decide(slate, outcome="dropped", entry=entry, **by)


class TestThePick:
    """All of it joins in one press, or none of it."""

    def test_all_join(self, trial, judgement, by):
        chosen = {candidate(trial, "Slate After Rain"): None, candidate(trial, "Rebarbara K"): None}
        made = join_the_line(trial, chosen=chosen, why="as judged", **by)
        assert [one.outcome for one in made] == [JOINS, JOINS]
        assert {one.judgement for one in made} == {judgement}

    def test_one_that_cannot_join_stops_all(self, trial, by):
        chosen = {
            candidate(trial, "Slate After Rain"): None,
            candidate(trial, "Kelp and Iron"): combination(trial, "W3E"),
        }
        with pytest.raises(UnclearError, match="broke a limit on flat cotton 6"):
            join_the_line(trial, chosen=chosen, **by)
        assert not Decision.objects.exists()

    def test_two_of_a_theme_stop_all(self, trial, by):
        chosen = {
            candidate(trial, "Rebarbara K"): None,
            candidate(trial, "Rhubarb Cold Frame"): None,
        }
        with pytest.raises(UnclearError, match="At most one rhubarb joins"):
            join_the_line(trial, chosen=chosen, **by)
        assert not Decision.objects.exists()

    def test_pressed_twice_they_join_once(self, trial, by):
        chosen, entry = {candidate(trial, "Slate After Rain"): None}, uuid4()
        first = join_the_line(trial, chosen=chosen, entry=entry, **by)
        assert join_the_line(trial, chosen=chosen, entry=entry, **by) == first
        assert Decision.objects.count() == 1


@pytest.mark.parametrize("table", [Judgement, Decision])
def test_what_was_judged_and_decided_is_never_changed(trial, judgement, by, table):
    decide(candidate(trial, "Slate After Rain"), outcome="dropped", **by)
    name = table._meta.db_table
    for statement in (
        f"UPDATE {name} SET trial_id = trial_id"
        if table is Judgement
        else f"UPDATE {name} SET why = ''",
        f"DELETE FROM {name}",
    ):
        with (
            pytest.raises(IntegrityError, match=f"a row of {name} is never"),
            transaction.atomic(),
            connection.cursor() as cursor,
        ):
            cursor.execute(statement)
