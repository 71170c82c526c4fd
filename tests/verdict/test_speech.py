"""The sentences of a verdict (`definition` throughout: the words are the house's own)."""

from dataclasses import replace

import pytest

from burning import clean_candle, made_of
from scoring import oil
from throwbench.rules import judge
from throwbench.verdict.settings import Settings
from throwbench.verdict.speech import headline, holds, next_steps, not_used, risk

DAY = clean_candle()[-1].lit_at.date()
NOTHING_MORE = "Nothing more to sniff: more testing would hardly change the choice."
TWO, FOUR = Settings(choose=2), Settings(choose=4)


def said_of(*pick, asked=1, ranked=3, clear_winner=None, best=0.58, level=()):
    return headline(
        pick, asked=asked, ranked=ranked, clear_winner=clear_winner, best=best, level=level
    )


def test_the_headline_names_the_pick():
    assert said_of("A", "B", "C", asked=3) == "The pick: A, B and C."


def test_where_the_first_are_level_the_headline_says_that_nobody_is_ahead():
    assert said_of("A", level=("A", "B")) == (
        "No clear winner yet: A and B are level, nobody is ahead."
    )
    assert said_of("A", clear_winner="A", level=("A", "B")).startswith("Clear winner: A")
    assert said_of("A", "B", asked=2, level=("A", "B")) == "The pick: A and B."


def test_the_headline_says_where_fewer_can_join_than_were_asked_for():
    assert said_of("A", "B", asked=4) == "The pick: A and B. Only two of four can join."
    assert said_of("A", asked=2) == "The pick: A. Only one of two can join."


def test_of_one_place_the_headline_says_if_there_is_a_clear_winner():
    assert said_of("A", clear_winner="A", best=0.93) == "Clear winner: A, the best 93 in 100."
    assert said_of("A") == "No clear winner yet: A is ahead, the best 58 in 100."


def test_one_candidate_alone_is_no_winner():
    words = "The pick: A. It stands alone: nothing to compare it with."
    assert said_of("A", ranked=1, best=1.0) == words
    assert said_of("A", ranked=1, asked=4, best=1.0) == words


def test_without_a_pick_the_headline_says_why():
    words = "No pick: nothing that may join has a score of liking or hot throw that counts."
    assert said_of(ranked=0, best=None) == words
    assert said_of(asked=4, ranked=0, best=None) == words


def test_the_risk_of_one_place_is_what_it_loses_on_average():
    found = [oil("A"), oil("B", "too few sniffs", belongs=0.3)]
    assert risk(found, loss=0.31, settings=Settings()) == (
        "On average it loses about 0.3 step of worth against the best one."
    )


def test_there_is_no_risk_without_a_pick():
    words = "There is nothing to choose by yet."
    assert risk([], loss=None, settings=FOUR) == words
    assert risk([oil("A")], loss=None, settings=FOUR) == words
    barred = [oil("A", "barred", belongs=None)]
    assert risk(barred, loss=0.0, settings=FOUR) == words


@pytest.mark.parametrize("settings", [Settings(), FOUR])
def test_one_candidate_alone_has_no_risk_in_the_choice(settings):
    alone = [oil("A", belongs=1.0), oil("R", "reference", belongs=None)]
    assert risk(alone, loss=0.0, settings=settings) == (
        "Whether it is good enough, its own scores tell."
    )


LOSES = "on average the pick loses about 0.2 step of worth against the ideal"


@pytest.mark.parametrize(
    ("belongs", "words"),
    [
        ((0.95, 0.92), f"Each of them belongs, at least 92 in 100; {LOSES} two."),
        ((1.0, 0.999), f"Each of them belongs, over 99 in 100; {LOSES} two."),
        ((0.97,), f"It belongs, 97 in 100; {LOSES} one."),
        ((0.97, 0.6), f"Only the second place is open: {LOSES} two."),
        ((0.97, 0.95, 0.6), f"Only the third place is open: {LOSES} three."),
        ((0.97, 0.7, 0.6), f"The last two places are open: {LOSES} three."),
        ((0.7, 0.6), f"All its places are open: {LOSES} two."),
        ((0.08, 0.07), f"All its places are open: {LOSES} two."),
        ((0.6,), f"All its places are open: {LOSES} one."),
    ],
)
def test_the_risk_says_which_places_are_open(belongs, words):
    found = [oil(f"O{i}", belongs=chance) for i, chance in enumerate(belongs)]
    found += [oil("Z", "out of reach", belongs=0.05)]
    assert risk(found, loss=0.21, settings=TWO) == words


