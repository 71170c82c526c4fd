"""What the scores on one attribute say (`definition` throughout, unless marked)."""

from dataclasses import replace

import pytest

from scoring import score, scores
from throwbench.science.errors import UnclearError
from throwbench.verdict.result import Band, Interval
from throwbench.verdict.scent_answer import scent_answer
from throwbench.verdict.scent_result import ScentAnswer, ScentOfCandidate
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


def told(chance, expected=3.4, *, candidate="A", given=(3, 4), place="in the pick", **changes):
    return ScentOfCandidate(
        candidate=candidate,
        expected=expected,
        interval_90=Interval(2.5, 4.2),
        chance_in_band=None,
        chance_to_belong=chance,
        chance_best=chance,
        place=place,
        placed=changes.pop("placed", False),
        equally_good=changes.pop("equally_good", False),
        split=changes.pop("split", None),
        scores=given,
    )


TWO = ScentAnswer(
    attribute="liking",
    scale=(1, 5),
    choose=1,
    bands=(),
    candidates=(told(0.62), told(0.38, candidate="B")),
    clear_winner=None,
    level=(),
    unlinked=(),
    room_per_nose=None,
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


def test_where_nobody_is_ahead_no_one_is_said_to_be():
    level = replace(TWO, level=("A", "B"))
    assert level.sentence() == (
        "No clear winner yet: A and B are level, nobody is ahead. The expected score of A is 3.4, "
        "9 times in 10 between 2.5 and 4.2, on a scale of 1 to 5. "
        "That rests on 12 scores of 3 assessors."
    )


def test_scores_all_alike_leave_all_level_in_the_order_given():
    rows = scores(dict.fromkeys("BDAC", "33 33 33"))
    found = answered(rows, draws=4000)
    assert found.level == ("B", "D", "A", "C")
    assert [item.candidate for item in found.candidates] == ["B", "D", "A", "C"]
    assert found.next_steps()[0].endswith(": equally good. Choose by price, papers or easy wick.")


def test_a_clear_lead_leaves_nobody_level():
    assert answered(scores(APART)).level == ()
    apart = answered(scores({"A": "44 34", "B": "33 43", "C": "22 21"}), draws=4000)
    assert (apart.clear_winner, apart.level) == (None, ())


def test_what_best_means_is_said_where_a_band_says_what_is_right():
    one = replace(TWO, bands=(Band(3.2, 4.4),))
    assert " the best 62 in 100. Best is nearest to what is right: 3.2 to 4.4. Its" in (
        one.sentence()
    )
    two = replace(TWO, bands=(Band(3.2, 4.4, room="loft"), Band(2, 3)), clear_winner="A")
    assert "Best is nearest to what is right: 3.2 to 4.4 in loft and 2 to 3. " in two.sentence()


def unlinked_rows():
    rows = scores({"A": "55", "B": "44", "C": "22", "D": "11"})
    return [replace(row, assessor="Tor") if row.candidate in "CD" else row for row in rows]


def test_candidates_that_no_nose_links_are_said_and_the_next_step_links_them():
    found = answered(unlinked_rows())
    assert found.unlinked == (("A", "B"), ("C", "D"))
    assert found.sentence().endswith(
        " No nose met both A and C, so what sets them apart may be the noses alone."
    )
    assert found.next_steps()[0] == "Sniff one of each together, by the same noses: A and C."
    assert not any("equally good" in step for step in found.next_steps())
    linked = answered([*unlinked_rows(), score(3, "A", assessor="Tor")])
    assert linked.unlinked == ()
    assert "No nose met" not in linked.sentence()


def test_a_room_per_nose_is_said():
    rows = scores(APART)
    own = [replace(row, room=row.assessor) for row in rows]
    words = (
        " Each assessor sniffed in a room of their own: what the room does cannot be told from "
        "what the nose does."
    )
    assert answered(own).sentence().endswith(words)
    assert "a room of their own" not in answered(rows).sentence()


def test_a_total_split_asks_for_other_noses():
    found = answered(scores({"A": "555 111", "B": "111 555"}), choose=2)
    assert found.sentence().endswith(
        " Opinions split on A (loved by 1, disliked by 1) and B (loved by 1, disliked by 1)."
    )
    assert found.next_steps() == (
        "Opinions split on A and B: more sniffs of these noses do not help, other noses do, or a "
        "decision whom it is for.",
    )


def test_the_next_step_follows_from_where_the_candidates_stand():
    assert TWO.next_steps() == (
        "Too few sniffs to place A and B: sniff again, same assessors, another evening.",
    )
    settled = (told(0.97, placed=True), told(0.03, candidate="B", place="out of reach"))
    assert replace(TWO, candidates=settled, clear_winner="A").next_steps() == (
        "Nothing more to sniff: more testing would hardly change the choice.",
    )
    tied = (
        told(0.55, equally_good=True),
        told(0.45, candidate="B", place="equally good", equally_good=True),
    )
    assert replace(TWO, candidates=tied).next_steps() == (
        "A or B: equally good. Choose by price, papers or easy wick.",
    )
    assert replace(TWO, candidates=tied, noses=1).next_steps()[0] == (
        "Let another nose score them too: one nose does not stand for those who buy."
    )
    assert replace(TWO, candidates=(told(1.0),)).next_steps() == (
        "Score a second candidate beside it: alone it cannot be compared.",
    )


def test_one_held_back_by_its_theme_is_no_reason_to_sniff():
    found = answered(scores(APART), choose=2, groups={"A": "smoke", "B": "smoke"})
    places = {item.candidate: item.place for item in found.candidates}
    assert places == {"A": "held back by its theme", "B": "in the pick", "C": "in the pick"}


def test_one_without_a_score_is_to_be_sniffed_and_no_equal_of_the_others():
    tied = (
        told(0.55, equally_good=True),
        told(0.45, candidate="B", place="equally good", equally_good=True, given=()),
    )
    assert replace(TWO, candidates=tied).next_steps() == ("B: no score yet. Sniff it.",)
    few = (told(0.9, placed=True), told(0.4, candidate="B", place="too few sniffs", given=()))
    assert replace(TWO, candidates=few).next_steps() == ("B: no score yet. Sniff it.",)
