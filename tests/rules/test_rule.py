"""The file of limits is read strictly: a slip in it is a sentence, never a guess."""

import re
from datetime import date

import pytest
import yaml

from throwbench.records import Burn, Check, columns
from throwbench.rules import columns_that_break
from throwbench.rules.look import READERS
from throwbench.rules.rule import Figure, newest_figure, rules, rules_from
from throwbench.rules.strict_yaml import load
from throwbench.science.errors import UnclearError

PLAIN = """
- id: drip
  words: drips
  kind: candle rule
  known: measured
  compare: at most
  decides: any burn
  bars: combination
  source: common practice
  article: none
  read: common practice
  house_limit: true
"""


def test_a_rule_holds_what_its_entry_says():
    (rule,) = rules_from(PLAIN + "  look: the drips\n  unit: g\n  allowance: 0.5\n")
    assert (rule.id, rule.words, rule.look, rule.unit) == ("drip", "drips", "the drips", "g")
    assert (rule.kind, rule.known, rule.compare) == ("candle rule", "measured", "at most")
    assert (rule.decides, rule.bars, rule.house_limit) == ("any burn", "combination", True)
    assert (rule.source, rule.article, rule.read) == ("common practice", "none", "common practice")
    assert rule.allowance == 0.5


def test_the_newest_figure_stands_with_its_allowance():
    assert newest_figure("burn-length", {}) == 4.25  # definition: 4 h and a quarter of an hour
    assert newest_figure("cooling", {}) == 3
    assert newest_figure("afterglow", {}) == 30  # definition: the figure of 2019, not that of 2007


def test_the_makers_own_figure_stands_without_an_allowance():
    assert newest_figure("burn-length", {"burn-length": 3.0}) == 3


def test_a_rule_names_the_columns_of_the_log_that_show_it():
    (rule,) = rules_from(PLAIN + "  reads: [soot, flame_mm]\n")
    assert rule.reads == ("soot", "flame_mm")
    for rule in rules():
        assert bool(rule.reads) is (rule.id in READERS)


def test_nothing_that_only_the_maker_makes_a_limit_breaks_before_it_is_set():
    assert columns_that_break({}) == {
        "no_change", "flame", "flame_mm", "flare_up", "flare_up_s", "soot", "put_out", "relit",
        "wick_moved", "vessel_damage", "afterglow_s",
    }  # fmt: skip
    depth = {"pool-depth": 13.0, "vessel-temperature": 60.0, "burn-length": 3.0}
    assert columns_that_break(depth) - columns_that_break({}) == {
        "vessel_c",
        "check_h",
        "pool_depth_mm",
    }


def test_words_that_name_a_figure_name_the_one_of_their_rule():
    worded = {rule.id: (rule.worded, rule.unit) for rule in rules() if rule.worded is not None}
    assert worded == {"secondary-ignition": (10, "s")}
    (flare_up,) = (column for column in columns(Check) if column.name == "flare_up")
    assert "up to 10 s, longer" in flare_up.meaning
    named = [
        column.name
        for record in (Burn, Check)
        for column in columns(record)
        if column.words and re.search(r"\d", column.meaning)
    ]
    assert named == ["flare_up"]  # no other word of a log holds a figure that can be set


def test_a_rule_that_counts_burns_says_which_word_counts():
    for rule in rules():
        assert bool(rule.counts) is (rule.decides == "more than half of the judged burns")


