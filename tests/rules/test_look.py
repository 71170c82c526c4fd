"""What one burn shows on one rule, in words and figures."""

from dataclasses import replace
from datetime import date

import pytest

from burning import seen_burn
from throwbench.records import Check
from throwbench.rules.decide import findings, how_known, looks
from throwbench.rules.judge import judge_candle
from throwbench.rules.limit import Limit, limits_on
from throwbench.rules.look import FIGURES, Look, of_the_checks
from throwbench.rules.turn import in_turn

LIMITS = {
    limit.rule.id: limit for limit in limits_on(date(2027, 5, 24), house={"vessel-temperature": 70})
}


def shown(rule, *checks, number=2, **changes):
    (turn,) = in_turn([seen_burn(number, checks=checks, **changes)])
    return looks(LIMITS[rule], turn, end_mm=12)


def seen(value, *, over=False, check_h=None):
    return Look(how="seen", over=over, value=value, check_h=check_h)


def measured(value, number, *, over=False, check_h=None):
    return Look(how="measured", over=over, value=value, number=number, check_h=check_h)


@pytest.mark.parametrize(
    ("rule", "check", "expected"),
    [
        ("flame-height", Check(check_h=2, flame_mm=20), [measured("20 mm", 20, check_h=2)]),
        ("flame-height", Check(check_h=2, flame="under"), [seen("under the mark", check_h=2)]),
        ("flame-height", Check(check_h=2, no_change=True), [seen("no change", check_h=2)]),
        (
            "flame-height",
            Check(check_h=2, flame_mm=80, flame="over", no_change=True),
            [
                measured("80 mm", 80, over=True, check_h=2),
                seen("over the mark", over=True, check_h=2),
            ],
        ),
        (
            "flame-height",
            Check(check_h=2, flame_mm=20, no_change=True),
            [measured("20 mm", 20, check_h=2)],
        ),
        ("secondary-ignition", Check(check_h=1, flare_up="none"), [seen("none", check_h=1)]),
        ("secondary-ignition", Check(check_h=1, flare_up="short"), [seen("short", check_h=1)]),
        (
            "secondary-ignition",
            Check(check_h=1, flare_up="long", flare_up_s=12),
            [measured("12 s", 12, over=True, check_h=1), seen("long", over=True, check_h=1)],
        ),
        (
            "secondary-ignition",
            Check(check_h=1, flare_up_s=2, no_change=True),
            [measured("2 s", 2, check_h=1)],
        ),
        ("flashover", Check(check_h=3, flare_up="none"), [seen("pool did not ignite", check_h=3)]),
        (
            "flashover",
            Check(check_h=3, flare_up="pool"),
            [seen("whole pool ignited", over=True, check_h=3)],
        ),
        ("flashover", Check(check_h=3, flare_up_s=0), [seen("nothing flared up", check_h=3)]),
        ("flashover", Check(check_h=3, no_change=True), [seen("no change", check_h=3)]),
        ("soot", Check(check_h=4, soot="trace", no_change=True), [seen("trace", check_h=4)]),
        ("soot", Check(check_h=4, soot="heavy"), [seen("heavy", over=True, check_h=4)]),
        ("soot", Check(check_h=4, no_change=True), [seen("no change", check_h=4)]),
        ("vessel-temperature", Check(check_h=4, vessel_c=60), [measured("60 °C", 60)]),
        ("pool-depth", Check(check_h=4, pool_depth_mm=14), [measured("14 mm", 14, over=True)]),
    ],
)
def test_a_check_shows(rule, check, expected):
    assert shown(rule, check) == tuple(expected)


@pytest.mark.parametrize(
    ("rule", "facts", "expected"),
    [
        ("relights", {"relit": True}, seen("burned again by itself", over=True)),
        ("relights", {"relit": False}, seen("stayed out")),
        ("wick-stays", {"wick_moved": True}, seen("moved", over=True)),
        ("wick-stays", {"wick_moved": False}, seen("stayed")),
        ("vessel-damage", {"vessel_damage": "none"}, seen("none")),
        ("vessel-damage", {"vessel_damage": "chip"}, seen("chip", over=True)),
        ("goes-out", {"put_out": "snuffed"}, seen("snuffed")),
        ("goes-out", {"put_out": "went out"}, seen("went out by itself", over=True)),
        ("goes-out", {"put_out": "went out", "wax_left_mm": 12}, seen("went out by itself")),
        ("goes-out", {"put_out": "went out", "number": 1}, seen("went out by itself")),
        ("afterglow", {"afterglow_s": 12}, measured("12 s", 12)),
        ("burn-length", {}, measured("4 h", 4)),
        ("trim-short", {"trim_mm": 2}, measured("2 mm", 2, over=True)),
        ("trim-long", {"trim_mm": 6}, measured("6 mm", 6)),
    ],
)
def test_a_burn_shows(rule, facts, expected):
    assert shown(rule, **facts) == (expected,)


