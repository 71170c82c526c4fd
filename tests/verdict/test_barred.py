"""A fixing that let go and a vessel that was damaged are barred for all that stand on them."""

from dataclasses import replace
from datetime import date

from burning import clean_candle, made_of, seen_burn
from scoring import scores
from throwbench.verdict.judge import verdict
from throwbench.verdict.settings import Settings

DAY = date(2027, 5, 24)
TWO = scores({"Rope": "55 55 55", "Slate": "33 33 33"}, burn_kind="nose")


def judged(burns, cards, choose=1):
    return verdict(TWO, burns, combinations=cards, settings=Settings(choose=choose), day=DAY)


def card(oil, **changes):
    return made_of(oil, oil=oil, **changes)


def test_a_barred_fixing_names_the_oils_of_the_pick_that_stand_on_it():
    moved = [seen_burn(1, candle="K9K", wick_moved=True), *clean_candle("Rope")]
    sticker = [made_of("K9K", oil="Other", fixing="sticker"), card("Rope", fixing="sticker")]
    found = judged(moved, sticker)
    assert found.pick == ("Rope",)
    assert (
        "Sticker is barred as a fixing: its wick moved (K9K, burn 1). Rope was tried with nothing "
        "else: use another fixing, and burn one candle of it before any is sold." in found.holds
    )


def test_two_oils_stand_and_one_that_is_fixed_otherwise_does_not():
    moved = [seen_burn(1, candle="K9K", wick_moved=True)]
    other = made_of("K9K", oil="Other", fixing="sticker")
    both = judged(
        moved, [other, card("Rope", fixing="sticker"), card("Slate", fixing="sticker")], 2
    )
    assert any("Rope and Slate were tried with nothing else" in words for words in both.holds)
    none = judged(moved, [other, card("Rope"), card("Slate")], 2)
    assert "Sticker is barred as a fixing: its wick moved (K9K, burn 1)." in none.holds


def test_a_damaged_vessel_is_barred_for_the_pick_too_and_said_once():
    cracked = [
        seen_burn(1, candle="K9K", vessel_damage="crack"),
        seen_burn(2, candle="K9K", vessel_damage="crack"),
        *clean_candle("Rope"),
    ]
    found = judged(cracked, [made_of("K9K", oil="Other"), card("Rope")])
    said = [words for words in found.holds if "barred as a vessel" in words]
    assert said == [
        "Stoneware cup is barred as a vessel: vessel damage, crack (K9K, burn 1). "
        "Rope was tried in nothing else: sell none in it before it is known why."
    ]
    assert any("Barred as a vessel: stoneware cup" in words for words in found.holds)


def test_an_oil_with_another_candle_made_otherwise_does_not_stand_on_it():
    moved = [seen_burn(1, candle="K9K", wick_moved=True)]
    cards = [
        made_of("K9K", oil="Other", fixing="sticker"),
        card("Rope", fixing="sticker"),
        replace(card("Rope", fixing="glue"), candle="R2R"),
    ]
    assert not any("was tried" in words for words in judged(moved, cards).holds)


def test_a_candle_that_broke_a_limit_is_nothing_to_stand_on():
    moved = [
        seen_burn(1, candle="K9K", wick_moved=True),
        *clean_candle("Rope"),
        seen_burn(1, candle="R2R", relit=True),
    ]
    cards = [
        made_of("K9K", oil="Other", fixing="sticker"),
        card("Rope", fixing="sticker"),
        replace(card("Rope", fixing="glue", wick="flat cotton 6"), candle="R2R"),
    ]
    assert any("Rope was tried with nothing else" in words for words in judged(moved, cards).holds)


def test_a_fixing_and_a_vessel_are_barred_each_by_its_own_burn_and_a_flame_bars_neither():
    burns = [
        seen_burn(1, candle="K9K", wick_moved=True, relit=True),
        seen_burn(1, candle="L2L", vessel_damage="crack"),
        *clean_candle("Rope"),
    ]
    cards = [made_of("K9K", oil="Other"), made_of("L2L", oil="Third"), card("Rope")]
    said = [words for words in judged(burns, cards).holds if " is barred as a " in words]
    assert [words.partition(" (")[0] for words in said] == [
        "Glue is barred as a fixing: its wick moved",
        "Stoneware cup is barred as a vessel: vessel damage, crack",
    ]
    alone = judged([seen_burn(1, candle="K9K", relit=True), *clean_candle("Rope")], cards)
    assert not any(" is barred as a " in words for words in alone.holds)


def test_a_part_that_nobody_wrote_down_bars_nothing_by_name():
    moved = [seen_burn(1, candle="K9K", wick_moved=True, vessel_damage="crack")]
    nameless = made_of("K9K", oil="Other", fixing=None, vessel=None)
    found = judged(moved, [nameless, card("Rope")])
    assert not any(" is barred as a " in words for words in found.holds)
    alone = judged([seen_burn(1, candle="K9K", wick_moved=True)], [card("Rope")])
    assert not any(" is barred as a " in words for words in alone.holds)


def test_an_oil_whose_vessel_is_barred_is_poured_into_another_vessel():
    cracked = [seen_burn(1, candle="Rope", vessel_damage="crack")]
    found = judged(cracked, [card("Rope"), card("Slate", vessel="bowl")])
    assert "Rope: pour one test candle in another vessel, or drop it." in found.next_steps
    relit = [seen_burn(1, candle="Rope", relit=True)]
    found = judged(relit, [card("Rope"), card("Slate", vessel="bowl")])
    assert "Rope: pour one test candle on another wick, or drop it." in found.next_steps


def test_a_limit_of_ones_own_is_told_beside_the_one_it_stands_in_for():
    own = Settings(house={"flame-height": 500, "vessel-temperature": 60})
    said = verdict(TWO, settings=own, day=DAY).defaults
    assert (
        "Your own limit for flame height: at most 500 mm (house limit, set by the maker); without "
        "it at most 75 mm (house limit)." in said
    )
    assert any(
        "vessel outside temperature" in words and "without it none" in words for words in said
    )
    assert not any("own limit" in words for words in verdict(TWO, day=DAY).defaults)


def test_what_could_not_be_read_of_a_log_keeps_its_limits_unknown():
    found = verdict(
        TWO,
        clean_candle("Rope"),
        combinations=[card("Rope")],
        day=DAY,
        unread={"Rope": "Put right the log of Rope."},
    )
    rope = found.candidates[0]
    assert rope.limits[0].state == "not yet known"
    assert "Rope: sell none before its limits are known. Put right the log of Rope." in found.holds


def test_an_oil_whose_only_candle_let_go_of_its_wick_is_told_why_it_is_not_ranked():
    moved = [seen_burn(1, candle="Rope", wick_moved=True)]
    found = judged(moved, [card("Rope"), card("Slate", fixing="sticker")])
    rope = next(item for item in found.candidates if item.candidate == "Rope")
    assert rope.not_ranked_because == "its scores are from a candle that broke a limit"
    assert "Glue is barred as a fixing: its wick moved (Rope, burn 1)." in found.holds
    assert (
        "Rope: its scores are from a candle that broke a limit, so they do not rank it. "
        "Pour one more test candle without that fault and sniff it." in found.next_steps
    )