def test_an_open_place_that_costs_little_is_said_to():
    cheap = oil("B", belongs=0.6, equally_good=True)
    dear = oil("C", belongs=0.6)
    rival = oil("Z", "equally good", belongs=0.4, equally_good=True)
    words = f"Only the second place is open, and being wrong there costs little: {LOSES} two."
    assert risk([oil("A"), cheap, rival], loss=0.2, settings=TWO) == words
    both = risk([cheap, dear, rival], loss=0.2, settings=TWO)
    assert both == f"All its places are open: {LOSES} two."
    only_open = risk([cheap, replace(cheap, candidate="D"), rival], loss=0.2, settings=TWO)
    assert only_open == (
        f"All its places are open, and being wrong there costs little: {LOSES} two."
    )


def limits_of(*combinations, until=8, **changes):
    burns = [burn for made in combinations for burn in clean_candle(made.candle)[:until]]
    return judge([replace(b, **changes) for b in burns], combinations=combinations, day=DAY)


CLEAN = limits_of(made_of())
UNFINISHED = limits_of(made_of(), until=3)
BROKEN = limits_of(made_of(), vessel_damage="leak")


def test_a_pick_that_broke_nothing_is_held_by_nothing():
    assert holds([oil("A", limits=CLEAN)]) == ()


def test_a_broken_combination_binds_whatever_its_place():
    (words,) = holds([oil("A", "barred", belongs=None, limits=BROKEN)])
    assert words == BROKEN[0].sentence()
    assert "leak" in words


def test_a_pick_whose_limits_are_not_known_is_not_sold_yet():
    (words,) = holds([oil("A", limits=UNFINISHED)])
    assert words == f"A: sell none before its limits are known. {UNFINISHED[0].missing}"
    assert UNFINISHED[0].missing


def test_without_a_burn_log_a_pick_is_not_sold_yet():
    assert holds([oil("A")]) == (
        "A: sell none before its limits are known. A burn log to the end line is missing.",
    )
    assert holds([oil("A", limits=BROKEN)])[1].endswith("A burn log to the end line is missing.")


def test_one_combination_that_broke_nothing_is_enough_to_sell():
    assert holds([oil("A", limits=(*UNFINISHED, *CLEAN))]) == ()


def test_only_the_pick_waits_for_its_limits():
    assert holds([oil("A", "out of reach", belongs=0.05, limits=UNFINISHED)]) == ()


def test_broken_limits_are_said_before_what_is_missing():
    words = holds([oil("A"), oil("B", "barred", belongs=None, limits=BROKEN)])
    assert words[0] == BROKEN[0].sentence()
    assert words[1].startswith("A: sell none before")


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ((), ()),
        (("one.",), ("Not used: one.",)),
        (("one.", "two."), ("Not used: one.", "Not used: two.")),
        (
            ("one.", "two.", "three."),
            ("Not used: one.", "Not used: two.", "Not used: 1 more, listed below."),
        ),
    ],
)
def test_two_rows_that_were_not_used_are_named_and_the_others_counted(rows, words):
    assert not_used(rows) == words


def steps_of(*candidates, clear_winner=None):
    return next_steps(candidates, clear_winner=clear_winner)


def test_a_settled_choice_needs_no_more_sniffs():
    found = (oil("A", limits=CLEAN), oil("B", "out of reach", belongs=0.05))
    assert steps_of(*found) == (NOTHING_MORE,)


def test_what_the_limits_of_a_pick_still_need_is_the_next_step():
    rival = oil("B", "out of reach", belongs=0.05)
    assert steps_of(oil("A", limits=UNFINISHED), rival) == (UNFINISHED[0].missing,)
    assert steps_of(oil("A"), rival) == ("Burn A to the end line and log it.",)
    assert steps_of(oil("A", limits=(*UNFINISHED, *CLEAN)), rival) == (NOTHING_MORE,)
    assert steps_of(oil("A", limits=CLEAN), replace(rival, limits=UNFINISHED)) == (NOTHING_MORE,)


def test_an_oil_barred_with_its_vessel_stays_open_for_another_vessel():
    found = (
        oil("A", limits=CLEAN),
        oil("C", "out of reach", belongs=0.05),
        oil("B", "barred", belongs=None, limits=BROKEN),
    )
    assert steps_of(*found) == ("B: pour one test candle in another vessel, or drop it.",)


def test_an_oil_without_a_score_is_sniffed_or_poured_on_a_larger_wick():
    others = (oil("A", limits=CLEAN), oil("C", "out of reach", belongs=0.05))
    unsniffed = oil("B", "not ranked", belongs=None)
    assert steps_of(*others, unsniffed) == (
        "B: no score of liking or hot throw counts yet. Sniff it in a nose burn after its cure.",
    )
    larger = "Pour one test candle on a larger wick and sniff that."
    tunnels = replace(unsniffed, not_ranked_because="its scores are from a candle that tunnels")
    assert steps_of(*others, tunnels) == (f"B: tunnels, so its scores do not rank it. {larger}",)
    unscored = replace(unsniffed, not_ranked_because="it tunnels and has no score that counts")
    assert steps_of(*others, unscored) == (
        f"B: tunnels, and no score of liking or hot throw counts. {larger}",
    )