def test_cooling_and_the_wax_when_lit_come_from_the_burn_before():
    first, second = in_turn([seen_burn(1, wax_left_mm=30), seen_burn(2, wax_left_mm=20)])
    assert looks(LIMITS["cooling"], first, end_mm=12) == ()
    assert looks(LIMITS["cooling"], second, end_mm=12) == (measured("20 h", 20),)
    assert looks(LIMITS["end-line"], first, end_mm=12) == ()
    assert looks(LIMITS["end-line"], second, end_mm=12) == (measured("30 mm", 30),)


def test_a_depth_without_its_hour_stands_before_those_with_one():
    depths = (Check(check_h=None, pool_depth_mm=9), Check(check_h=0.5, pool_depth_mm=6))
    assert shown("pool-depth", *depths) == (measured("6 mm", 6),)


def test_measured_stands_before_seen_before_not_seen():
    one, other = measured("20 mm", 20), seen("under the mark")
    assert how_known([other, one]) == "measured"
    assert how_known([other]) == "seen"
    assert how_known([]) == "not seen"


def found(rule, *checks, **changes):
    turns = in_turn([seen_burn(2, checks=checks, **changes)])
    (finding,) = findings(LIMITS[rule], turns, end_mm=12)
    return finding


def test_what_nobody_looked_at_is_a_finding_too():
    finding = found("flame-height")
    assert (finding.outcome, finding.evidence, finding.value, finding.check_h) == (
        "not seen",
        "not seen",
        "not looked at",
        None,
    )
    assert finding.where == "K7F, burn 2"


def test_what_was_measured_is_shown_before_what_was_seen():
    checks = (Check(check_h=1, flame="under"), Check(check_h=2, flame_mm=20))
    finding = found("flame-height", *checks)
    assert (finding.outcome, finding.evidence, finding.value, finding.check_h) == (
        "within",
        "measured",
        "20 mm",
        2,
    )
    assert finding.where == "K7F, burn 2 at 2 h"
    assert found("flame-height", checks[0]).value == "under the mark"


def test_of_two_looks_that_broke_the_first_is_shown():
    checks = (Check(check_h=1, flame="over"), Check(check_h=2, flame_mm=90))
    assert found("flame-height", *checks).value == "over the mark"


@pytest.mark.parametrize(
    ("grade", "own", "value", "sentence"),
    [
        ("short", 5, "up to 10 s", "at most 5 s"),
        ("long", 20, "longer than 10 s", "at most 20 s"),
    ],
)
def test_a_grade_that_does_not_tell_asks_for_the_seconds(grade, own, value, sentence):
    limits = limits_on(date(2027, 5, 24), house={"secondary-ignition": own})
    limit = next(item for item in limits if item.rule.id == "secondary-ignition")
    log = [
        seen_burn(2, checks=(Check(check_h=1, flare_up="none"), Check(check_h=2, flare_up=grade)))
    ]
    (finding,) = findings(limit, in_turn(log), end_mm=12)
    assert (finding.outcome, finding.evidence) == ("not seen", "not seen")
    assert finding.value == f"{value}, without the seconds"
    assert finding.where == "K7F, burn 2"
    (turn,) = in_turn(log)
    assert looks(limit, turn, end_mm=12)[1] == Look(how="seen", over=None, value=value, check_h=2)
    found = judge_candle("K7F", log, limits=limits)
    assert found.missing is not None
    said = f"a flare-up of {value}, and the limit is {sentence} (house limit, set by the maker)"
    log = [replace(burn, burn=1) for burn in log]
    found = judge_candle("K7F", log, limits=limits)
    assert found.missing == (
        f"Burn 1 of K7F has {said}: how long was it? Write the seconds, or watch for that in one "
        "more test candle."
    )


@pytest.mark.parametrize(("compare", "worst"), [("at most", 90), ("at least", 40)])
def test_of_figures_in_the_checks_the_worst_is_held_against_a_limit(compare, worst):
    rule = replace(LIMITS["vessel-temperature"].rule, compare=compare)
    checks = (Check(check_h=1, vessel_c=40), Check(check_h=2), Check(check_h=3, vessel_c=90))
    (turn,) = in_turn([seen_burn(2, checks=checks)])
    limit = Limit(rule=rule, figure=70, set_by_maker=True)
    assert [look.number for look in of_the_checks(turn, limit, 12)] == [worst]


@pytest.mark.parametrize(
    "column", ["room_c", "trim_mm", "afterglow_s", "vessel_c", "pool_width_mm"]
)
def test_a_column_of_figures_needs_no_reader_of_its_own(column):
    assert column in FIGURES
