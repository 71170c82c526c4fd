"""The whole road of the demo by clicks: from the lit candles to a line that four oils joined."""

import re

import pytest

from browser import road
from browser.conftest import LAPTOP, PHONE

ways = pytest.mark.parametrize(
    ("size", "scripts"),
    [(PHONE, True), (LAPTOP, False)],
    ids=["phone, with scripts", "laptop, without"],
)


@ways
def test_the_demo_is_walked_from_the_lit_candles_to_the_line(demo, open_page, size, scripts):
    page = open_page(demo, size, scripts=scripts)
    _look_at_the_lit(page)
    _sniff_by_hand_round(page)
    _type_slips_and_close(page)
    _decide(page)
    _look_at_the_line_and_an_oil(page)
    _compare_the_rhubarbs(page)
    _write_down_an_oil(page)


def _look_at_the_lit(page):
    """One is put out with a figure, one flame is typed wrong and asked about, the rest are seen."""
    assert road.head_of(page).startswith("Five candles are lit. Put out ")
    road.follow_link(page, "Go round the lit candles")
    out, changed = road.of_candle(page, "H6X"), road.of_candle(page, "F7R")
    out.get_by_role("radio", name="Put out").check()
    out.get_by_role("checkbox", name="None of these").check()
    _measure(out, "Melt pool", "66")
    changed.get_by_role("radio", name="Changed").check()
    _measure(changed, "Flame height", "80")
    road.press(page, "Note these; the rest seen, no change")
    asked = changed.get_by_role("alert")
    assert "80 mm is over 75 mm (house limit)." in asked.inner_text()
    assert changed.get_by_label("Flame height").input_value() == "80"
    changed.get_by_label("Flame height").fill("18")
    road.press(page, "Note these; the rest seen, no change")
    assert "last seen" in road.of_candle(page, "D5Q").inner_text()
    assert road.of_candle(page, "H6X").count() == 0


def _measure(of_one, label, value):
    of_one.locator("details:not([open]) > summary", has_text="A number").click()
    of_one.get_by_label(label, exact=True).fill(value)


def _sniff_by_hand_round(page):
    road.go_to(page, "Today")
    road.follow_link(page, "Hand the phone round")
    assert "Three of five noses" in road.head_of(page)
    digits = road.hand_round(page)
    road.hand_round_scores(
        page,
        [
            ("Isak", "417", "4", "3"),
            ("Pernille", "682", "5", "4"),
            ("Isak", "682", "2", "cannot tell"),
            ("Pernille", "417", "4", "5"),
        ],
    )
    road.way_back(page, digits)
    assert "One of five noses" in road.head_of(page)


def _type_slips_and_close(page):
    road.follow_link(page, "Type slips in")
    road.follow_link(page, re.compile("^Tor"))
    for tag, liking, strength in (("417", "3", "4"), ("682", "?", "2")):
        slip = road.main_of(page).get_by_role("group", name=re.compile(f"^{tag}"))
        slip.get_by_label("Do you like it?").fill(liking)
        slip.get_by_label("How strong is it?").fill(strength)
    road.press(page, "These are Tor’s slips")
    road.go_to(page, "Trials")
    road.follow_link(page, "Softer Rope")
    road.follow_link(page, "Burn and sniff")
    road.follow_link(page, "Sniff: the panels")
    road.follow_link(page, re.compile("24 May 2027.*", re.S))
    assert road.head_of(page).startswith("Every nose has answered")
    road.close_panel(page)


def _decide(page):
    road.go_to_trial(page, "Long Light", "Verdict")
    assert road.head_of(page).startswith("The pick: Slate After Rain, Bakehouse at Five, ")
    road.press(page, re.compile("Ask"))
    assert road.head_of(page).startswith("The pick: Slate After Rain, Bakehouse at Five, ")
    road.follow_link(page, "These four join the line")
    road.decide(page, button=re.compile("join the line"), why="They won over two weeks of noses.")
    assert "They won over two weeks of noses." in road.main_of(page).inner_text()


def _look_at_the_line_and_an_oil(page):
    road.go_to(page, "Line")
    said = road.main_of(page).inner_text()
    for oil in ("Slate After Rain", "Bakehouse at Five", "Rebarbara K", "Kelp and Iron"):
        assert oil in said
    assert "Sell none before" in said
    road.go_to(page, "Shelf")
    road.follow_link(page, "Slate After Rain")
    assert "Slate After Rain" in road.head_of(page)
    assert page.get_by_role("heading", name="Cold and hot").count() == 1


def _compare_the_rhubarbs(page):
    road.go_to_trial(page, "Long Light", "Verdict")
    road.follow_link(page, re.compile("^rhubarb$"))
    assert road.head_of(page).startswith("Rebarbara K is ahead")
    rows = road.main_of(page).get_by_role("rowheader").all_inner_texts()
    assert {"Rebarbara K", "Rhubarb Cold Frame", "Vårrabarbra 114"} <= {row.strip() for row in rows}


def _write_down_an_oil(page):
    road.go_to(page, "Shelf")
    road.add_oil_line(page, "pier at dawn, Kisbalog Illat, 7 % of wax")
    assert "pier at dawn" in road.head_of(page)
    assert "7 % of wax" in road.main_of(page).inner_text()
