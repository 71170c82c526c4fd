"""What the scores on one attribute say (`definition` throughout, unless marked)."""

from dataclasses import replace

import pytest

from scoring import score, scores
from throwbench.science.errors import UnclearError
from throwbench.verdict.result import Band, Interval
from throwbench.verdict.scent_answer import ScentAnswer, ScentOfCandidate, scent_answer
from throwbench.verdict.settings import Settings

ALIKE = {"A": "33 34", "B": "34 33", "C": "43 33"}
APART = {"A": "22 12", "B": "55 55", "C": "22 21"}


def answered(rows, *, attribute="liking", scale=(1, 5), link="logit", **settings):
    return scent_answer(
        rows,
        attribute=attribute,
        scale=scale,
        settings=Settings(**({"draws": 400} | settings)),
        link=link,
    )


def test_candidates_stand_from_the_highest_worth_down():
    found = answered(scores(APART))
    assert found.candidates[0].candidate == "B"
    worth = [item.expected for item in found.candidates]
    assert worth == sorted(worth, reverse=True)
    assert found.clear_winner == "B"
    assert found.attribute == "liking"
    assert (found.scale, found.choose) == ((1, 5), 1)
    assert (found.counted, found.noses) == (12, 2)
    assert found.candidates[0].scores == (5, 5, 5, 5)
    assert set(found.spreads) >= {"within", "assessor", "candidate"}
    assert all(0 < sd < 5 for sd in found.spreads.values())


def test_chances_of_all_sum_to_the_places_and_to_one():
    found = answered(scores(ALIKE), choose=2)
    assert sum(item.chance_to_belong for item in found.candidates) == pytest.approx(2)
    assert sum(item.chance_best for item in found.candidates) == pytest.approx(1)
    assert found.clear_winner is None


def test_the_interval_holds_nine_in_ten_and_the_expected_score():
    for item in answered(scores(ALIKE)).candidates:
        assert 1 <= item.interval_90.low < item.expected < item.interval_90.high <= 5
        assert item.chance_in_band is None


def test_a_band_ranks_by_how_far_the_expected_score_lies_outside():
    found = answered(scores(APART), bands=(Band(1.0, 2.5),))
    assert found.candidates[-1].candidate == "B"
    assert found.candidates[-1].chance_in_band < 0.1
    assert found.candidates[0].chance_in_band > 0.7


def test_a_theme_lets_one_of_its_oils_join():
    found = answered(scores(APART), choose=2, groups={"A": "smoke", "B": "smoke"})
    chance = {item.candidate: item.chance_to_belong for item in found.candidates}
    assert chance["A"] + chance["B"] == pytest.approx(1)
    assert chance["C"] == 1.0


def test_a_band_for_a_room_without_a_score_is_a_sentence():
    with pytest.raises(UnclearError, match="A band is given for attic"):
        answered(scores(ALIKE), bands=(Band(1, 2, room="attic"),))
    other = [*scores(ALIKE), score(3, "A", attribute="hot_throw", room="attic")]
    with pytest.raises(UnclearError, match="The rooms are loft"):
        answered(other, bands=(Band(1, 2, room="attic"),))


def test_an_attribute_without_a_score_is_a_sentence():
    with pytest.raises(UnclearError) as refused:
        answered(scores(ALIKE), attribute="hot_throw")
    assert str(refused.value) == (
        "No score of hot_throw counts. The scores are of liking. Ask for one of these attributes."
    )
    with pytest.raises(UnclearError) as refused:
        answered([])
    assert str(refused.value) == (
        "No score of liking counts. There is no score at all. Check the file."
    )


def test_an_attribute_of_which_no_score_counts_says_why():
    given = [score(3, counts=False), score(4, cure_days=3), score(4, cure_days=4)]
    with pytest.raises(UnclearError) as refused:
        answered(given, cure_days=10)
    assert str(refused.value) == (
        "No score of liking counts. An answer needs at least one; shown, not counted: "
        "2 still curing and 1 taken out by the maker. "
        "Sniff again, or check what was written down of these scores."
    )


def test_the_same_question_has_the_same_answer_and_chance_is_a_setting():
    rows = scores(ALIKE)
    assert answered(rows) == answered(rows)
    assert answered(rows) != answered(rows, random_state=1)
    assert answered(rows) != answered(rows, draws=200)
    assert answered(rows) != answered(rows, link="probit")


