"""Every rule at its limit, just under and just over: the cases are sentences in cases.yaml."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from burning import START
from throwbench.records import Burn, Check
from throwbench.rules.decide import findings
from throwbench.rules.limit import figure_of, limits_on
from throwbench.rules.look import READERS
from throwbench.rules.rule import rules
from throwbench.rules.strict_yaml import load
from throwbench.rules.turn import in_turn

CASES = load((Path(__file__).parent / "cases.yaml").read_text(encoding="utf-8"))
DAY = date(2027, 5, 24)
WORST_FIRST = ("broken", "mark", "within", "not seen")


def burns_of(entries):
    burns = []
    for entry in entries:
        facts = dict(entry)
        number = facts.pop("burn", 2)
        hours, after_h = facts.pop("hours", 4), facts.pop("lit_after_h", None)
        lit_at = START + timedelta(days=number)
        if after_h is not None:
            lit_at = burns[-1].out_at + timedelta(hours=after_h)
        checks = tuple(Check(**check) for check in facts.pop("checks", ()))
        burns.append(
            Burn(
                candle="K7F",
                burn=number,
                lit_at=lit_at,
                out_at=lit_at + timedelta(hours=hours),
                checks=checks,
                **facts,
            )
        )
    return burns


def outcome_of(case):
    limits = limits_on(case.get("day", DAY), house=case.get("house"))
    limit = next((item for item in limits if item.rule.id == case["rule"]), None)
    if limit is None:
        return "not in force"
    if case["rule"] not in READERS:
        return "not read"
    end_mm = figure_of("end-line", limits)
    found = findings(limit, in_turn(burns_of(case["burns"])), end_mm=end_mm)
    return min((item.outcome for item in found), key=WORST_FIRST.index, default="nothing")


@pytest.mark.parametrize("case", CASES, ids=[f"{case['rule']}: {case['says']}" for case in CASES])
def test_the_limit_is_where_it_is_said_to_be(case):
    assert outcome_of(case) == case["outcome"]


def test_every_rule_is_reached_by_a_case():
    assert {case["rule"] for case in CASES} == {rule.id for rule in rules()}


def test_every_rule_that_a_log_can_tell_is_reached_within_and_over():
    for rule in rules():
        outcomes = {case["outcome"] for case in CASES if case["rule"] == rule.id}
        if rule.id in READERS:
            assert "within" in outcomes
            assert {"broken", "mark"} & outcomes


def test_only_what_a_log_cannot_tell_has_no_reader():
    unread = {rule.id for rule in rules() if rule.known in ("not in the log", "laboratory")}
    assert unread == {rule.id for rule in rules()} - set(READERS)
