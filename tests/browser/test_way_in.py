"""The way in by clicks: a workshop begins, a phone reads the square code, a page turns dark."""

import io
import re

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import expect

PHONE, LAPTOP = {"width": 360, "height": 740}, {"width": 1280, "height": 860}
EITHER = pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])


def begin(page) -> None:
    page.get_by_label("Name of the workshop").fill("Saltmyr Lysstøperi")
    page.get_by_label("Your own name").fill("Ragnhild")
    page.get_by_label("Time zone").select_option("Europe/Oslo")
    page.get_by_role("button", name="Begin this workshop").click()


@EITHER
@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_an_empty_workshop_begins_and_shows_the_first_step(empty, open_page, size, scripts):
    page = open_page(empty, size, scripts=scripts)
    expect(page).to_have_url(re.compile("/begin/$"))
    begin(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("Nothing is lit, nothing is due.")
    expect(page.locator("[aria-current=step]")).to_contain_text("A line per oil")
    page.get_by_role("link", name="House").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("One person, no rooms")


def test_what_was_typed_stays_when_something_is_missing(empty, open_page):
    page = open_page(empty, PHONE)
    page.get_by_label("Name of the workshop").fill("Saltmyr")
    page.get_by_label("Your own name").fill(" ")
    page.get_by_label("Time zone").select_option("Europe/Oslo")
    page.get_by_role("button", name="Begin this workshop").click()
    expect(page.get_by_label("Name of the workshop")).to_have_value("Saltmyr")
    expect(page.get_by_label("Your own name")).to_have_attribute("aria-invalid", "true")
    expect(page.get_by_label("Your own name")).to_be_focused()
    page.get_by_role("alert").get_by_role("link", name="Your own name").click()
    expect(page).to_have_url(re.compile("#id_owner_name$"))


def test_a_phone_reads_the_code_on_the_laptops_screen(empty_and_open, open_page):
    laptop = open_page(empty_and_open, LAPTOP)
    begin(laptop)
    laptop.goto("/house/phone/")
    laptop.get_by_role("button", name="Show the code").click()
    drawn = laptop.get_by_role("img", name=re.compile("Square code")).screenshot()
    (code,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(drawn)))
    assert code.text in laptop.locator(".house__link").inner_text()

    phone = open_page(empty_and_open, PHONE, signed_in=False)
    phone.goto(code.text)
    assert "/sign-in-now/" in phone.url
    phone.get_by_role("button", name="Let this browser in").click()
    expect(phone.get_by_text("Ragnhild · owner")).to_be_visible()
    assert code.text.rstrip("/").rpartition("/")[2] not in phone.content()


def test_a_stranger_sees_how_to_come_in_and_nothing_else(empty, open_page):
    page = open_page(empty, PHONE, signed_in=False)
    page.goto("/house/")
    expect(page.get_by_role("heading", level=1)).to_have_text(
        "You come in by a link or a code, not by a password."
    )
    assert page.get_by_role("navigation").count() == 0


def test_dark_pages_stay_dark_on_a_light_device(empty, open_page):
    page = open_page(empty, LAPTOP)
    begin(page)
    page.goto("/house/")
    light = page.evaluate("getComputedStyle(document.body).backgroundColor")
    page.get_by_role("button", name="Dark pages").click()
    page.goto("/")
    dark = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert (light, dark) == ("rgb(251, 252, 250)", "rgb(17, 24, 31)")
