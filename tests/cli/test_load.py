"""`throwbench load`: plain sentences, then the sums; a sentence and exit code 2 for what is not."""

import json
import subprocess
import sys

import pytest
from click.testing import CliRunner

from throwbench.cli import main

THE_SET = (
    *("--vessels", "6", "--fill", "90g", "--residue", "6g", "--oils", "7", "--load", "8% of wax"),
    *("--weighed", "518.2g", "--weighed", "506.9g", "--step", "0.1g", "--oil-in", "40.45g"),
)


def run(*words):
    return CliRunner().invoke(main, ["load", *words])


def said(*words):
    result = run(*words)
    assert result.exit_code == 0, result.stderr
    return result.stdout


def test_ten_percent_on_five_and_a_half_ounces_is_half_an_ounce_and_a_bit():
    # common practice: LF008
    out = said("--wax", "5.5oz", "--load", "10%")
    assert "15.59 g (0.55 oz) of oil into 155.92 g (5.5 oz) of wax" in out


def test_a_bare_ten_percent_says_how_it_was_taken_and_what_else_it_could_mean():
    out = said("--load", "10 %")
    assert "is taken of wax, because no basis was given" in out
    assert "if it is meant of total, it is 11.11 % of wax" in out


@pytest.mark.parametrize("load", [("--load", "10%", "--of", "total"), ("--load", "10% of total")])
def test_ten_percent_of_total_is_worked_out_on_the_total(load):
    out = said("--total", "220g", *load)
    assert "22 g of oil into 198 g of wax makes 220 g of mix." in out  # definition: LF015, LF016


def test_a_set_of_test_candles_is_answered_in_one_go():
    out = said(*THE_SET)
    assert "Melt 3538.89 g of wax for 7 pitchers" in out  # definition: LF025
    assert "Weighed 518.2 g, then 506.9 g; the last counts" in out
    assert "takes 40.55 g of oil" in out  # definition: LF021
    assert "506.9 g of wax is 7.98 % of wax" in out  # definition: LF022


def test_sums_follow_the_sentences_with_their_units_flush_right():
    table = said(*THE_SET).split("\n\n")[1].splitlines()
    assert table[0] == "  wax to melt                3538.89 g"
    assert len({len(line) for line in table}) == 1


def test_a_blend_says_why_it_is_mixed_first():
    out = said(
        *("--wax", "111g", "--load", "10% of wax", "--step", "0.1g"),
        *("--blend", "Ferry Rope:90", "--blend", "Linen Loft:10"),
    )
    assert "10 % of 11.1 g on a scale with steps of 0.1 g is ±4.5 %" in out


def test_a_vessel_weighed_with_water_needs_no_load_and_no_caution():
    out = said("--water", "250g", "--water-temperature", "22C", "--wax-density", "0.86")
    assert "250 g of water at 22 °C is 250.56 ml" in out
    assert "Wax on fire" not in out


def test_the_caution_stands_under_every_pour():
    out = said("--wax", "500g", "--load", "8%", "--flash-point", "93C")
    assert "Never leave melting wax," in out
    assert "Wax on fire: lid on, no water." in out
    assert "Flash point of the oil: 93 °C." in out


def test_json_is_one_object_with_the_same_answer():
    answer = json.loads(said(*THE_SET, "--json"))
    assert answer["weighed"]["weighings_g"] == [518.2, 506.9]
    assert answer["weighed"]["mix"]["oil_g"] == pytest.approx(40.552, abs=0.001)
    assert answer["blend"] is None
    assert "3538.89 g" in answer["sentence"]


def test_a_quantity_is_converted_alone():
    assert said("--convert", "185F") == "185 °F is 85 °C.\n"
    assert said("--convert", "10F", "--difference") == "A difference of 10 °F is 5.56 °C.\n"
    assert json.loads(said("--convert", "0.25 in", "--json"))["others"][0] == [
        pytest.approx(6.35),
        "mm",
    ]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--wax", "500g", "--load", "80%"), "Load of wax is 80 %; 0.01 to 40 % is allowed"),
        (("--wax", "500g", "--load", "0%"), "Load of wax is 0 %"),
        (("--wax", "-5g", "--load", "8%"), "Wax is -5 g"),
        (("--wax", "0g", "--load", "8%"), "Wax is 0 g"),
        (("--wax", "nan g", "--load", "8%"), "--wax: “nan g” is not a number"),
        (("--wax", "inf", "--load", "8%"), "--wax: “inf” is not a number"),
        (("--wax", "1,234g", "--load", "8%"), "--wax: “1,234g” can be read in two ways"),
        (("--wax", "500", "--load", "8%"), "--wax: “500” has no unit"),
        (("--wax", "5 stone", "--load", "8%"), "--wax: “5 stone” has a unit that is not known"),
        (("--wax", "500g", "--load", "1,250 %"), "“1,250 %” can be read in two ways"),
        (("--wax", "500g"), "The load is needed as well"),
        (("--load", "9.5%", "--card-maximum", "9%"), "(the wax card's maximum)"),
        (("--load", "8% of wax", "--of", "total"), "is of wax, but --of says total"),
        (("--wax", "9g", "--load", "8%", "--blend", "Ferry Rope"), "not an oil with its parts"),
        (("--load", "8%", "--flash-point", "65C"), "The flash point is given, but nothing it"),
        (("--convert", "185"), "“185” has no unit"),
        (("--convert", "185F", "--wax", "5g"), "--convert stands beside wax"),
        (("--difference", "--load", "8%"), "--difference is given, but no quantity"),
        ((), "Nothing was asked"),
    ],
)
def test_what_cannot_be_worked_with_is_a_sentence_and_exit_code_2(words, sentence):
    result = run(*words)
    assert result.exit_code == 2
    assert sentence in result.stderr
    assert result.stdout == ""
    assert "Traceback" not in result.stderr


@pytest.mark.parametrize("asked", ["--help", "load --wax 500g --load 8%"])
def test_neither_help_nor_a_load_imports_the_heavy_libraries(asked):
    code = (
        "import sys; from throwbench.cli import main\n"
        f"main({asked.split()!r}, standalone_mode=False)\n"
        "sys.exit(any(name in sys.modules for name in ('numpy', 'scipy', 'pandas')))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
