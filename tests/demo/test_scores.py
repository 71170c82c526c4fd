"""What is planted in the scores, and how the panel sat."""

from collections import Counter
from statistics import fmean

import pytest

from throwbench.demo import generate
from throwbench.demo.plan import BY_CODE, EVENINGS
from throwbench.demo.truths import NOSES, OILS

MANY = range(30)


@pytest.fixture(scope="module")
def scores():
    return generate().scores


@pytest.fixture(scope="module")
def many():
    return [score for seed in MANY for score in generate(seed=seed).scores]


def mean(scores, **wanted):
    """Mean score of the rows whose fields are as wanted; a value may be a predicate."""
    given = [
        score.score
        for score in scores
        if score.score is not None
        and all(
            want(getattr(score, name)) if callable(want) else getattr(score, name) == want
            for name, want in wanted.items()
        )
    ]
    return fmean(given)


def test_nine_oils_of_four_suppliers_and_one_reference():
    assert Counter(oil.role for oil in OILS.values()) == {"candidate": 9, "reference": 1}
    assert len({oil.supplier for oil in OILS.values() if oil.role == "candidate"}) == 4
    assert sum(oil.group == "rhubarb" for oil in OILS.values()) == 3


def test_codes_have_three_characters_that_cannot_be_taken_for_one_another():
    assert all(len(code) == 3 and not set("0O1I") & set(code) for code in BY_CODE)


def test_six_noses_met_every_oil_twice_in_two_rooms_after_12_to_21_days_of_cure(scores):
    for oil, truth in OILS.items():
        cured = [
            score
            for score in scores
            if score.candidate == oil and score.attribute == "hot_throw" and score.candle != "W3E"
            if truth.role == "reference" or 12 <= (score.cure_days or 0) <= 21
        ]
        assert Counter(score.assessor for score in cured) == dict.fromkeys(NOSES, 2)
        assert len({score.room for score in cured}) == 2


def test_sniffs_before_the_cure_ended_are_of_the_rhubarbs_alone(scores):
    early = {score.candidate for score in scores if (score.cure_days or 0) < 10}
    assert early == {name for name, oil in OILS.items() if oil.group == "rhubarb"}


def test_a_sitting_is_one_assessors_walk_round_three_rooms(scores):
    for sitting in {score.sitting for score in scores}:
        rows = [score for score in scores if score.sitting == sitting]
        assert len({row.assessor for row in rows}) == 1
        assert {row.room for row in rows} == {"loft", "kitchen", "back room"}


def test_noses_begin_in_different_rooms(scores):
    first = {}
    for score in scores:
        first.setdefault(score.sitting, score.room)
    starts = Counter((sitting.rsplit(maxsplit=1)[0], room) for sitting, room in first.items())
    assert max(starts.values()) == 2


def test_one_score_was_given_three_minutes_after_another(scores):
    assert [s.clean_air_min for s in scores if s.clean_air_min < 10] == [3]


def test_every_nose_burn_that_was_sniffed_stands_in_the_burn_log():
    example = generate()
    lit = {(burn.candle, burn.lit_at.day) for burn in example.burns if burn.kind == "nose"}
    sniffed = {(code, evening.day) for evening in EVENINGS for _, code in evening.seats()}
    assert lit == sniffed


def test_sniffs_of_a_lit_candle_fall_within_its_burn():
    example = generate()
    shortest_min = min(
        (burn.out_at - burn.lit_at).total_seconds() / 60
        for burn in example.burns
        if burn.kind == "nose"
    )
    assert max(score.minutes_lit or 0 for score in example.scores) < shortest_min


def test_the_same_candle_is_weaker_in_the_loft_than_in_the_back_room(many):
    """`definition`: 0.7 step between the rooms; 30 seeds x 12 sniffs leave about 0.1 of chance."""
    loft = mean(many, candle="K7F", attribute="hot_throw", room="loft")
    small = mean(many, candle="K7F", attribute="hot_throw", room="back room")
    assert 0.3 < small - loft < 1.0


def test_rebarbara_k_is_weak_after_5_days_and_strong_after_12(many):
    """`definition`: 1.9 steps."""
    rhubarb = {"candle": "T4H", "attribute": "hot_throw"}
    early, late = (mean(many, **rhubarb, cure_days=days) for days in (5, lambda d: d > 10))
    assert late - early > 1.2


def test_two_love_ferry_rope_and_three_hate_it(many):
    liking = {name: mean(many, candle="H6X", attribute="liking", assessor=name) for name in NOSES}
    assert [name for name, given in liking.items() if given > 4] == ["Pernille", "Tor"]
    assert [name for name, given in liking.items() if given < 2.2] == ["Odd", "Maren", "Åse"]


@pytest.mark.parametrize("attribute", ["liking", "hot_throw", "cold_throw"])
def test_pernille_uses_the_upper_end_on_everything(many, attribute):
    """`definition`: one step, less what five steps cut off above."""
    apart = {"attribute": attribute, "candle": lambda code: code != "H6X"}
    hers = mean(many, **apart, assessor="Pernille")
    others = mean(many, **apart, assessor=lambda name: name != "Pernille")
    assert 0.5 < hers - others < 1.2
