"""The pour sheet: what to weigh, where to write, and a gauge card that measures right."""

from dataclasses import replace
from datetime import date

import pytest

from paper import boxes_mm, for_keeping, pages, text_stays_mm, title
from throwbench.documents.heading import Heading
from throwbench.documents.pour_sheet import (
    BOXES,
    PitcherRow,
    PourCandle,
    PourSheet,
    WaxCard,
    pour_sheet,
)
from throwbench.science.errors import OutOfRangeError

R36 = WaxCard(
    name="R-36",
    melts_at_c=46,
    never_above_c=85,
    add_oil_low_c=70,
    add_oil_high_c=74,
    stir_min=3,
    pour_low_c=56,
    pour_high_c=60,
    cure_days=10,
    max_load_percent=9,
)
LONG_NAME = "Smoked Rhubarb, Wet Slate & Burnt-Sugar Custard No. 5 (Åse's)"
LONG_WORD = "Donaudampfschiffahrtselektrizitätenhauptbetriebswerkbauunterbeamten"


def candle(code: str, *, wick: str = "flat cotton 4", fixing: str = "high-melt glue") -> PourCandle:
    return PourCandle(code=code, wick=wick, fixing=fixing, vessel="stoneware cup 68 mm")


SLATE = PitcherRow(
    name="A",
    oil="Slate After Rain",
    supplier="Tarnholt Riechstoffe",
    load_percent=8,
    wax_g=292.6,
    oil_g=23.4,
    flash_c=93,
    candles=(candle("K7F"), candle("K3B"), candle("S4M", fixing="sticker")),
)


@pytest.fixture
def sheet(heading: Heading) -> PourSheet:
    day = replace(heading, day=date(2027, 4, 24))
    return PourSheet(heading=day, wax_card=R36, pitchers=(SLATE,))


def test_it_says_whose_pour_it_is_and_of_which_day(sheet: PourSheet) -> None:
    made = pour_sheet(sheet)
    assert title(made) == "Pour sheet · Long Light · Saturday 24 April 2027"
    said = pages(made)
    assert len(said) == 2
    for number, words in enumerate(said, start=1):
        assert "Saltmyr Lysstøperi" in words
        assert "Trial Long Light · pour sheet of Saturday 24 April 2027" in words
        assert f"sheet {number} of 2" in words
        assert "Local rules and a laboratory's test stand above everything here." in words
    assert "Pour 1 pitcher." in said[0]
    assert "1 oil, 3 test candles, 292.6 g of wax in all." in said[0]


def test_the_wax_card_stands_on_it(sheet: PourSheet) -> None:
    said = pages(pour_sheet(sheet))[0]
    assert "melts at 46 °C never above 85 °C add oil at 70–74 °C stir 3 min" in said
    assert "pour at 56–60 °C cure 10 days load, at most 9 % of wax" in said


def test_what_a_wax_card_does_not_say_is_not_known(sheet: PourSheet) -> None:
    said = pages(pour_sheet(replace(sheet, wax_card=WaxCard(name="R-36"))))[0]
    assert said.count("not known") == 8
    assert "The wax card's maximum is not known: ask the supplier before you melt it." in said


def test_half_a_range_says_which_half(sheet: PourSheet) -> None:
    card = WaxCard(name="R-36", add_oil_low_c=70, pour_high_c=60, cure_days=1)
    said = pages(pour_sheet(replace(sheet, wax_card=card)))[0]
    assert "add oil at from 70 °C" in said
    assert "pour at up to 60 °C cure 1 day" in said


def test_a_pitcher_has_its_weights_on_both_bases_and_its_flash_point(sheet: PourSheet) -> None:
    said = pages(pour_sheet(sheet))[0]
    assert "A pitcher Slate After Rain Tarnholt Riechstoffe 292.6 g wax 23.4 g oil" in said
    # definition: 8 / 108 is 7.41 %
    assert "8 % of wax, 7.41 % of total Flash point 93 °C: keep flames away." in said


def test_candles_that_stand_ready_alike_share_a_line(sheet: PourSheet) -> None:
    said = pages(pour_sheet(sheet))[0]
    assert "K7F, K3B flat cotton 4 · high-melt glue · stoneware cup 68 mm" in said
    assert "S4M flat cotton 4 · sticker · stoneware cup 68 mm" in said


def test_what_is_not_known_of_a_pitcher_is_said(sheet: PourSheet) -> None:
    bare = PitcherRow(oil="Fog", candles=(PourCandle(code="N5B"),))
    said = pages(pour_sheet(replace(sheet, pitchers=(bare,))))[0]
    assert "1 pitcher Fog not known wax not known oil" in said.replace("knownoil", "known oil")
    assert "Flash point not known: keep flames away." in said
    assert "N5B wick, fixing and vessel not known" in said
    assert "of wax in all" not in said