def test_what_an_entry_leaves_out_is_empty():
    (rule,) = rules_from(PLAIN)
    assert (rule.look, rule.unit, rule.counts, rule.figures) == ("", "", "", ())
    assert rule.allowance == 0
    assert (rule.reads, rule.sight) == ((), "")
    assert rule.worded is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            PLAIN + "  threshold: 3\n",
            r"'drip' has unknown keys \['threshold'\] and misses \[\]\. "
            r"Known are: id, words, .*, allowance\. Check the spelling\.",
        ),
        (
            PLAIN.replace("  source: common practice\n", ""),
            r"'drip' has unknown keys \[\] and misses \['source'\]",
        ),
        (
            PLAIN + "  figures: [{limit: 3, on: 2020-01-01}]\n",
            r"Line 13: the key 'on' is read as True\. A key is a word\. Put it in quotes",
        ),
        (
            PLAIN + "  figures: [{limit: 3, from: 2020-01-01}]\n",
            r"has unknown keys \['from'\] and misses \[\]\. Known are: limit, since\.",
        ),
        (PLAIN + "  figures: [{since: 2020-01-01}]\n", r"misses \['limit'\]"),
        (
            PLAIN + "  words: drops\n",
            r"Line 13: the key 'words' stands twice\. A key stands once\. Delete one of the two\.",
        ),
        (
            PLAIN.replace("at most", "up to"),
            r"'drip' has compare 'up to'\. Allowed: at most, at least, more than, below, never\. "
            r"Use one of these\.",
        ),
        (PLAIN.replace("candle rule", "law"), r"has kind 'law'"),
        (PLAIN.replace("measured", "heard"), r"has known 'heard'"),
        (PLAIN.replace("any burn", "a coin"), r"has decides 'a coin'"),
        (PLAIN.replace("bars: combination", "bars: all"), r"has bars 'all'"),
        (
            PLAIN.replace("house_limit: true", "house_limit: maybe"),
            r"has house_limit 'maybe'\. Allowed: True, False\.",
        ),
        (
            PLAIN + "  reads: [soot, drips]\n",
            r"'drip' reads \['drips'\]\. Columns of a burn log: candle, .*, mushroom",
        ),
        (
            PLAIN + PLAIN,
            r"The rule 'drip' stands twice\. A rule has its own id\. Rename one\.",
        ),
    ],
)
def test_a_slip_in_the_file_is_a_sentence(text, words):
    with pytest.raises(UnclearError, match=words):
        rules_from(text)


def test_a_text_that_is_no_yaml_is_refused():
    with pytest.raises(yaml.YAMLError):
        load("a: [")


def test_a_plain_text_is_read_to_its_depth():
    assert load("a: {b: [1, 2], c: x}") == {"a": {"b": [1, 2], "c": "x"}}


def test_the_figure_is_the_last_one_in_force():
    text = PLAIN + "  figures: [{since: 2019-01-01, limit: 30}, {since: 2007-01-01, limit: 20}]\n"
    (rule,) = rules_from(text)
    assert rule.figures[0] == Figure(limit=30, since=date(2019, 1, 1))
    assert rule.figure_on(date(2006, 12, 31)) is None
    assert rule.figure_on(date(2007, 1, 1)) == 20
    assert rule.figure_on(date(2018, 12, 31)) == 20
    assert rule.figure_on(date(2019, 1, 1)) == 30


def test_a_figure_without_a_day_has_always_held():
    (rule,) = rules_from(PLAIN + "  figures: [{limit: 3}]\n")
    assert rule.figure_on(date(1, 1, 1)) == 3


def test_every_rule_says_how_it_was_read_and_what_a_person_looks_at():
    for rule in rules():
        assert rule.words
        assert rule.source
        assert rule.article
        assert rule.read
        assert bool(rule.look) == (rule.kind in ("candle rule", "hint"))


def test_figures_that_were_never_read_are_house_limits():
    # definition: a figure whose text was not read is a house limit; "never" has no figure
    assert {rule.id for rule in rules() if not rule.house_limit} == {
        "flashover",
        "relights",
        "vessel-damage",
    }


def test_each_rule_bars_what_the_definitions_say():
    # definition: candle rules bar the combination, a moved wick the fixing, damage the vessel too
    bars = {rule.id: rule.bars for rule in rules() if rule.bars != "nothing"}
    assert bars.pop("wick-stays") == "fixing"
    assert bars.pop("vessel-damage") == "combination and vessel"
    assert set(bars) == {
        "flame-height",
        "secondary-ignition",
        "flashover",
        "relights",
        "goes-out",
        "soot",
        "afterglow",
        "vessel-temperature",
    }
    assert set(bars.values()) == {"combination"}


def test_the_rules_are_read_once():
    assert rules() is rules()
