"""`throwbench burn FILE`."""

import json
import subprocess
import sys

import pytest
from click.testing import CliRunner

from throwbench.cli.burn import command

BURNS = """\
candle,burn,lit_at,out_at,put_out,mass_before_g,mass_after_g,scale_step_g,wax_left_mm,relit,\
wick_moved,vessel_damage,check_h,pool_width_mm,pool_full,flame,flame_mm,flare_up,soot
K7F,1,2027-05-01 10:00,2027-05-01 14:00,snuffed,300,276,1,60,no,no,none,1,40,,under,,none,none
K7F,2,2027-05-02 10:00,2027-05-02 14:00,snuffed,276,252,1,40,no,no,none,3,,yes,under,,none,none
K7F,3,2027-05-03 10:00,2027-05-03 14:00,snuffed,252,226,1,12,no,no,none,3,50,,,{flame},none,none
"""
CANDLES = """\
candle,oil,load_percent,wax,wick,fixing,vessel,inside_mm,wax_g,wax_mm
K7F,Slate After Rain,8,R-36,flat cotton 4,glue,stoneware cup,68,180,80
"""


@pytest.fixture
def files(tmp_path):
    (tmp_path / "burns.csv").write_text(BURNS.format(flame=20), encoding="utf-8")
    (tmp_path / "tall.csv").write_text(BURNS.format(flame=80), encoding="utf-8")
    (tmp_path / "candles.csv").write_text(CANDLES, encoding="utf-8")
    return tmp_path


def asked(*words):
    return CliRunner().invoke(command, [str(word) for word in words])


def said(*words):
    answer = asked(*words, "--day", "2027-05-24")
    assert answer.exit_code == 0, answer.output
    return answer.output


def test_the_limits_come_first_with_their_evidence(files):
    lines = said(files / "burns.csv", "--candles", files / "candles.csv").splitlines()
    assert lines[:4] == [
        "Limits in force on 2027-05-24",
        "  Slate After Rain on flat cotton 4: no limit broken "
        "(1 candle, 3 burns, to the end). That rules out gross faults only: "
        "1 clean candle is compatible with a true failure rate of 95 %.",
        "    looks: 1 measured, 23 seen, 0 not seen",
        "    K7F: 12 mm of wax left, measured",
    ]


def test_how_it_burns_and_its_rate_follow(files):
    out = said(files / "burns.csv", "--candles", files / "candles.csv")
    assert "Burns well (no limit)\n  K7F: tunnels; not full by 3 h\n" in out
    assert "  K7F: 3 burns, 12 h; 6.25 ± " in out
    assert "    burn 2: 100 % of the inside diameter, full melt pool by 3 h\n" in out
    assert "Not tried, needs a laboratory: soot index, mean per hour (EN 15426:2018);" in out


def test_a_tall_flame_breaks_the_candle_and_says_by_which_limit(files):
    out = said(files / "tall.csv")
    assert "K7F broke a limit: flame height (80 mm, K7F, burn 3 at 3 h)." in out
    assert "K7F, burn 3 at 3 h: flame height: 80 mm. Limit: at most 75 mm (house limit)." in out
    assert "Asked about, held back or refused\n" in out
    assert "tall.csv, line 4, flame_mm: 80 mm is asked about" in out


def test_the_cautions_stand_last(files):
    lines = said(files / "burns.csv").splitlines()
    assert lines[-1] == "Local rules and a laboratory's test stand above everything here."
    assert any("children and pets" in line for line in lines)
    assert any("Wax on fire: lid on, no water." in line for line in lines)


def test_a_width_given_for_all_vessels_is_used(files):
    assert "tunnels" not in said(files / "burns.csv")
    assert "tunnels" in said(files / "burns.csv", "--inside", "68")
    assert "tunnels" in said(files / "burns.csv", "--inside", "2.7in")


def test_a_pool_wider_than_the_given_width_is_answered(files):
    assert "burns.csv, line 4, pool_width_mm" in said(files / "burns.csv", "--inside", "45mm")


def test_the_candles_own_width_stands_above_the_given_one(files):
    out = said(files / "burns.csv", "--inside", "45", "--candles", files / "candles.csv")
    assert "pool_width_mm" not in out


