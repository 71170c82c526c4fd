"""Where no camera reads the square code, a hand types: to come in, to a candle, to a tag."""

import re

import pytest
from playwright.sync_api import expect

from browser import road
from browser.conftest import LAPTOP, PHONE, called
from browser.readable import faults

CODE = re.compile(r"\b[0-9A-Z]{4} [0-9A-Z]{4}\b")
EITHER = pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])


@EITHER
def test_a_phone_types_what_the_laptop_shows(empty_and_open, open_page, scripts):
    laptop = open_page(empty_and_open, LAPTOP)
    road.begin(laptop, workshop="Kattegat Lys", name="Signe")
    laptop.goto("/house/phone/")
    road.press(laptop, "Show the code")
    said = road.plain(road.main_of(laptop).get_by_text("No camera at hand?"))
    assert "127.0.0.1" not in said
    assert "localhost" not in said
    if scripts:
        assert faults(laptop) == []

    phone = open_page(empty_and_open, PHONE, scripts=scripts, signed_in=False)
    phone.goto("/")
    road.fill(phone, Type_the_code_from_the_laptop=CODE.search(said)[0].lower().replace(" ", "-"))
    road.press(phone, "Come in with this code")
    road.press(phone, "Let this browser in")
    expect(phone.get_by_text("Signe · owner")).to_be_visible()


def test_the_command_prints_a_code_too(empty, open_page):
    code = CODE.search(called("sign-in", str(empty.folder)).stdout)[0]
    page = open_page(empty, PHONE, signed_in=False)
    page.goto("/sign-in/")
    road.fill(page, Type_the_code_from_the_laptop=code)
    road.press(page, "Come in with this code")
    assert road.head_of(page) == "This link lets this browser in, once."


def test_too_many_wrong_codes_wait_and_all_of_it_is_readable(empty, open_page):
    page = open_page(empty, PHONE, signed_in=False)
    page.goto("/sign-in/")
    found = faults(page)
    for tried in range(10):
        road.fill(page, Type_the_code_from_the_laptop="ZZZZ ZZZZ")
        road.press(page, "Come in with this code")
        found += faults(page) if tried == 0 else []
    expect(page.get_by_text("Too many wrong codes")).to_be_visible()
    assert found + faults(page) == []


@EITHER
def test_the_code_under_a_base_is_typed_on_today(demo_to_read, open_page, scripts):
    page = open_page(demo_to_read, PHONE, scripts=scripts)
    road.fill(page, Type_a_code="k7f")
    road.press(page, "Find it")
    assert "/candles/K7F/" in page.url


def test_a_code_of_nothing_is_readable(demo_to_read, open_page):
    page = open_page(demo_to_read, PHONE)
    page.goto("/round/")
    page.get_by_role("link", name="Type a code").click()
    found = faults(page)
    road.fill(page, Type_a_code="z9z")
    road.press(page, "Find it")
    assert road.head_of(page) == "No candle or panel here has the code z9z."
    assert found + faults(page) == []


def test_a_nose_types_the_tag_in_front(demo, open_page):
    page = open_page(demo, PHONE)
    road.follow_link(page, "Hand the phone round")
    road.press(page, "Hand the phone round")
    page.goto("/nose/")
    road.be_nose(page, "Isak")
    page.goto("/nose/mine/")
    found = faults(page)
    road.fill(page, Or_type_the_three_digits_in_front_of_you="000")
    road.press(page, "Go to it")
    assert "None of your tags is 000." in road.head_of(page)
    found += faults(page)
    road.fill(page, Or_type_the_three_digits_in_front_of_you="417")
    road.press(page, "Go to it")
    assert page.url.endswith("/nose/417/")
    assert found == []
