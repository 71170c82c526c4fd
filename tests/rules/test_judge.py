"""From burns to none broken, broken, and not yet known."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from burning import SEEN_CHECK, clean_candle, made_of, seen_burn
from throwbench.records import Check
from throwbench.rules import judge
from throwbench.rules.result import Evidence

DAY = date(2027, 5, 24)
BY_EYE = 8


def the_one(burns, combinations=(), **settings):
    (found,) = judge(burns, combinations=combinations, day=DAY, **settings)
    return found


def changed(burns, number, **changes):
    return [replace(burn, **changes) if burn.burn == number else burn for burn in burns]


@pytest.mark.parametrize(("grade", "own"), [("short", 5), ("long", 20)])
def test_a_flare_up_that_may_be_over_the_makers_own_limit_is_never_none_broken(grade, own):
    check = replace(SEEN_CHECK, flare_up=grade)
    burns = [replace(burn, checks=(check, SEEN_CHECK)) for burn in clean_candle(burns=8)]
    house = {"secondary-ignition": own}
    found = the_one(burns, [made_of()], house=house)
    assert found.state == "not yet known"
    assert "Write the seconds" in found.missing
    assert found.candles[0].evidence.not_seen == 8
    timed = replace(check, flare_up_s=own)
    settled = [replace(burn, checks=(timed, SEEN_CHECK)) for burn in burns]
    assert the_one(settled, [made_of()], house=house).state == "none broken"
    over = [replace(burn, checks=(replace(timed, flare_up_s=own + 1),)) for burn in burns]
    assert the_one(over, [made_of()], house=house).state == "broken"


def test_a_candle_seen_in_each_burn_to_the_end_line_broke_nothing():
    found = the_one(clean_candle(burns=8), [made_of()])
    assert found.state == "none broken"
    assert found.missing is None
    assert found.broken == ()
    (candle,) = found.candles
    assert candle.state == "none broken"
    assert candle.to_the_end
    assert candle.burns == 8
    assert candle.missing is None
    assert candle.broken == candle.marks == ()
    assert candle.combination == made_of()
    assert candle.wax_left == "12 mm of wax left, measured"
    assert candle.evidence == Evidence(measured=0, seen=8 * BY_EYE, not_seen=0)


@pytest.mark.parametrize(
    ("blank", "look"),
    [
        ({"relit": None}, "relighting"),
        ({"wick_moved": None}, "the place of the wick"),
        ({"vessel_damage": None}, "the vessel"),
        ({"put_out": None}, "how it went out"),
        ({"checks": (replace(SEEN_CHECK, soot=None),)}, "the soot"),
        ({"checks": (replace(SEEN_CHECK, flame=None),)}, "the flame"),
    ],
)
@pytest.mark.parametrize("number", [1, 2, 4])
def test_one_look_not_taken_leaves_it_not_yet_known(blank, look, number):
    found = the_one(changed(clean_candle(burns=4), number, **blank))
    assert found.state == "not yet known"
    assert found.missing == (
        f"Watch for {look} in one more test candle: nobody looked in burn {number} of K7F."
    )
    assert found.candles[0].state == "not yet known"
    assert found.candles[0].missing == found.missing
    assert found.candles[0].evidence == Evidence(seen=4 * BY_EYE - 1, not_seen=1)


def test_looks_not_taken_are_named_once_with_the_burn_or_the_number_of_burns():
    burns = changed(clean_candle(burns=4), 2, checks=())
    assert the_one(burns).missing == (
        "Watch for the flame, flare-ups, the pool catching fire and the soot in one more test "
        "candle: nobody looked in burn 2 of K7F."
    )
    assert the_one(changed(burns, 3, relit=None, checks=())).missing == (
        "Watch for the flame, flare-ups, the pool catching fire, the soot and relighting in one "
        "more test candle: nobody looked in 2 burns of K7F."
    )


def test_no_change_seen_stands_for_the_looks_of_a_check_left_blank():
    burns = changed(clean_candle(burns=4), 2, checks=(Check(check_h=1, no_change=True),))
    found = the_one(burns)
    assert found.state == "none broken"
    assert found.candles[0].evidence == Evidence(seen=4 * BY_EYE)


def test_measured_seen_and_not_seen_are_counted_apart():
    measured = Check(check_h=1, flame_mm=20, flare_up_s=0, soot="none")
    burns = [seen_burn(1, checks=(SEEN_CHECK, measured)), seen_burn(2, relit=None)]
    # definition: flame and flare-up measured in burn 1; relighting not looked at in burn 2
    assert the_one(burns).candles[0].evidence == Evidence(measured=2, seen=13, not_seen=1)


@pytest.mark.parametrize("left", [12, 11, 0])
def test_a_candle_is_at_its_end_at_the_end_line_or_below(left):
    burns = changed(clean_candle(burns=4), 4, wax_left_mm=left)
    assert the_one(burns).candles[0].to_the_end
    assert the_one(burns).state == "none broken"


def test_a_candle_above_its_end_line_is_to_be_burned_on():
    found = the_one(changed(clean_candle(burns=4), 4, wax_left_mm=12.5))
    assert found.state == "not yet known"
    assert not found.candles[0].to_the_end
    assert found.missing == "Burn K7F to 12 mm of wax."


def test_the_makers_own_end_line_counts():
    burns = changed(clean_candle(burns=4), 4, wax_left_mm=8)
    found = the_one(burns, house={"end-line": 6.5})
    assert found.missing == "Burn K7F to 6.5 mm of wax."
    assert the_one(burns, house={"end-line": 8}).state == "none broken"


def test_wax_that_nobody_measured_is_to_be_measured():
    found = the_one(changed(clean_candle(burns=4), 4, wax_left_mm=None))
    assert found.state == "not yet known"
    assert not found.candles[0].to_the_end
    assert found.candles[0].wax_left == ""
    assert found.missing == (
        "Measure the wax left in K7F; if it is more than 12 mm, burn it down to that."
    )


def test_wax_computed_from_the_masses_ends_a_candle_and_is_said_to_be_computed():
    burns = [
        seen_burn(1, mass_before_g=300, mass_after_g=230),
        seen_burn(2, mass_before_g=230, mass_after_g=156),
    ]
    # definition: 144 g of 180 g burnt leaves 12 mm of 60 mm
    found = the_one(burns, [made_of(wax_g=180, wax_mm=60)])
    assert found.state == "none broken"
    assert found.candles[0].wax_left == (
        "12 mm of wax left, computed from the masses, for straight walls"
    )


def test_a_burn_that_is_not_in_the_log_was_not_seen():
    burns = [burn for burn in clean_candle(burns=5) if burn.burn not in (2, 4)]
    found = the_one(burns)
    assert found.state == "not yet known"
    assert found.candles[0].evidence == Evidence(seen=3 * BY_EYE, not_seen=2 * BY_EYE)
    assert found.missing == (
        "Burn 2 of K7F is not in the log: write it down, or burn one more test candle "
        "to 12 mm of wax."
    )


def test_a_first_burn_that_is_not_in_the_log_was_not_seen():
    assert "Burn 1 of K7F is not in the log" in the_one([seen_burn(2)]).missing


def test_a_candle_never_burned_is_to_be_burned():
    found = the_one([], [made_of()])
    assert found.state == "not yet known"
    assert found.candles[0].burns == 0
    assert found.candles[0].evidence == Evidence()
    assert found.missing == "Burn K7F to 12 mm of wax."


def test_nothing_burned_and_nothing_known_is_nothing():
    assert judge([], day=DAY) == ()


def test_one_broken_rule_breaks_the_candle_and_bars_the_combination():
    burns = changed(clean_candle(burns=4), 3, relit=True)
    found = the_one(burns, [made_of()])
    assert found.state == found.candles[0].state == "broken"
    assert found.missing is None
    assert found.candles[0].missing is None
    (finding,) = found.broken
    assert found.candles[0].broken == (finding,)
    assert finding.rule == "relights"
    assert finding.words == "relighting"
    assert finding.outcome == "broken"
    assert finding.evidence == "seen"
    assert (finding.candle, finding.burn, finding.check_h) == ("K7F", 3, None)
    assert finding.value == "burned again by itself"
    assert finding.limit == "never"
    assert finding.source == "EN 15493:2007 (the standard itself was not read)"
    assert not finding.house_limit
    assert finding.bars == "combination"
    assert finding.where == "K7F, burn 3"
    assert finding.sentence() == (
        "K7F, burn 3: relighting: burned again by itself. Limit: never. "
        "Source: EN 15493:2007 (the standard itself was not read)."
    )
    assert found.barred_vessel is None
    assert found.barred_fixing is None


def test_nothing_is_missing_of_a_candle_that_broke():
    candle = the_one([seen_burn(1, relit=True, wick_moved=None)]).candles[0]
    assert candle.state == "broken"
    assert candle.missing is None
    assert candle.evidence.not_seen == 1


def test_a_finding_says_at_which_check_and_by_which_limit():
    burns = changed(clean_candle(burns=2), 2, checks=(Check(check_h=2, flame_mm=81),))
    (finding,) = the_one(burns).broken
    assert finding.evidence == "measured"
    assert finding.check_h == 2
    assert finding.house_limit
    assert finding.sentence().startswith(
        "K7F, burn 2 at 2 h: flame height: 81 mm. Limit: at most 75 mm (house limit). Source: EN"
    )


def test_the_look_that_broke_is_shown_before_a_measured_one_that_did_not():
    checks = (Check(check_h=1, flame_mm=20), Check(check_h=2, flame="over"))
    (finding,) = the_one([seen_burn(1, checks=checks)]).broken
    assert (finding.value, finding.evidence, finding.check_h) == ("over the mark", "seen", 2)


def test_a_broken_candle_breaks_its_combination_beside_a_clean_one():
    burns = [*clean_candle("K7F"), *changed(clean_candle("K7G"), 2, relit=True)]
    found = the_one(burns, [made_of("K7F"), made_of("K7G")])
    assert found.state == "broken"
    assert [candle.state for candle in found.candles] == ["none broken", "broken"]


def test_a_broken_wick_leaves_the_oil_open_for_another():
    burns = [*clean_candle("K7F"), *changed(clean_candle("K7G"), 2, relit=True)]
    found = judge(burns, combinations=[made_of("K7F"), made_of("K7G", wick="5")], day=DAY)
    assert [(item.label, item.state) for item in found] == [
        ("wick 5", "broken"),
        ("flat cotton 4", "none broken"),
    ]


def test_a_moved_wick_bars_only_the_fixing():
    burns = changed(clean_candle(), 5, wick_moved=True)
    found = the_one(burns, [made_of(fixing="sticker")])
    assert found.candles[0].state == "broken"
    assert found.state == "not yet known"
    assert found.broken == ()
    assert found.barred_fixing == "sticker"
    assert found.barred_vessel is None
    assert found.missing == (
        "The wick moved in K7F (sticker): burn one more test candle with another fixing "
        "to 12 mm of wax."
    )


def test_a_moved_wick_does_not_undo_a_clean_candle():
    burns = [*changed(clean_candle("K7F"), 5, wick_moved=True), *clean_candle("K7G")]
    found = the_one(burns, [made_of("K7F", fixing="sticker"), made_of("K7G")])
    assert found.state == "none broken"
    assert found.barred_fixing == "sticker"
    assert [candle.candle for candle in found.clean()] == ["K7G"]


def test_a_fixing_that_nobody_wrote_down_is_barred_as_unknown():
    burns = changed(clean_candle(), 5, wick_moved=True)
    words = "the fixing of K7F (not written down)"
    found = the_one(burns, [made_of(fixing=None)])
    assert found.barred_fixing == words
    assert found.missing.startswith("The wick moved in K7F (fixing not written down): burn one")
    assert the_one(burns).barred_fixing == words


def test_damage_bars_the_vessel_too():
    burns = changed(clean_candle(), 5, vessel_damage="crack")
    found = the_one(burns, [made_of()])
    assert found.state == "broken"
    assert found.barred_vessel == "stoneware cup"
    assert found.barred_fixing is None
    assert (
        the_one(burns, [made_of(vessel=None)]).barred_vessel
        == "the vessel of K7F (not written down)"
    )
    assert the_one(burns).barred_vessel == "the vessel of K7F (not written down)"


def test_handling_only_marks_the_burn():
    burns = changed(clean_candle(), 5, trim_mm=9)
    found = the_one(burns)
    assert found.state == "none broken"
    (mark,) = found.candles[0].marks
    assert (mark.rule, mark.burn, mark.outcome, mark.bars) == ("trim-long", 5, "mark", "nothing")


def test_a_limit_the_maker_set_must_be_measured_in_a_judged_burn():
    house = {"vessel-temperature": 70}
    hot = Check(check_h=4, vessel_c=60)
    found = the_one(clean_candle(), house=house)
    assert found.state == "not yet known"
    assert found.missing == (
        "Nobody measured the vessel's temperature in a judged burn of K7F: "
        "measure it in one more burn."
    )
    first = changed(clean_candle(), 1, checks=(SEEN_CHECK, hot))
    assert the_one(first, house=house).state == "not yet known"
    second = changed(clean_candle(), 2, checks=(SEEN_CHECK, hot))
    assert the_one(second, house=house).state == "none broken"
    hotter = changed(clean_candle(), 2, checks=(SEEN_CHECK, replace(hot, vessel_c=71)))
    (finding,) = the_one(hotter, house=house).broken
    assert finding.value == "71 °C, mean of 1 burn"
    assert finding.house_limit


def deep_pools():
    burns = clean_candle(burns=5)
    for number, depth in ((2, 14), (4, 15)):
        burns = changed(burns, number, checks=(SEEN_CHECK, Check(check_h=4, pool_depth_mm=depth)))
    return burns


def test_a_mean_says_how_many_burns_it_is_of_and_stands_at_the_last():
    (found,) = the_one(deep_pools(), house={"pool-depth": 14}).broken
    assert (found.rule, found.burn, found.check_h) == ("pool-depth", 4, None)
    assert found.value == "14.5 mm, mean of 2 burns"
    assert found.evidence == "measured"
    assert found.where == "K7F"


def test_a_hint_about_the_wick_is_no_mark_of_handling():
    found = the_one(deep_pools())
    assert found.state == "none broken"
    assert found.candles[0].marks == ()


def test_heavy_soot_says_in_how_many_burns():
    heavy = (replace(SEEN_CHECK, soot="heavy"),)
    burns = [
        replace(burn, checks=heavy) if burn.burn in (1, 2, 3) else burn
        for burn in clean_candle(burns=4)
    ]
    (finding,) = the_one(burns).broken
    assert finding.value == "heavy in 2 of 3 judged burns"
    assert finding.evidence == "seen"
    assert finding.burn == 4
    assert finding.where == "K7F"
    assert finding.sentence().startswith(
        "K7F: soot: heavy in 2 of 3 judged burns. Limit: in at most half"
    )
    (alone,) = the_one([replace(burns[0], checks=heavy), replace(burns[1], checks=heavy)]).broken
    assert alone.value == "heavy in 1 of 1 judged burn"


def test_the_day_decides_which_figure_holds():
    burns = changed(clean_candle(), 1, afterglow_s=25)
    assert judge(burns, day=date(2018, 6, 1))[0].state == "broken"
    assert judge(burns, day=date(2027, 6, 1))[0].state == "none broken"


def test_the_check_that_settles_it_soonest_is_named():
    """An unseen look asks for a new candle; a candle seen throughout is only to be burned on."""
    unseen = changed(clean_candle("A1"), 2, relit=None)
    half = [seen_burn(number, candle="B1", wax_left_mm=30) for number in (1, 2)]
    quarter = [seen_burn(1, candle="A2", wax_left_mm=40)]
    cards = [made_of(code) for code in ("A1", "B1", "A2", "C1")]
    assert the_one([*unseen, *half, *quarter], cards).missing == ("Burn B1 to 12 mm of wax.")
    missing = the_one(unseen, cards[:1]).missing
    assert missing.startswith("Watch for relighting in one more test candle")
    assert "burn 2 of A1" in missing


def test_of_two_candles_burned_alike_the_first_code_is_named():
    burns = [seen_burn(1, candle=code, wax_left_mm=30) for code in ("B1", "A1")]
    assert "Burn A1" in the_one(burns, [made_of("B1"), made_of("A1")]).missing


def test_what_needs_a_laboratory_is_listed_as_not_tried():
    assert the_one(clean_candle()).not_tried == (
        "soot index, mean per hour (EN 15426:2018)",
        "stands on an incline (EN 15493:2007; ASTM F2417)",
        "annealing of the glass, real temper number (ASTM F2179-20)",
        "thermal shock of the glass (ASTM F2179-20)",
        "goes out by itself at the end, where that is claimed (EN 15493:2019)",
    )


def test_candles_without_a_combination_stand_alone():
    found = judge([*clean_candle("K7G"), *clean_candle("K7F")], day=DAY)
    assert [(item.oil, item.label, item.wick) for item in found] == [
        ("", "K7F", None),
        ("", "K7G", None),
    ]


def test_a_combination_is_oil_load_wax_wick_and_vessel():
    cards = [
        made_of("A"),
        made_of("B", fixing="sticker", wick_lot="new"),
        made_of("C", load_percent=9),
        made_of("D", wax="other"),
        made_of("E", wick="flat cotton 5"),
        made_of("F", vessel="glass bowl"),
        made_of("G", oil="Ferry Rope"),
    ]
    found = judge([], combinations=cards, day=DAY)
    assert [[candle.candle for candle in item.candles] for item in found] == [
        ["G"],
        ["F"],
        ["A", "B"],
        ["D"],
        ["C"],
        ["E"],
    ]
    assert [item.label for item in found] == [
        "flat cotton 4",
        "flat cotton 4, 8 % of wax, glass bowl, R-36",
        "flat cotton 4, 8 % of wax, stoneware cup, R-36",
        "flat cotton 4, 8 % of wax, stoneware cup, other",
        "flat cotton 4, 9 % of wax, stoneware cup, R-36",
        "flat cotton 5, 8 % of wax, stoneware cup, R-36",
    ]
    assert [item.oil for item in found] == ["Ferry Rope", *["Slate After Rain"] * 5]
    assert found[-1].wick == "flat cotton 5"


def test_only_what_differs_stands_in_the_label():
    cards = [made_of("A", wick="4-ply"), made_of("B", wick="4-ply", load_percent=10)]
    found = judge([], combinations=cards, day=DAY)
    assert [item.label for item in found] == ["wick 4-ply, 8 % of wax", "wick 4-ply, 10 % of wax"]


def test_unknown_is_a_value_with_a_name():
    blank = {"wick": None, "load_percent": None, "vessel": None, "wax": None}
    cards = [made_of("A", **blank), made_of("B"), made_of("C", **blank)]
    found = judge([], combinations=cards, day=DAY)
    assert [item.label for item in found] == [
        "unknown wick, unknown load, unknown vessel, unknown wax",
        "flat cotton 4, 8 % of wax, stoneware cup, R-36",
    ]
    assert found[0].wick is None
    assert [candle.candle for candle in found[0].candles] == ["A", "C"]


def test_a_candle_without_a_card_does_not_lengthen_the_labels():
    found = judge(clean_candle("Z9"), combinations=[made_of("A", oil="")], day=DAY)
    assert [item.label for item in found] == ["Z9", "flat cotton 4"]


LOGS = [
    *changed(clean_candle("K7F", burns=4), 2, wick_moved=True),
    *clean_candle("K7G", burns=4),
    *changed(clean_candle("K7H", burns=3), 3, trim_mm=2),
]
CARDS = [made_of("K7F", fixing="sticker"), made_of("K7G"), made_of("K7H", wick="5")]


@given(st.permutations(LOGS), st.permutations(CARDS))
def test_the_order_of_the_file_changes_nothing(burns, cards):
    assert judge(burns, combinations=cards, day=DAY) == judge(LOGS, combinations=CARDS, day=DAY)


CHECKS = st.builds(
    Check,
    check_h=st.sampled_from([1.0, 2.0, 4.0]),
    no_change=st.sampled_from([None, True]),
    flame_mm=st.sampled_from([None, 20.0, 80.0]),
    flare_up=st.sampled_from([None, "none", "short", "long", "pool"]),
    soot=st.sampled_from([None, "none", "heavy"]),
)
LOOKS = st.lists(CHECKS, max_size=2).map(tuple)
BREAKING = [
    Check(check_h=3, flame_mm=76),
    Check(check_h=3, flame="over"),
    Check(check_h=3, flare_up="long"),
    Check(check_h=3, flare_up="pool"),
    Check(check_h=3, soot="heavy"),
]


@settings(max_examples=60)
@given(st.lists(LOOKS, min_size=2, max_size=4), st.sampled_from(BREAKING), st.data())
def test_one_more_broken_check_never_mends_a_candle(looks, breaking, data):
    burns = [seen_burn(number, checks=checks) for number, checks in enumerate(looks, start=1)]
    number = data.draw(st.integers(1, len(burns)))
    more = changed(burns, number, checks=(*burns[number - 1].checks, breaking))
    before, after = the_one(burns), the_one(more)
    assert {item.rule for item in before.broken} <= {item.rule for item in after.broken}
    if breaking.soot is None:
        assert after.state == "broken"