def test_a_candle_that_only_one_file_has_is_asked_about(files):
    (files / "other.csv").write_text(CANDLES.replace("K7F", "K7P"), encoding="utf-8")
    out = said(files / "burns.csv", "--candles", files / "other.csv")
    assert "burns.csv, line 2, candle: K7F is asked about" in out
    assert "is asked about" not in said(files / "burns.csv", "--candles", files / "candles.csv")


def test_a_limit_of_ones_own_is_used(files):
    out = said(files / "burns.csv", "--house", "flame-height=15", "--house", "end-line=6,5")
    assert "Limit: at most 15 mm (house limit, set by the maker)." in out
    assert "not yet known" not in out


def test_json_holds_the_same(files):
    whole = json.loads(said(files / "tall.csv", "--candles", files / "candles.csv", "--json"))
    assert whole["day"] == "2027-05-24"
    assert whole["sentence"].startswith("Slate After Rain on flat cotton 4 broke a limit")
    (combination,) = whole["limits"]
    assert combination["sentence"] == whole["sentence"]
    assert combination["state"] == "broken"
    assert combination["broken"][0]["rule"] == "flame-height"
    (candle,) = whole["candles"]
    assert candle["burns_well"]["words"] == ["tunnels", "not full by 3 h"]
    assert candle["burns_well"]["tunnels"] is True
    assert candle["burns_well"]["noted"]["burns"] == 3
    assert candle["sentence"].startswith("K7F: 3 burns, 12 h; 6.25")
    assert candle["reading"]["rate"]["rate_g_h"] == 6.25
    assert whole["problems"][0]["column"] == "flame_mm"
    assert whole["cautions"][-1].startswith("Local rules")


def test_today_is_taken_where_no_day_is_given(files):
    answer = asked(files / "burns.csv")
    assert answer.exit_code == 0
    assert answer.output.startswith("Limits in force on 20")


def test_two_candles_of_one_combination_are_listed(files):
    both = BURNS.format(flame=20) + BURNS.format(flame=20).split("\n", 1)[1].replace("K7F", "K7G")
    (files / "both.csv").write_text(both, encoding="utf-8")
    cards = CANDLES + CANDLES.split("\n", 1)[1].replace("K7F", "K7G")
    (files / "cards.csv").write_text(cards, encoding="utf-8")
    out = said(files / "both.csv", "--candles", files / "cards.csv")
    assert "(2 candles, 6 burns, to the end)" in out
    assert "    K7F: none broken (3 burns, to the end).\n" in out
    assert "    K7G: none broken (3 burns, to the end).\n" in out
    one = said(files / "both.csv", "--candles", files / "cards.csv", "--candle", "K7G")
    assert "(2 candles, 6 burns, to the end)" in one
    assert "  K7G: tunnels; not full by 3 h\n" in one
    assert "  K7F: tunnels" not in one


@pytest.mark.parametrize(
    ("words", "answer"),
    [
        (["--house", "flame-height"], "--house flame-height is not understood; it is a rule, ="),
        (["--house", "flame-height=tall"], "--house flame-height=tall is not understood"),
        (["--house", "flame=3"], "'flame' is no limit that can be set. House limits:"),
        (["--house", "cooling=-1"], "The house limit 'cooling' is -1. A limit is a number above"),
        (["--candle", "X1"], "There is no candle 'X1' here. The candles are K7F."),
        (["--inside", "wide"], "--inside: “wide”"),
        (["--inside", "68x"], "--inside: “68x”"),
    ],
)
def test_what_cannot_be_understood_is_a_sentence(files, words, answer):
    found = asked(files / "burns.csv", *words)
    assert found.exit_code == 2
    assert answer in found.output
    assert "Traceback" not in found.output


def test_a_file_that_gives_no_burn_is_a_sentence(files):
    (files / "empty.csv").write_text("", encoding="utf-8")
    for words in ([files / "empty.csv"], [files / "burns.csv", "--candles", files / "empty.csv"]):
        found = asked(*words)
        assert found.exit_code == 2
        assert "empty.csv" in found.output
        assert "Traceback" not in found.output


def test_a_file_that_is_not_there_is_a_sentence(files):
    found = asked(files / "none.csv")
    assert found.exit_code == 2
    assert "none.csv" in found.output


def test_the_command_is_reached_by_its_name(files):
    done = subprocess.run(
        [sys.executable, "-c", "from throwbench.cli import main; main()", "burn", "--help"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert "--house RULE=VALUE" in done.stdout
