"""From an empty workshop to its first verdict by clicks, within a maker's first hour."""

import re
from datetime import timedelta

import pytest

from browser import road
from browser.conftest import LAPTOP, PHONE

SLATE, ROPE = "slate rain, Tarnholt, 8 %, wick 4", "ferry rope, Fjellrype, 8 %, wick 4"
TRIAL, AN_HOUR = "First candle", timedelta(minutes=65)

ways = pytest.mark.parametrize(
    ("size", "scripts"),
    [(PHONE, True), (LAPTOP, False)],
    ids=["phone, with scripts", "laptop, without"],
)


@ways
def test_an_empty_workshop_comes_to_its_first_verdict(empty, open_page, size, scripts):
    page = open_page(empty, size, scripts=scripts)
    road.begin(page, workshop="Kattegat Lys", name="Signe")
    _shelf_and_plan(page)
    slate, rope = _pour_and_cure(page)
    _light_and_look(page, slate, rope)
    tags = _open_panel(page, slate, rope)
    _sniff(page, tags)
    _put_out(page, slate, rope)
    _verdict_and_decision(page)


def _shelf_and_plan(page):
    road.follow_link(page, "Write down the first oil")
    road.add_oil_line(page, SLATE)
    assert "slate rain" in road.head_of(page)
    road.go_to(page, "Today")
    road.follow_link(page, "Begin the first trial")
    road.follow_link(page, "Begin the first trial")
    road.plan_trial(page, question="Slate or rope?", name=TRIAL)
    road.add_oil(page, "slate rain, Tarnholt")
    road.add_oil(page, ROPE)
    road.choose_wick(page, wick="flat cotton 4", load="8", wax="R-36", vessel="cup")


def _pour_and_cure(page) -> tuple[str, str]:
    road.fix_plan(page)
    slate = road.pour(page, oil="slate rain", wax_g="170", days_ago=14)
    rope = road.pour(page, oil="ferry rope", wax_g="170", days_ago=14)
    road.go_to_trial(page, TRIAL, "Cure")
    assert "not known" in road.head_of(page)
    road.say_cure(page, days=10)
    road.go_to_trial(page, TRIAL, "Cure")
    assert "2 candles are cured" in road.head_of(page)
    return slate, rope


def _light_and_look(page, slate, rope):
    _without_a_room_the_way_to_one_is_shown(page, slate)
    for room, kind in (("Kitchen", "living room"), ("Back room", "small room")):
        road.add_room(page, name=room, kind=kind)
    for code, room in ((slate, "Kitchen"), (rope, "Back room")):
        road.go_to_trial(page, TRIAL, "Burn and sniff")
        road.follow_link(page, "Light candles")
        road.light(page, code=code, kind="Nose burn", room=room, ago=AN_HOUR)
    road.check_round(page)
    assert "last seen" in road.of_candle(page, slate).inner_text()


def _without_a_room_the_way_to_one_is_shown(page, code):
    road.go_to_trial(page, TRIAL, "Burn and sniff")
    road.follow_link(page, "Light candles")
    road.choose_to_light(page, code)
    road.follow_link(page, "Add a room")
    assert "first room" in road.head_of(page)


def _open_panel(page, slate, rope) -> dict[str, str]:
    for nose in ("Bo", "Inge"):
        road.add_person(page, name=nose)
    road.go_to_trial(page, TRIAL, "Burn and sniff")
    road.open_panel(page, noses=["Bo", "Inge"])
    assert "Two of two noses" in road.head_of(page)
    return {code: _tag_of(page, code) for code in (slate, rope)}


def _tag_of(page, code) -> str:
    row = road.main_of(page).get_by_role("row", name=re.compile(rf"\b{code}\b"))
    return re.search(r"\d{3}", row.get_by_role("rowheader").inner_text())[0]


def _sniff(page, tags):
    slate, rope = tags.values()
    digits = road.hand_round(page)
    road.hand_round_scores(
        page,
        [
            ("Bo", slate, "4", "3"),
            ("Inge", rope, "2", "5"),
            ("Bo", rope, "2", "4"),
            ("Inge", slate, "5", "3"),
        ],
    )
    road.way_back(page, digits)
    road.close_panel(page)


def _put_out(page, slate, rope):
    road.go_to(page, "Today")
    road.follow_link(page, "Go round the lit candles")
    road.put_out(page, slate, rope)
    assert road.head_of(page) == "No candle is lit."


def _verdict_and_decision(page):
    road.go_to_trial(page, TRIAL, "Verdict")
    road.ask_verdict(page)
    assert "slate rain" in road.head_of(page)
    assert "sell none before its limits are known" in road.main_of(page).inner_text()
    road.follow_link(page, "slate rain joins the line")
    road.decide(page, button="slate rain joins the line", why="Both noses liked it better.")
    assert "Both noses liked it better." in road.main_of(page).inner_text()
    road.go_to(page, "Line")
    assert "slate rain" in road.main_of(page).inner_text()
