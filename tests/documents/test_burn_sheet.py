"""The burn sheet: what the eye sees first, then figures; sealed sheets tell no oil."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest

from paper import at, boxes_mm, for_keeping, ink, middles_mm, pages, text_stays_mm, title
from throwbench.documents.burn_sheet import (
    BEGUN,
    MEASURED,
    SEEN,
    BurnRow,
    BurnSheet,
    burn_sheet,
)
from throwbench.documents.heading import Heading
from throwbench.rules.limit import limits_on
from throwbench.rules.rule import rules
from throwbench.science.errors import UnclearError
from throwbench.science.words import plain

BOXES_FROM_MM = 14 + 24 + 5
"""Edge, margin and gap: where the boxes begin."""
FOOT_MM = 297 - 22
K2F = BurnRow(
    code="K2F",
    vessel="stoneware cup",
    inside_mm=68,
    wick="flat cotton 4",
    oil="Slate After Rain",
    burn=8,
)


@pytest.fixture
def sheet(heading: Heading) -> BurnSheet:
    day = replace(heading, day=date(2027, 5, 12))
    return BurnSheet(heading=day, candles=(K2F,), kind="wick burn")


def test_it_says_what_is_lit(sheet: BurnSheet) -> None:
    made = burn_sheet(sheet)
    assert title(made) == "Burn sheet · Long Light · Wednesday 12 May 2027"
    (said,) = pages(made)
    assert "Trial Long Light · burn sheet of Wednesday 12 May 2027 sheet 1 of 1" in said
    assert "1 candle, wick burn." in said
    assert "K2F burn 8 stoneware cup · 68 mm inside · flat cotton 4 Slate After Rain" in said


def test_what_is_not_known_of_a_candle_is_said(sheet: BurnSheet) -> None:
    (said,) = pages(burn_sheet(replace(sheet, candles=(BurnRow(code="N5B"),))))
    assert "N5B inside diameter not known lit at" in said


def test_a_sealed_sheet_names_no_oil(sheet: BurnSheet) -> None:
    open_sheet, sealed = burn_sheet(sheet), burn_sheet(replace(sheet, sealed=True))
    assert "Slate" in pages(open_sheet)[0]
    assert "Slate" not in pages(sealed)[0]
    nameless = replace(sheet, candles=(replace(K2F, oil=""),))
    assert sealed == burn_sheet(nameless)


def test_what_the_eye_sees_stands_before_what_is_measured(sheet: BurnSheet) -> None:
    (said,) = pages(burn_sheet(sheet))
    assert f"{' '.join(BEGUN)} time seen, no change {' '.join((*SEEN, *MEASURED))}" in said


@pytest.mark.parametrize("checks", [3, 6])
def test_each_check_has_a_row_12_mm_high(sheet: BurnSheet, checks: int) -> None:
    page = ink(burn_sheet(replace(sheet, checks=checks)), 0)
    lines = middles_mm(page[:, at(BOXES_FROM_MM + 11)])  # through the column of times
    gaps = [low - high for high, low in pairwise(line for line in lines if line < FOOT_MM)]
    assert gaps[-checks:] == pytest.approx([12] * checks, abs=0.2)
    assert abs(gaps[-checks - 1] - 12) > 1


def test_once_a_burn_there_are_seven_boxes(sheet: BurnSheet) -> None:
    made = burn_sheet(sheet)
    boxes = [width for width, height in boxes_mm(made, 0) if 12 <= height < 12.6 and width > 18]
    assert len(boxes) == len(BEGUN)


def test_the_cautions_and_house_limits_stand_on_it(sheet: BurnSheet) -> None:
    (said,) = pages(burn_sheet(sheet))
    assert (
        "Over the mark, a flare-up, a crack, soot: put it out at once and do not light it again."
        in said
    )
    assert "If it went out by itself, do not light it again either." in said
    assert "Never blow at hot wax, never use water." in said
    assert "Keep candles at least 100 mm apart (house limit)" in said
    assert "Wax on fire: lid on, no water." in said
    assert said.count("Local rules and a laboratory's test stand above everything here.") == 1
    assert "House limits: flame 75 mm, burn 4 h, trim 3 to 8 mm, end line 12 mm of wax." in said


def test_a_limit_that_says_how_it_stands_on_the_sheet_is_on_it(sheet: BurnSheet) -> None:
    (said,) = pages(burn_sheet(sheet))
    figures = {one.rule.id: plain(one.figure) for one in limits_on(date(2027, 5, 24)) if one.figure}
    told = [rule.sheet.format_map(figures) for rule in rules() if rule.sheet]
    assert len(told) >= 4
    assert f"House limits: {', '.join(told)}.".replace("\N{NO-BREAK SPACE}", " ") in said


def test_the_makers_own_limits_take_their_place(sheet: BurnSheet) -> None:
    own = {"flame-height": 60.0, "spacing": 150.0, "burn-length": 3.5}
    (said,) = pages(burn_sheet(replace(sheet, house=own)))
    assert "flame 60 mm, burn 3.5 h" in said
    assert "at least 150 mm apart" in said


def test_a_limit_that_is_not_known_is_refused(sheet: BurnSheet) -> None:
    with pytest.raises(UnclearError, match="flame-hight"):
        burn_sheet(replace(sheet, house={"flame-hight": 60.0}))


def test_a_sheet_without_candles_is_its_cautions(sheet: BurnSheet) -> None:
    (said,) = pages(burn_sheet(replace(sheet, candles=())))
    assert "0 candles, wick burn." in said
    assert "lit at" not in said


def test_many_candles_go_on_over_the_page_and_none_is_torn(sheet: BurnSheet) -> None:
    crowd = tuple(replace(K2F, code=f"K{number:02}") for number in range(18))
    said = pages(burn_sheet(replace(sheet, candles=crowd)))
    assert len(said) == 9
    for number, words in enumerate(said):
        assert f"K{2 * number:02} burn 8" in words
        assert words.count("seen, no change") == 2


def test_long_names_stay_on_the_sheet(sheet: BurnSheet) -> None:
    word = "Donaudampfschiffahrtselektrizitätenhauptbetriebswerkbauunterbeamten"
    rows = (replace(K2F, oil=word, vessel=word), replace(K2F, oil='#x "$y$" 火', code="W8R2N5BX"))
    made = burn_sheet(replace(sheet, candles=rows))
    assert '#x "$y$" □' in " ".join(pages(made))
    assert text_stays_mm(made) > 13


def test_it_is_made_for_keeping_and_always_the_same(sheet: BurnSheet) -> None:
    made = burn_sheet(sheet)
    assert for_keeping(made)
    assert made == burn_sheet(sheet)
