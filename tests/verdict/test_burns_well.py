"""Burns well: words from the log, and no limit."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from burning import made_of, seen_burn
from throwbench.records import Check
from throwbench.rules.turn import in_turn
from throwbench.verdict.burns_well import burns_well, judged_for_pool, oil_burns_well
from throwbench.verdict.noted import Noted

DAY = date(2027, 5, 24)
NARROW = (Check(check_h=1, pool_width_mm=30), Check(check_h=3, pool_width_mm=50))
FULL_AT_3 = (Check(check_h=2, pool_full=False), Check(check_h=3, pool_full=True))
NEVER_FULL = (Check(check_h=2, pool_full=False), Check(check_h=3, pool_full=False))
NOT_JUDGED = "full melt pool not yet judged"


def said(found):
    return found.words, found.tunnels


def well(*burns, inside_mm=68, **changes):
    return burns_well(burns, inside_mm=inside_mm, day=DAY, **changes)


def test_a_candle_never_burned_has_nothing_noted():
    assert said(well()) == (("nothing noted",), False)
    assert well().noted == Noted()


def test_the_pool_is_judged_at_burns_three_and_four():
    burns = [
        seen_burn(1, checks=NARROW),
        seen_burn(2, checks=NARROW),
        seen_burn(3, checks=FULL_AT_3),
        seen_burn(4, checks=FULL_AT_3),
        seen_burn(5, checks=NARROW),
    ]
    found = well(*burns)
    assert said(found) == (("full melt pool after 2 to 3 h",), False)
    assert found.sentence() == "full melt pool after 2 to 3 h"


def test_before_burn_three_the_pool_is_not_judged():
    found = well(seen_burn(1, checks=NARROW), seen_burn(2, checks=NARROW))
    assert said(found) == ((NOT_JUDGED,), False)


def test_a_pool_that_is_not_full_says_by_when():
    assert well(seen_burn(3, checks=NEVER_FULL)).words == ("not full by 3 h",)


def test_not_full_is_said_of_the_time_rules_hour_where_it_was_looked_at():
    for until_h, words in ((4, "3 h"), (2.9, "3 h"), (2.5, "2 h 30")):
        checks = (Check(check_h=until_h, pool_full=False),)
        assert well(seen_burn(3, checks=checks)).words == (f"not full by {words}",)
    assert well(seen_burn(3, checks=NEVER_FULL[:1]), inside_mm=None).words == ("not full by 2 h",)


def test_a_pool_full_at_the_first_check_says_by_when():
    assert well(seen_burn(3, checks=(Check(check_h=1, pool_full=True),))).words == (
        "full melt pool by 1 h",
    )


def test_a_pool_full_after_the_time_rule_is_said_to_be_late():
    checks = (Check(check_h=3, pool_full=False), Check(check_h=4, pool_full=True))
    assert well(seen_burn(3, checks=checks)).words == (
        "full melt pool after 3 to 4 h, later than the time rule (3 h)",
    )
    assert well(seen_burn(3, checks=checks), inside_mm=90).words == (
        "full melt pool after 3 to 4 h",
    )


def test_burns_that_differ_are_counted():
    burns = [
        seen_burn(3, checks=FULL_AT_3),
        seen_burn(4, checks=NEVER_FULL),
    ]
    assert well(*burns).words == (
        "full melt pool after 2 to 3 h in 1 of 2 burns",
        "not full by 3 h in 1 of 2 burns",
    )


CARD = made_of(wax_mm=60, inside_mm=68)


def test_the_last_third_of_the_wax_overrules():
    burns = [
        seen_burn(3, checks=NARROW, wax_left_mm=30),
        seen_burn(4, checks=NARROW, wax_left_mm=21),
        seen_burn(5, checks=NARROW, wax_left_mm=20),
        seen_burn(6, checks=FULL_AT_3, wax_left_mm=16),
        seen_burn(7, checks=FULL_AT_3, wax_left_mm=12),
        seen_burn(8, checks=NEVER_FULL),
    ]
    # definition: a third of 60 mm is 20 mm, and what counts is the wax when lit
    late = judged_for_pool(in_turn(burns, CARD), CARD)
    assert [turn.burn.burn for turn in late] == [6, 7, 8]
    assert well(*burns[:5], combination=CARD).words == ("full melt pool after 2 to 3 h",)
    assert well(*burns, combination=CARD).words == (
        "full melt pool after 2 to 3 h in 2 of 3 burns",
        "not full by 3 h in 1 of 3 burns",
    )
    assert well(*burns[:3], combination=CARD).tunnels
    assert not well(*burns, combination=CARD).tunnels


def test_without_the_depth_when_new_burns_three_and_four_stand():
    burns = [seen_burn(3, checks=NARROW, wax_left_mm=10), seen_burn(5, checks=FULL_AT_3)]
    for card in (None, made_of()):
        assert [turn.burn.burn for turn in judged_for_pool(in_turn(burns, card), card)] == [3]


def test_a_pool_narrow_in_every_judged_burn_tunnels():
    found = well(seen_burn(3, checks=NARROW), seen_burn(4, checks=NARROW))
    assert said(found) == (("tunnels", "not full by 3 h"), True)


def test_one_judged_burn_that_is_wide_enough_is_no_tunnel():
    wide = (Check(check_h=3, pool_width_mm=60),)
    assert not well(seen_burn(3, checks=NARROW), seen_burn(4, checks=wide)).tunnels


def test_a_judged_burn_that_tells_nothing_does_not_count():
    assert well(seen_burn(3, checks=NARROW), seen_burn(4)).tunnels
    assert not well(seen_burn(3), seen_burn(4)).tunnels


def test_the_vessels_own_width_stands_above_the_given_one():
    burns = [seen_burn(3, checks=NARROW)]
    assert not well(*burns, combination=made_of(inside_mm=51)).tunnels
    assert well(*burns, combination=made_of(inside_mm=None)).tunnels
    assert not well(*burns, inside_mm=None).tunnels


@pytest.mark.parametrize(
    ("grown", "words"),
    [
        (["none", "small", "small"], ()),
        (["none", "clear", "small"], ("mushrooms in 1 of 3 burns",)),
        (["clear", "large", None], ("mushrooms in 2 of 2 burns",)),
        ([None, None, None], ()),
    ],
)
def test_mushrooms_are_counted_in_the_burns_looked_at(grown, words):
    burns = [
        seen_burn(
            number,
            checks=(
                Check(check_h=1, mushroom="none" if word else None),
                Check(check_h=4, mushroom=word),
            ),
        )
        for number, word in enumerate(grown, start=5)
    ]
    assert well(*burns).words == (NOT_JUDGED, *words)


def test_frosting_and_wet_spots_are_noted():
    burns = [seen_burn(5, frosting=True), seen_burn(6, wet_spots=True, frosting=False)]
    assert well(*burns).words == (NOT_JUDGED, "frosting", "wet spots")
    assert well(seen_burn(5, frosting=False, wet_spots=False)).words == (NOT_JUDGED,)


def test_a_deep_pool_is_a_hint_about_the_wick():
    deep = (Check(check_h=4, pool_depth_mm=15),)
    assert well(seen_burn(2, checks=deep)).words == (
        NOT_JUDGED,
        "melt pool depth 15 mm, mean of 1 burn: a hint that the wick is large",
    )
    assert well(seen_burn(1, checks=deep)).words == (NOT_JUDGED,)
    shallow = (Check(check_h=4, pool_depth_mm=13),)
    assert well(seen_burn(2, checks=shallow)).words == (NOT_JUDGED,)


def test_a_depth_that_the_maker_made_a_limit_is_no_hint_any_more():
    deep = (Check(check_h=4, pool_depth_mm=15),)
    assert well(seen_burn(2, checks=deep), house={"pool-depth": 14}).words == (NOT_JUDGED,)


@given(st.permutations([seen_burn(n, checks=NARROW) for n in (1, 2, 3, 4)]))
def test_the_order_of_the_burns_changes_nothing(burns):
    assert said(well(*burns)) == (("tunnels", "not full by 3 h"), True)


FULL = well(seen_burn(3, checks=FULL_AT_3))
TUNNELS = well(seen_burn(3, checks=NARROW))
NOTHING = well()


def test_an_oil_on_one_wick_says_each_word_once():
    found = oil_burns_well([(made_of("A"), FULL), (made_of("B"), FULL)])
    assert said(found) == said(FULL)
    assert found.noted.burns == 2


def test_the_candles_of_a_wick_speak_as_one():
    """One range, and one count of mushrooms, whichever candle it was."""
    full_at_2 = (Check(check_h=1, pool_full=False), Check(check_h=2, pool_full=True))
    grown = (Check(check_h=1, mushroom="large"),)
    plain = (Check(check_h=1, mushroom="none"),)
    one = well(seen_burn(3, checks=FULL_AT_3), seen_burn(5, checks=grown))
    two = well(seen_burn(3, checks=FULL_AT_3), seen_burn(4, checks=full_at_2))
    three = well(*(seen_burn(number, checks=plain) for number in (5, 6)))
    found = oil_burns_well(
        [(made_of(code), w) for code, w in zip("ABC", (one, two, three), strict=True)]
    )
    assert said(found) == (("full melt pool after 1 to 3 h", "mushrooms in 1 of 3 burns"), False)


def test_a_wick_of_which_one_candle_tunnels_is_named_and_the_oil_is_not_badly_wicked():
    found = oil_burns_well([(made_of("A", wick="3"), TUNNELS), (made_of("B", wick="3"), FULL)])
    assert said(found) == (
        (
            "tunnels on wick 3",
            "full melt pool after 2 to 3 h in 1 of 2 burns",
            "not full by 3 h in 1 of 2 burns",
        ),
        False,
    )


def test_an_oil_that_tunnels_on_one_wick_names_the_wick():
    found = oil_burns_well([(made_of(wick="3"), TUNNELS), (made_of(wick="5"), FULL)])
    assert said(found) == (
        (
            "tunnels on wick 3",
            "not full by 3 h on wick 3",
            "full melt pool after 2 to 3 h on wick 5",
        ),
        False,
    )


def test_what_holds_on_every_wick_names_none_and_tunnelling_names_them_all():
    cards = [made_of(wick="5"), made_of(wick="3")]
    assert said(oil_burns_well([(card, FULL) for card in cards])) == said(FULL)
    assert said(oil_burns_well([(card, TUNNELS) for card in cards])) == (
        ("tunnels on wick 3 and wick 5", "not full by 3 h"),
        True,
    )


def test_what_holds_on_some_wicks_names_those():
    cards = [(made_of(wick=wick), FULL) for wick in ("5", "3")]
    found = oil_burns_well([*cards, (made_of(wick="4"), NOTHING)])
    assert said(found) == (("full melt pool after 2 to 3 h on wick 3 and wick 5",), False)


def test_tunnelling_names_its_wick_even_where_it_is_the_only_one():
    found = oil_burns_well([(made_of(), TUNNELS)])
    assert said(found) == (("tunnels on flat cotton 4", "not full by 3 h"), True)


def test_a_wick_that_nobody_wrote_down_is_not_named():
    assert said(oil_burns_well([(None, TUNNELS)])) == said(TUNNELS)
    both = oil_burns_well([(None, FULL), (made_of(wick="3"), FULL)])
    assert said(both) == said(FULL)
    one = oil_burns_well([(None, NOTHING), (made_of(wick="3"), FULL)])
    assert one.words == ("full melt pool after 2 to 3 h on wick 3",)
    other = oil_burns_well([(None, FULL), (made_of(wick="3"), NOTHING)])
    assert other.words == ("full melt pool after 2 to 3 h",)


def test_an_oil_with_nothing_noted_says_so():
    assert oil_burns_well([]) == NOTHING
    assert oil_burns_well([(made_of(), NOTHING)]) == NOTHING
    assert said(oil_burns_well([(made_of(), NOTHING), (made_of(), FULL)])) == said(FULL)


def test_words_speak_as_one_sentence():
    assert TUNNELS.sentence() == "tunnels; not full by 3 h"