def test_no_oil_is_a_load_too(sheet: PourSheet) -> None:
    plain = replace(SLATE, load_percent=0, oil_g=0)
    assert "no oil" in pages(pour_sheet(replace(sheet, pitchers=(plain,))))[0]


@pytest.mark.parametrize(("load", "above"), [(9.0, False), (9.01, True)])
def test_a_load_above_the_wax_card_is_said(sheet: PourSheet, load: float, above: bool) -> None:
    heavy = replace(SLATE, load_percent=load)
    said = pages(pour_sheet(replace(sheet, pitchers=(heavy,))))[0]
    warned = (
        "Above the wax card's 9 % of wax. Take less oil, or a wax whose card allows more." in said
    )
    assert warned is above


def test_a_load_that_no_wax_takes_is_refused(sheet: PourSheet) -> None:
    with pytest.raises(OutOfRangeError, match="41"):
        pour_sheet(replace(sheet, pitchers=(replace(SLATE, load_percent=41),)))


def test_boxes_for_handwriting_are_12_mm_high(sheet: PourSheet) -> None:
    made = pour_sheet(replace(sheet, pitchers=(SLATE, SLATE)))
    said = pages(made)[0]
    assert all(said.count(name) == 2 for name in BOXES[:-1])
    tall = [width for width, height in boxes_mm(made, 0) if 12 <= height < 12.6]
    assert len(tall) == 2 * len(BOXES)
    assert min(tall) > 18


def test_the_cautions_stand_where_the_hand_is(sheet: PourSheet) -> None:
    said = pages(pour_sheet(sheet))[0]
    assert "Never above 85 °C, the wax card's maximum. Never leave melting wax." in said
    assert "Wax on fire: lid on, no water." in said


def test_a_sheet_without_pitchers_has_the_wax_card_and_the_gauge_card(sheet: PourSheet) -> None:
    said = pages(pour_sheet(replace(sheet, pitchers=())))
    assert "Pour 0 pitchers. Long Light: 0 oils, 0 test candles." in said[0]
    assert "Measure this line: 50 mm." in said[1]


def test_many_pitchers_and_candles_go_on_over_the_page(sheet: PourSheet) -> None:
    crowd = tuple(candle(f"K{number:02}") for number in range(60))
    rows = tuple(replace(SLATE, name=str(number)) for number in range(1, 26))
    made = pour_sheet(replace(sheet, pitchers=(*rows, replace(SLATE, name="Z", candles=crowd))))
    said = pages(made)
    assert len(said) > 6
    whole = " ".join(said)
    assert all(f"{number} pitcher Slate After Rain" in whole for number in range(1, 26))
    assert "K00, K01" in whole
    assert "K59" in whole
    assert text_stays_mm(made) > 4


def test_a_pitcher_of_many_kinds_of_candle_loses_none(sheet: PourSheet) -> None:
    crowd = tuple(candle(f"K{number:02}", wick=f"flat cotton {number}") for number in range(90))
    made = pour_sheet(replace(sheet, pitchers=(replace(SLATE, candles=crowd),)))
    whole = " ".join(pages(made))
    assert all(f"K{number:02} flat cotton {number} " in whole for number in range(90))
    assert text_stays_mm(made) > 4


def test_long_names_and_strange_letters_stay_on_the_sheet(sheet: PourSheet) -> None:
    rows = tuple(
        replace(
            SLATE,
            name="BIGPITCHER",
            oil=name,
            supplier=LONG_NAME,
            candles=(candle("K7F", wick=LONG_WORD),),
        )
        for name in (LONG_NAME, LONG_WORD, '=1+1 #let x = "$y$"', "火 Űrrom")
    )
    made = pour_sheet(replace(sheet, pitchers=rows))
    whole = " ".join(pages(made))
    assert LONG_NAME in whole
    assert '=1+1 #let x = "$y$"' in whole
    assert "□ Űrrom" in whole
    assert text_stays_mm(made) > 13


def test_it_is_made_for_keeping_and_always_the_same(sheet: PourSheet) -> None:
    made = pour_sheet(sheet)
    assert for_keeping(made)
    assert made == pour_sheet(sheet)


def test_ten_pitchers_take_two_sheets_and_the_gauge_card(sheet: PourSheet) -> None:
    ten = tuple(replace(SLATE, name=name, candles=(candle("K7F"),)) for name in "ABCDEFGHIJ")
    assert len(pages(pour_sheet(replace(sheet, pitchers=ten)))) == 3
