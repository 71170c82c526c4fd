"""The table: one row per oil, nothing that a spreadsheet would run, no name of an assessor."""

import csv
import io
from dataclasses import replace

from throwbench.documents.table import table
from throwbench.verdict.result import Verdict


def read(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_one_row_per_oil_in_the_order_of_the_verdict(verdict: Verdict) -> None:
    rows = read(table(verdict))
    assert [row["oil"] for row in rows] == [one.candidate for one in verdict.candidates]


def test_every_row_says_what_stands_above_it(verdict: Verdict) -> None:
    assert {row["note"] for row in read(table(verdict))} == {verdict.caution}


def test_figures_counts_and_scores_are_there(verdict: Verdict) -> None:
    slate, *_, willow, _ = read(table(verdict))
    assert slate["hot_throw_expected"] == "4.200"
    assert slate["hot_throw_8_in_10_low"] == "3.920"
    assert slate["hot_throw_19_in_20_high"] == "4.628"
    assert slate["hot_throw_scores"] == "3 4 4 4 4 4 4 4 5 5 5 5"
    assert slate["liking_expected"] == "4.300"
    assert slate["chance_to_belong_of_100"] == "over 99"
    assert slate["limits"] == "wick 4 none broken: 2 candles, 17 burns, to the end"
    assert willow["hot_throw_expected"] == ""
    assert willow["chance_to_belong_of_100"] == ""
    assert willow["hot_throw_not_counted"].startswith("1 2 2")


def test_an_oil_named_like_a_formula_is_shown_and_not_run(verdict: Verdict) -> None:
    oil = replace(verdict.candidates[0], candidate='=HYPERLINK("x")', supplier="-2", group="@g")
    row = read(table(replace(verdict, candidates=(oil,))))[0]
    assert (row["oil"], row["supplier"], row["theme"]) == ('\'=HYPERLINK("x")', "'-2", "'@g")


def test_a_worth_below_nothing_stays_a_number(verdict: Verdict) -> None:
    oil = replace(verdict.candidates[0], worth=-0.25)
    assert read(table(replace(verdict, candidates=(oil,))))[0]["worth_steps"] == "-0.250"


def test_one_oil_alone_has_no_chances(alone: Verdict) -> None:
    fog = read(table(alone))[0]
    assert fog["worth_steps"] == "3.400"
    assert fog["chance_to_belong_of_100"] == fog["chance_best_of_100"] == ""


def test_no_name_of_an_assessor_is_in_the_table(verdict: Verdict) -> None:
    assert verdict.noses[0].assessor == "Pernille"
    assert "Pernille" not in table(verdict)
