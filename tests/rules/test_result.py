"""What the limits say aloud."""

from dataclasses import replace
from datetime import date

import pytest

from burning import clean_candle, made_of, seen_burn
from throwbench.records import Check
from throwbench.rules import judge
from throwbench.rules.result import Evidence, clean_words

DAY = date(2027, 5, 24)
GROSS = (
    "That rules out gross faults only: 2 clean candles are compatible with a true failure rate "
    "of 78 %."
)


def the_one(burns, combinations=()):
    (found,) = judge(burns, combinations=combinations, day=DAY)
    return found


TWO = [*clean_candle("K7F", burns=9), *clean_candle("K7G", burns=8)]
CARDS = [made_of("K7F"), made_of("K7G")]


def test_none_broken_carries_its_evidence():
    found = the_one(TWO, CARDS)
    assert found.evidence_words() == "2 candles, 17 burns, to the end"
    assert found.sentence() == (
        "Slate After Rain on flat cotton 4: no limit broken "
        f"(2 candles, 17 burns, to the end). {GROSS}"
    )
    assert [candle.sentence() for candle in found.candles] == [
        "K7F: none broken (9 burns, to the end).",
        "K7G: none broken (8 burns, to the end).",
    ]


def test_a_candle_that_does_not_count_is_said_beside_those_that_do():
    found = the_one([*TWO, seen_burn(1, candle="K7H")], [*CARDS, made_of("K7H")])
    assert found.evidence_words() == "2 candles, 17 burns, to the end; 1 more not counted"


def test_one_candle_and_one_burn_stand_in_the_singular():
    found = the_one(clean_candle(burns=1))
    assert found.evidence_words() == "1 candle, 1 burn, to the end"
    assert found.candles[0].sentence() == "K7F: none broken (1 burn, to the end)."


def test_not_yet_known_says_what_would_settle_it():
    found = the_one([seen_burn(1, wax_left_mm=40)], [made_of()])
    assert found.evidence_words() == "Burn K7F to 12 mm of wax."
    assert found.sentence() == (
        "Slate After Rain on flat cotton 4: limits not yet known. Burn K7F to 12 mm of wax."
    )
    assert found.candles[0].sentence() == ("K7F: not yet known. Burn K7F to 12 mm of wax.")


BROKEN = [
    seen_burn(1),
    seen_burn(2, relit=True),
    seen_burn(3, relit=True, checks=(Check(check_h=1, flame_mm=81),)),
]


def test_broken_says_each_rule_once_with_its_first_burn():
    found = the_one(BROKEN, [made_of()])
    words = (
        "flame height (81 mm, K7F, burn 3 at 1 h); relighting (burned again by itself, K7F, burn 2)"
    )
    assert found.evidence_words() == words
    assert found.sentence() == (
        f"Slate After Rain on flat cotton 4 broke a limit: {words}. "
        "This combination is barred; the oil stays open for another wick."
    )
    assert found.candles[0].sentence() == f"K7F: broken: {words}."


def test_a_candle_that_stands_alone_is_barred_alone():
    assert the_one(BROKEN).sentence().startswith("K7F broke a limit: flame height")
    assert the_one(BROKEN).sentence().endswith("This candle is barred, with all made like it.")


def test_a_barred_vessel_and_a_barred_fixing_are_named():
    burns = [seen_burn(1, vessel_damage="leak"), seen_burn(2, wick_moved=True)]
    said = the_one(burns, [made_of(fixing="sticker")]).sentence()
    assert said.endswith("Barred as a vessel: stoneware cup. Barred as a fixing: sticker.")
    assert "Barred" not in the_one(BROKEN, [made_of()]).sentence()


def test_the_looks_of_all_candles_are_added_up():
    measured = Check(check_h=1, flame_mm=20, flare_up="none", soot="none")
    burns = [
        seen_burn(1, candle="K7F", checks=(measured,)),
        seen_burn(1, candle="K7G", relit=None),
        seen_burn(2, candle="K7G"),
    ]
    assert the_one(burns, CARDS).evidence() == Evidence(measured=1, seen=22, not_seen=1)


def test_a_result_under_another_name_says_that_name():
    assert "Ferry Rope on K7F broke" in replace(the_one(BROKEN), oil="Ferry Rope").sentence()


@pytest.mark.parametrize(
    ("clean", "words"),
    [
        (1, "1 clean candle is compatible with a true failure rate of 95 %."),
        (2, "2 clean candles are compatible with a true failure rate of 78 %."),
        (29, "29 clean candles are compatible with a true failure rate of 10 %."),
    ],
)
def test_clean_candles_are_worth_what_the_exact_interval_says(clean, words):
    # definition: 1 - 0.05^(1/n)
    assert clean_words(clean) == f"That rules out gross faults only: {words}"
