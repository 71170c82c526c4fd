"""Why: what counted, what was assumed, what stands out (`definition` throughout)."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from burning import clean_candle, made_of
from scoring import heard, score
from throwbench.rules import judge
from throwbench.verdict.counted import CountedScores
from throwbench.verdict.reasons import assumed, of_candidate, of_dose, of_limits, of_scores
from throwbench.verdict.result import Band
from throwbench.verdict.settings import Settings


def parted(*counted, reasons=None, curing=()):
    return CountedScores(counted=counted, shown=curing, reasons=reasons or {}, curing=curing)


def two_noses(**changes):
    return [score(3, **changes), score(4, assessor="Tor", **changes)]


def test_how_many_scores_of_how_many_assessors_count():
    assert of_scores(parted(*two_noses()), {}) == ("2 scores of 2 assessors count.",)
    assert of_scores(parted(), {}) == ("0 scores of 0 assessors count.",)


def test_one_assessor_is_said_to_be_one():
    assert of_scores(parted(score(3)), {"liking": SimpleNamespace(own_taste=False)}) == (
        "1 score of 1 assessor counts.",
        "One assessor: another may judge otherwise, and the intervals say so.",
    )


def test_an_own_taste_that_cannot_be_told_is_said():
    once, again = SimpleNamespace(own_taste=False), SimpleNamespace(own_taste=True)
    words = "Each assessor met each oil about once, so their own taste cannot be told from chance."
    found = parted(*two_noses())
    assert of_scores(found, {"liking": once, "hot_throw": once})[1:] == (words,)
    assert of_scores(found, {"liking": once, "hot_throw": again})[1:] == ()


def test_what_is_only_shown_is_counted_by_its_reason():
    found = parted(*two_noses(), reasons={"still curing": 3, "cannot tell": 1})
    assert of_scores(found, {})[1:] == ("Shown, not counted: 1 cannot tell and 3 still curing.",)


@pytest.mark.parametrize(
    ("aside", "words"),
    [
        ({"likeness": 3}, "3 likeness scores, which do not rank"),
        ({"likeness": 1}, "1 likeness score, which does not rank"),
        ({"likeness": 1, "uniqueness": 2}, "1 likeness and 2 uniqueness scores, which do not rank"),
    ],
)
def test_scores_on_an_attribute_set_aside_are_named(aside, words):
    found = replace(parted(*two_noses()), aside=aside)
    assert of_scores(found, {})[1:] == (f"Shown, not counted: {words}.",)
    both = replace(found, reasons={"still curing": 3})
    assert of_scores(both, {})[1:] == (f"Shown, not counted: 3 still curing and {words}.",)


def test_little_clean_air_is_said_below_what_a_panel_asks_for():
    enough = parted(*two_noses(clean_air_min=5))
    assert of_scores(enough, {})[1:] == ()
    one = parted(score(3, clean_air_min=4.9), score(4, assessor="Tor"))
    assert of_scores(one, {})[1:] == (
        "1 score was given after less than 5 min in clean air (the least 4.9 min) and counted.",
    )
    two = parted(score(3, clean_air_min=3), score(4, assessor="Tor", clean_air_min=4))
    assert of_scores(two, {})[1:] == (
        "2 scores were given after less than 5 min in clean air (the least 3 min) and counted.",
    )


def of_throw(hot, cold, *, hot_scores=(3,), cold_scores=(3,)):
    results = {
        "hot_throw": {"A": heard(hot, counted=hot_scores)},
        "cold_throw": {"A": heard(cold, counted=cold_scores)},
    }
    return of_candidate("A", results, parted())


@pytest.mark.parametrize(
    ("hot", "cold", "said"),
    [
        (2.5, 3.5, ("Loud in the cold, weak when lit: 1.0 steps apart.",)),
        (2.5, 3.4, ()),
        (3.5, 2.5, ("Modest in the cold, stronger when lit: 1.0 steps apart.",)),
        (3.4, 2.5, ()),
        (4.5, 2.25, ("Modest in the cold, stronger when lit: 2.2 steps apart.",)),
    ],
)
def test_hot_and_cold_throw_a_step_apart_stand_out(hot, cold, said):
    assert of_throw(hot, cold) == said


def test_a_throw_without_a_score_that_counts_is_not_compared():
    assert of_throw(2.0, 4.0, hot_scores=()) == ()
    assert of_throw(2.0, 4.0, cold_scores=()) == ()
    assert of_candidate("A", {"hot_throw": {"A": heard(2.0)}}, parted()) == ()
    assert of_candidate("A", {"cold_throw": {"A": heard(2.0)}}, parted()) == ()
    assert of_candidate("A", {}, parted()) == ()


def risen(hot, *early, **facts):
    curing = tuple(
        score(step, "A", **({"attribute": "hot_throw", "cure_days": 5} | facts)) for step in early
    )
    results = {"hot_throw": {"A": heard(hot, counted=facts.pop("counted", (4,)))}}
    return of_candidate("A", results, parted(curing=curing))


def test_a_hot_throw_that_rose_a_step_by_the_cure_stands_out():
    assert risen(3.5, 2, 3, 2.5) == ("Weak before its cure ended; 1.0 steps stronger after.",)
    assert risen(3.4, 2, 3, 2.5) == ()
    assert risen(2.0, 0, 1, 0.5) == ("Weak before its cure ended; 1.5 steps stronger after.",)
    assert risen(3.5) == ()


def test_a_rise_needs_three_early_scores_of_the_same_oil_and_attribute():
    assert risen(4.0, 1, 1) == ()
    assert risen(4.0, 1, 1, 1, attribute="cold_throw") == ()
    results = {"hot_throw": {"A": heard(4.0)}}
    other = tuple(score(1, "B", attribute="hot_throw") for _ in range(3))
    assert of_candidate("A", results, parted(curing=other)) == ()
    mine = tuple(score(1, "A", attribute="hot_throw") for _ in range(3))
    assert of_candidate("A", results, parted(curing=mine)) != ()
    assert of_candidate("A", {}, parted(curing=mine)) == ()
    unscored = {"hot_throw": {"A": heard(4.0, counted=())}}
    assert of_candidate("A", unscored, parted(curing=mine)) == ()


def test_scores_of_a_wick_burn_are_not_taken_for_scores_before_the_cure():
    shown = (score(1, "A", attribute="hot_throw", cure_days=20, burn_kind="wick"),) * 3
    found = CountedScores(
        counted=(), shown=shown, reasons={"sniffed in a wick burn or a long burn": 1}
    )
    assert of_candidate("A", {"hot_throw": {"A": heard(4.0)}}, found) == ()


def loads(*percents):
    return [made_of(f"C{i}", oil="AB"[i > 0], load_percent=p) for i, p in enumerate(percents)]


def test_a_load_unlike_most_others_stands_apart():
    words = "Dosed at 8.7 % of wax, most others at 8: it stands apart."
    assert of_dose("A", loads(8.7, 8, 8)) == (words,)
    assert of_dose("B", loads(8.7, 8, 8)) == ()
    assert of_dose("A", loads(8.7, 8, 8, None, None)) == (words,)


def test_without_a_usual_load_none_stands_apart():
    assert of_dose("A", []) == ()
    assert of_dose("A", loads(None, None)) == ()
    assert of_dose("A", loads(6, 8, 8, 10)) == ()
    assert of_dose("A", loads(None, 8, 8)) == ()


def test_several_loads_that_stand_apart_are_told_from_the_lowest():
    combinations = [*loads(10, 8, 8, 8, 8), made_of("Z", oil="A", load_percent=6)]
    assert [words[:11] for words in of_dose("A", combinations)] == ["Dosed at 6 ", "Dosed at 10"]


def limits_of(*candles, **change):
    logs = [clean_candle(made.candle) for made in candles]
    burns = [burn for log in logs for burn in (replace(log[0], **change), *log[1:])]
    return judge(burns, combinations=candles, day=log_day())


def log_day():
    return clean_candle()[-1].lit_at.date()


def test_clean_limits_give_no_reason():
    assert of_limits(limits_of(made_of())) == ()
    assert of_limits(()) == ()


def test_a_mark_on_the_handling_is_told():
    burn = clean_candle()[0]
    late = burn.lit_at.replace(hour=19)
    (words,) = of_limits(limits_of(made_of(), out_at=late))
    assert words.startswith("Handling: K7F, burn 1: length of the burn: 10 h.")


def test_a_barred_fixing_and_a_barred_vessel_are_told_once():
    twice = (made_of("K7F"), made_of("R9D", wick="flat cotton 5"))
    assert of_limits(limits_of(*twice, wick_moved=True)) == ("Barred as a fixing: glue.",)
    told = of_limits(limits_of(*twice, vessel_damage="crack"))
    assert told == ("Barred as a vessel: stoneware cup.",)


ALL_SAID = Settings(bands=(Band(3, 4),), scale=(1, 5), cure_days=10)


def test_what_was_said_is_not_assumed():
    said = assumed([score(3)], {"K7F": made_of()}, ALL_SAID, (1, 5))
    assert said == ("Scale 1 to 5, as given.",)


@pytest.mark.parametrize(
    ("changes", "combinations", "words"),
    [
        (
            {"bands": ()},
            {"K7F": made_of()},
            "No band for hot throw was given: stronger is not taken as better.",
        ),
        (
            {},
            {},
            "No candles file was given (--candles): each test candle stands alone.",
        ),
        (
            {"cure_days": None},
            {"K7F": made_of()},
            "No cure was given (--cure-days): every score counts, whatever its cure.",
        ),
    ],
)
def test_each_thing_that_nobody_said_is_named(changes, combinations, words):
    assert assumed([score(3)], combinations, replace(ALL_SAID, **changes), (1, 5))[1:] == (words,)


def test_a_cure_on_one_wax_card_is_a_cure():
    combinations = {"K7F": made_of(card_cure_days=10), "R9D": made_of("R9D")}
    assert assumed([score(3)], combinations, replace(ALL_SAID, cure_days=None), (1, 5))[1:] == ()


def test_a_cure_of_no_days_was_given_too():
    assert assumed([], {"K7F": made_of()}, replace(ALL_SAID, cure_days=0), (1, 5))[1:] == ()


def test_a_scale_from_the_scores_is_said_to_be_one():
    said = assumed([score(3)], {"K7F": made_of()}, replace(ALL_SAID, scale=None), (0, 10))
    assert said == ("Scale 0 to 10, as scored.",)


def test_several_rooms_are_said_to_be_averaged():
    given = [score(3, room="loft"), score(3, room="kitchen")]
    assert assumed(given, {"K7F": made_of()}, ALL_SAID, (1, 5))[1:] == (
        "Several rooms: the figures are for the average of them.",
    )


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        ((1,), "1 score was given after less than 30 min of burning (the least 1 min) and counted: "
         "hot throw comes with the melt pool."),
        ((29.5, 12), "2 scores were given after less than 30 min of burning (the least 12 min) and "
         "counted: hot throw comes with the melt pool."),
    ],
)  # fmt: skip
def test_a_sniff_soon_after_lighting_is_said_and_counted(minutes, words):
    noses = two_noses(minutes_lit=30)
    soon = [score(3, attribute="hot_throw", minutes_lit=one) for one in minutes]
    cold = score(3, attribute="cold_throw", minutes_lit=1)
    assert of_scores(parted(*noses, *soon, cold), {})[1:] == (words,)
    assert of_scores(parted(*noses, cold), {})[1:] == ()