def test_rows_of_another_attribute_do_not_count():
    rows = scores(ALIKE)
    noise = [score(1, "A", attribute="hot_throw", assessor="Åse"), score(None, "B")]
    found = answered([*rows, *noise])
    assert replace(found, not_counted=0) == answered(rows)
    assert (found.counted, found.not_counted) == (12, 1)  # the second one cannot tell


def told(chance, expected=3.4, *, candidate="A", given=(3, 4)):
    return ScentOfCandidate(
        candidate=candidate,
        expected=expected,
        interval_90=Interval(2.5, 4.2),
        chance_in_band=None,
        chance_to_belong=chance,
        chance_best=chance,
        scores=given,
    )


TWO = ScentAnswer(
    attribute="liking",
    scale=(1, 5),
    choose=1,
    candidates=(told(0.62), told(0.38, candidate="B")),
    clear_winner=None,
    counted=12,
    noses=3,
    not_counted=0,
    spreads={},
    own_taste=True,
)
ITS_SCORE = "Its expected score is 3.4, 9 times in 10 between 2.5 and 4.2, on a scale of 1 to 5."


def test_who_is_ahead_is_said_with_its_chance_and_its_doubt():
    assert TWO.sentence() == (
        f"No clear winner yet: A is ahead, the best 62 in 100. {ITS_SCORE} "
        "That rests on 12 scores of 3 assessors."
    )


def test_a_clear_winner_is_said_with_its_own_figures():
    won = replace(TWO, clear_winner="A", candidates=(told(0.97), told(0.03, candidate="B")))
    assert won.sentence().startswith(f"Clear winner: A, the best 97 in 100. {ITS_SCORE}")
    second = replace(TWO, clear_winner="B", candidates=(told(0.1), told(0.9, 4.0, candidate="B")))
    assert second.sentence().startswith(
        "Clear winner: B, the best 90 in 100. Its expected score is 4.0,"
    )


def test_one_candidate_stands_alone():
    alone = replace(TWO, candidates=(told(1.0),))
    assert alone.sentence().startswith(f"A stands alone: nothing to compare it with. {ITS_SCORE}")


def test_one_nose_is_said_to_be_very_little():
    assert (
        replace(TWO, counted=1, noses=1)
        .sentence()
        .endswith(
            " That rests on 1 score of 1 assessor: very little, since another may judge otherwise."
        )
    )


def test_scores_that_do_not_count_are_counted_too():
    assert replace(TWO, not_counted=3).sentence().endswith(" of 3 assessors. 3 more do not count.")


def test_what_the_panel_cannot_tell_is_said():
    once = replace(TWO, own_taste=False)
    assert once.sentence().endswith(
        " of 3 assessors. An assessor's own taste cannot be told from chance: "
        "too few second sniffs."
    )
    without = replace(TWO, candidates=(*TWO.candidates, told(0.1, candidate="C", given=())))
    assert without.sentence().endswith(" of 3 assessors. C: no score yet.")
    assert (
        replace(without, own_taste=False)
        .sentence()
        .endswith(
            " C: no score yet. An assessor's own taste cannot be told from chance: "
            "too few second sniffs."
        )
    )


def test_an_own_taste_can_be_told_where_there_are_second_sniffs():
    assert answered(scores(ALIKE)).own_taste
    assert not answered(scores({"A": "3 4", "B": "4 3"})).own_taste


def test_the_link_is_logistic_unless_it_is_named():
    rows, settings = scores(ALIKE), Settings(draws=400)
    found = scent_answer(rows, attribute="liking", scale=(1, 5), settings=settings)
    assert found == answered(rows, link="logit")


def test_one_score_has_an_answer():
    found = answered([score(5, "A")])
    assert found.clear_winner is None
    assert (found.counted, found.noses) == (1, 1)
    assert found.candidates[0].interval_90.high - found.candidates[0].interval_90.low > 2
    assert found.sentence().startswith("A stands alone")


def test_scores_that_do_not_count_are_left_out_and_said():
    early = [score(5, "A", cure_days=5)] * 3
    late = [score(2, "A", cure_days=12), score(4, "B", cure_days=12)]
    found = scent_answer(
        [*early, *late], attribute="liking", scale=(1, 5), settings=Settings(cure_days=10)
    )
    assert (found.counted, found.not_counted) == (2, 3)
    assert found.candidates[0].candidate == "B"
