"""Options as makers write them (`definition` throughout)."""

import click
import pytest
from click.testing import CliRunner

from throwbench.cli.options import read_band, read_days, read_house, read_scale, refuse_unused
from throwbench.cli.say import Refusal
from throwbench.verdict.result import Band


@pytest.mark.parametrize(
    ("text", "scale"),
    [
        (None, None),
        ("1-5", (1, 5)),
        ("0-10", (0, 10)),
        ("1–5", (1, 5)),
        ("1 to 5", (1, 5)),
        ("1 - 5", (1, 5)),
        ("0-1", (0, 1)),
        ("0-30", (0, 30)),
        ("1-31", (1, 31)),
    ],
)
def test_a_scale_is_its_lowest_and_highest_step(text, scale):
    assert read_scale(text) == scale


@pytest.mark.parametrize(
    ("text", "band"),
    [
        ("3.2-4.4", Band(3.2, 4.4)),
        ("3,2-4,4", Band(3.2, 4.4)),
        ("3 to 4", Band(3.0, 4.0)),
        ("kitchen=3.2-4.4", Band(3.2, 4.4, room="kitchen")),
        ("back room = 3-4", Band(3.0, 4.0, room="back room")),
        ("a=b=3-4", Band(3.0, 4.0, room="a=b")),
        ("=3-4", Band(3.0, 4.0)),
    ],
)
def test_a_band_holds_everywhere_or_in_a_room(text, band):
    assert read_band(text) == band


@pytest.mark.parametrize(
    ("text", "days"), [(None, None), ("14", 14.0), ("0", 0.0), ("9,5", 9.5), (" 7 ", 7.0)]
)
def test_a_cure_is_a_number_of_days(text, days):
    assert read_days(text) == days


def test_a_limit_of_ones_own_is_a_rule_and_a_figure():
    assert read_house("vessel-temperature=70") == ("vessel-temperature", 70.0)
    assert read_house(" end-line = 6,5 ") == ("end-line", 6.5)


SCALE = "two whole steps, the lower one first, such as 1-5."
BAND = "two scores, the lower one first, such as 3.2-4.4."
NOT_A_SCALE = "is not a scale; it has 2 to 31 whole steps. Write for example: 1-5"
TOO_MANY = (
    "a scale has 2 to 31 of them. Group the scores into at most 31 steps and name that scale."
)
HOUSE = "a rule, =, and a figure. Write for example: --house vessel-temperature=70"


@pytest.mark.parametrize(
    ("read", "text", "words"),
    [
        (read_scale, "five", f"--scale five is not understood; it is {SCALE} Write it so."),
        (read_scale, "1-x", f"--scale 1-x is not understood; it is {SCALE} Write it so."),
        (read_scale, "1-5-9", f"--scale 1-5-9 is not understood; it is {SCALE} Write it so."),
        (read_scale, "5-1", f"--scale 5-1 ends before it begins; it is {SCALE} Turn it round."),
        (read_scale, "5-5", f"--scale 5-5 ends before it begins; it is {SCALE} Turn it round."),
        (read_scale, "1-4.5", f"--scale 1-4.5 {NOT_A_SCALE}"),
        (read_scale, "0.5-5", f"--scale 0.5-5 {NOT_A_SCALE}"),
        (read_scale, "0-31", f"--scale 0-31 has 32 steps; {TOO_MANY}"),
        (read_scale, "0-100", f"--scale 0-100 has 101 steps; {TOO_MANY}"),
        (read_band, "3", f"--band 3 is not understood; it is {BAND} Write it so."),
        (read_band, "hall=3-", f"--band 3- is not understood; it is {BAND} Write it so."),
        (read_band, "nan-4", f"--band nan-4 is not understood; it is {BAND} Write it so."),
        (read_band, "4-3", f"--band 4-3 ends before it begins; it is {BAND} Turn it round."),
        (
            read_days,
            "nan",
            "--cure-days nan is not understood; it is a number of days, such as 14. Write it so.",
        ),
        (
            read_days,
            "-1",
            "--cure-days -1 is below 0; it is 0 days or more. Write for example: 14",
        ),
        (
            read_house,
            "flame",
            f"--house flame is not understood; it is {HOUSE}",
        ),
        (
            read_house,
            "flame=tall",
            f"--house flame=tall is not understood; it is {HOUSE}",
        ),
    ],
)
def test_what_is_not_understood_is_a_sentence(read, text, words):
    with pytest.raises(Refusal) as refused:
        read(text)
    assert refused.value.message == words
    assert refused.value.exit_code == 2


@click.command()
@click.option("--nodes", type=int, default=10)
@click.option("--band", "bands", multiple=True)
@click.pass_context
def fitted(ctx, nodes, bands):
    refuse_unused(ctx, ("nodes", "bands"), belongs_to="a fit")


@pytest.mark.parametrize(
    ("words", "answer"),
    [
        ((), ""),
        (
            ("--nodes", "10"),
            "--nodes would change nothing here. It belongs to a fit. Leave it out.\n",
        ),
        (
            ("--band", "3-4", "--nodes", "9"),
            "--nodes and --band would change nothing here. They belong to a fit. Leave them out.\n",
        ),
    ],
)
def test_an_option_that_would_change_nothing_is_said(words, answer):
    found = CliRunner().invoke(fitted, words)
    assert (found.output, found.exit_code) == (answer, 2 if words else 0)
