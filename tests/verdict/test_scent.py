"""From scores to draws: which terms the rows carry, and what is told of each candidate."""

from dataclasses import replace

import numpy as np
import pytest

from scoring import believed, score, scores
from throwbench.verdict.result import Band
from throwbench.verdict.scent import ask, chance_inside, opinions_split, raw, summarise

ONE = {"scale": (1, 5), "draws": 100}


def asked(rows, *candidates, attribute="liking", **changes):
    return ask(rows, attribute=attribute, candidates=candidates or ("A", "B"), **(ONE | changes))


def terms(rows, *candidates):
    return list(asked(rows, *candidates).posterior.terms)


def test_without_a_score_on_an_attribute_there_is_no_answer():
    assert asked([]) is None
    assert asked(scores({"A": "3"}), attribute="hot_throw") is None
    assert asked([score(None, "A")]) is None


def test_a_candidate_without_a_score_is_drawn_from_the_others():
    """`definition`: it is in the answer, with more doubt than one that was scored."""
    found = asked(scores({"A": "44 43", "B": "22 32"}), "A", "B", "C")
    assert found.posterior.candidates == ("A", "B", "C")
    assert found.scores == 8
    assert found.attribute == "liking"
    spread = found.expected().std(axis=0)
    assert spread[2] > 1.2 * max(spread[:2])


def test_the_answer_follows_the_scores_and_not_the_order_of_the_candidates():
    rows = scores({"A": "44 54", "B": "22 12"})
    one, other = asked(rows, "A", "B").expected(), asked(rows, "B", "A").expected()
    assert one.shape == (100, 2)
    assert one[:, 0].mean() > one[:, 1].mean() + 1
    assert other[:, 1].mean() > other[:, 0].mean() + 1


def test_draws_link_and_random_state_are_passed_on():
    rows = scores({"A": "44 54", "B": "22 12"})
    assert asked(rows, draws=60).expected().shape == (60, 2)
    assert asked(rows, link="probit").posterior.link == "probit"
    assert asked(rows).posterior.link == "logit"
    assert (asked(rows).expected() == asked(rows, random_state=0).expected()).all()
    assert (asked(rows).expected() != asked(rows, random_state=1).expected()).any()
    assert ask(rows, attribute="liking", candidates=("A", "B"), scale=(1, 5)).expected().shape == (
        4000,
        2,
    )


def test_rows_of_another_attribute_and_without_a_score_are_left_out():
    rows = scores({"A": "4", "B": "2"})
    noise = [score(1, "A", attribute="hot_throw"), score(None, "B")]
    assert (asked([*rows, *noise]).expected() == asked(rows).expected()).all()


def once(noses=4):
    return scores({"A": "4 3 4 5"[: 2 * noses - 1], "B": "2 3 2 1"[: 2 * noses - 1]})


def sat(rows, how):
    return [replace(row, sitting=how(row)) for row in rows]


def test_one_room_one_evening_and_one_sniff_carry_the_assessors_alone():
    assert terms(sat(once(), lambda row: "May 9")) == ["assessor"]


def test_several_rooms_are_a_term():
    rows = [replace(row, room="loft" if i % 2 else "kitchen") for i, row in enumerate(once())]
    assert "room" in terms(rows)


def test_several_evenings_of_a_nose_are_a_term_if_each_has_two_scores():
    rows = sat(scores({"A": "44 33", "B": "22 33"}), lambda row: row.sitting[-1])
    assert "sitting" in terms(rows)
    assert "sitting" not in terms(rows[:-1])
    assert "sitting" not in terms(sat(rows, lambda row: "May 9"))


def test_an_evening_that_is_a_room_under_another_name_is_no_term():
    rows = sat(scores({"A": "44 33", "B": "22 33"}), lambda row: row.sitting[-1])
    walked = [replace(row, room=row.sitting) for row in rows]
    assert "sitting" not in terms(walked)
    assert "room" in terms(walked)


def test_two_test_candles_of_an_oil_are_a_term():
    rows = once()
    assert "test candle" not in terms(rows)
    rows[0] = replace(rows[0], candle="A2")
    assert "test candle" in terms(rows)


@pytest.mark.parametrize(("rows", "told"), [(12, True), (11, False)])
def test_an_own_taste_is_told_from_one_and_a_half_scores_a_nose_and_oil(rows, told):
    """`definition`: 4 noses at 2 oils are 8 pairs, of which 12 scores are one and a half each."""
    again = once() + once()
    found = asked(again[:rows])
    assert found.own_taste is told
    assert ("own taste" in found.posterior.terms) is told


def test_a_room_that_is_not_in_the_scores_changes_nothing():
    rows = [
        replace(row, room="loft" if row.assessor == "Odd" else "kitchen")
        for row in scores({"A": "55 33 33", "B": "44 22 22"})
    ]
    found = asked(rows)
    assert (found.expected("attic") == found.expected()).all()
    assert found.expected("loft").mean() > found.expected().mean()
    assert found.expected("kitchen").mean() < found.expected().mean()


DRAWS = believed(
    np.arange(101.0)[:, None] / 25 + [0, 1], attribute="hot_throw", rooms={"loft": 1.0}
)