def test_too_few_sniffs_are_taken_again():
    found = (
        oil("A", limits=CLEAN, belongs=0.6),
        oil("B", "too few sniffs", belongs=0.3),
        oil("C", "too few sniffs", belongs=0.2),
    )
    assert steps_of(*found) == (
        "Too few sniffs to place B and C: sniff again, same assessors, another evening.",
    )


def test_an_open_place_without_one_near_rival_is_sniffed_again():
    first = oil("A", limits=CLEAN, belongs=0.85)
    rivals = [oil(name, "out of reach", belongs=0.05) for name in "BCD"]
    again = "Too few sniffs to place A: sniff again, same assessors, another evening."
    assert steps_of(first, *rivals) == (again,)
    assert steps_of(replace(first, chance_to_belong=0.08, placed=True), *rivals) == (again,)
    assert steps_of(first, *rivals, clear_winner="A") == (NOTHING_MORE,)
    assert steps_of(replace(first, equally_good=True), *rivals) == (NOTHING_MORE,)


def test_equally_good_ones_on_both_sides_of_the_line_are_chosen_by_other_things():
    inside = oil("A", limits=CLEAN, belongs=0.6, equally_good=True)
    outside = oil("B", "equally good", belongs=0.4, equally_good=True)
    held = oil("C", "held back by its theme", belongs=0.4, equally_good=True)
    words = "A or B: equally good. Choose by price, papers or easy wick."
    assert steps_of(inside, outside, held) == (words,)
    assert steps_of(inside, held) == (NOTHING_MORE,)
    assert words not in steps_of(oil("D", limits=CLEAN), outside)


def test_one_alone_needs_a_second_beside_it():
    alone = "Score a second candidate beside it: alone it cannot be compared."
    assert steps_of(oil("A", limits=CLEAN, belongs=1.0)) == (alone,)


def test_reference_candles_alone_need_a_candidate():
    words = "Score a candidate that may join: a reference candle is never picked."
    assert steps_of(oil("R", "reference", belongs=None)) == (words,)
    assert steps_of() == (words,)


def test_an_oil_that_may_still_join_is_enough_to_go_on():
    assert len(steps_of(oil("E", "not ranked", belongs=None))) == 1
    assert len(steps_of(oil("D", "barred", belongs=None))) == 1


def test_steps_stand_in_the_order_of_what_binds():
    found = steps_of(
        oil("A", belongs=0.6, equally_good=True),
        oil("B", "equally good", belongs=0.4, equally_good=True),
        oil("C", "too few sniffs", belongs=0.3),
        oil("D", "barred", belongs=None),
        oil("E", "not ranked", belongs=None),
    )
    assert [words.split(" ")[0] for words in found] == ["Burn", "D:", "E:", "Too", "A"]


SPLIT = "loved by 2, disliked by 2"
OTHER_NOSES = (
    "Opinions split on B: more sniffs of these noses do not help, other noses do, or a decision "
    "whom it is for."
)


@pytest.mark.parametrize("place", ["in the pick", "equally good", "too few sniffs"])
def test_where_opinions_split_other_noses_are_asked_for(place):
    found = [oil("A", belongs=0.6), oil("B", place, belongs=0.4, split=SPLIT)]
    steps = steps_of(*found)
    assert OTHER_NOSES in steps
    assert not any("Too few sniffs" in step and "B" in step for step in steps)


@pytest.mark.parametrize(
    "place", ["out of reach", "barred", "not ranked", "held back by its theme"]
)
def test_a_split_on_one_that_does_not_matter_asks_for_nothing(place):
    found = [oil("A"), oil("B", place, belongs=0.03, split=SPLIT)]
    assert OTHER_NOSES not in steps_of(*found)


def test_one_on_which_opinions_split_is_not_chosen_by_price():
    found = [
        oil("A", belongs=0.6, equally_good=True),
        oil("B", "equally good", belongs=0.4, equally_good=True, split=SPLIT),
    ]
    assert not any("equally good" in step for step in steps_of(*found))


def test_groups_that_no_nose_links_are_to_be_sniffed_together_first():
    tied = [
        oil("A", belongs=0.6, equally_good=True),
        oil("B", "equally good", belongs=0.4, equally_good=True),
    ]
    steps = next_steps(tied, clear_winner=None, unlinked=(("A",), ("B",)))
    assert steps[-1] == "Sniff one of each together, by the same noses: A and B."
    assert not any("equally good" in step for step in steps)