def test_intervals_are_the_quantiles_of_the_draws():
    """`definition`: of 0, 1, ... 100 in twenty-fifths the quantile q is 4 q."""
    told = summarise(DRAWS, bands=(), counted=(), shown=())["A"]
    assert told.attribute == "hot_throw"
    assert told.expected == pytest.approx(2.0)
    assert told.middle == pytest.approx(2.0)
    for interval, low in (
        (told.eight_in_ten, 0.1),
        (told.nine_in_ten, 0.05),
        (told.nineteen_in_twenty, 0.025),
    ):
        assert (interval.low, interval.high) == (pytest.approx(4 * low), pytest.approx(4 - 4 * low))
    assert told.chance_in_band is None
    second = summarise(DRAWS, bands=(), counted=(), shown=())["B"]
    assert second.middle == pytest.approx(3.0)
    assert second.eight_in_ten.low == pytest.approx(1.4)
    assert second.nine_in_ten.high == pytest.approx(4.8)
    assert second.nineteen_in_twenty.low == pytest.approx(1.1)


def test_expected_is_the_mean_of_the_draws_and_middle_their_middle():
    told = summarise(believed([[1.0], [1.0], [4.0]]), bands=(), counted=(), shown=())["A"]
    assert (told.expected, told.middle) == (2.0, 1.0)


def test_raw_scores_stand_behind_the_result():
    counted = [score(4, "A", attribute="hot_throw"), score(2, "A", attribute="hot_throw")]
    shown = [score(1, "A", attribute="hot_throw"), score(5, "A"), score(5, "B")]
    told = summarise(DRAWS, bands=(), counted=counted, shown=shown)
    assert (told["A"].counted, told["A"].not_counted) == ((2, 4), (1,))
    assert (told["B"].counted, told["B"].not_counted) == ((), ())


def test_only_hot_throw_has_a_chance_to_be_right():
    bands = (Band(1.0, 2.0),)
    told = summarise(DRAWS, bands=bands, counted=(), shown=())
    assert told["A"].chance_in_band == pytest.approx(26 / 101)
    liking = believed([[1.0, 2.0]])
    assert summarise(liking, bands=bands, counted=(), shown=())["A"].chance_in_band is None


def test_inside_means_inside_the_band_of_every_room_limits_included():
    """`definition`: of 101 draws in twenty-fifths, 26 lie from 1 to 2, both included."""
    everywhere, loft = Band(1.0, 2.0), Band(2.5, 3.0, room="loft")
    assert chance_inside(DRAWS, [everywhere]) == pytest.approx([26 / 101, 26 / 101])
    assert chance_inside(DRAWS, [loft]) == pytest.approx([13 / 101, 13 / 101])
    assert chance_inside(DRAWS, [everywhere, loft]) == pytest.approx([13 / 101, 13 / 101])


def test_raw_scores_are_those_of_one_candidate_and_attribute_in_order():
    rows = [score(4, "A"), score(None, "A"), score(2, "A"), score(3, "B")]
    rows += [score(5, "A", attribute="hot_throw")]
    assert raw(rows, "A", "liking") == (2, 4)
    assert raw(rows, "C", "liking") == ()


@pytest.mark.parametrize(
    ("given", "scale", "words"),
    [
        ("5 4 1 2", (1, 5), "loved by 2, disliked by 2"),
        ("5 4 5 1 2 1", (1, 5), "loved by 3, disliked by 3"),
        ("5 4 1 3", (1, 5), None),
        ("55 12", (1, 5), "loved by 1, disliked by 1"),
        ("55 1", (1, 5), None),
        ("5 1", (1, 5), None),
        ("55 44", (1, 5), None),
        ("55 11 33", (1, 5), None),
        ("5 3 1 2", (1, 5), None),
        ("5 4 3 3", (1, 5), None),
        ("54 45 12 21", (1, 5), "loved by 2, disliked by 2"),
        ("53 45 12 21", (1, 5), None),
        ("54 45 13 21", (1, 5), None),
        ("8 9 2 1", (0, 10), "loved by 2, disliked by 2"),
        ("7 9 2 1", (0, 10), None),
        ("8 9 3 1", (0, 10), None),
        ("8 9 0 0", (0, 10), "loved by 2, disliked by 2"),
        ("6 7 2 1", (1, 7), "loved by 2, disliked by 2"),
        ("5 7 2 1", (1, 7), None),
        ("6 7 3 1", (1, 7), None),
    ],
)
def test_opinions_split_where_two_love_and_two_dislike_every_time(given, scale, words):
    rows = scores({"A": given, "B": "5 5 1 1"})
    assert opinions_split(rows, "A", scale) == words


def test_only_scored_liking_splits():
    rows = scores({"A": "5 4 1 2"}, attribute="hot_throw")
    assert opinions_split(rows, "A", (1, 5)) is None
    unsure = [*scores({"A": "5 4 1 2"}), score(None, "A", assessor="Åse")]
    assert opinions_split(unsure, "A", (1, 5)) == "loved by 2, disliked by 2"
