"""The workshop's address against real servers: who answers, and what is asked before paper."""

import re
import shutil
import sqlite3

import pytest

from browser import road
from browser.conftest import LAPTOP, Served, serving
from browser.readable import faults


def lead_to(served: Served, address: str) -> None:
    """Set the address past the page, which takes none that leads each device to itself."""
    with sqlite3.connect(served.folder / "workshop.sqlite3", timeout=20) as database:
        database.execute(
            "update house_workshop set address = ?, address_answered_at = null", [address]
        )
    database.close()


@pytest.fixture
def other(demo_made, tmp_path):
    """Another workshop on this machine."""
    folder = tmp_path / "other"
    shutil.copytree(demo_made, folder)
    settings = folder / "settings.json"
    kept = settings.read_text()
    settings.write_text(re.sub(r'("secret_key": ")', r"\1another-", kept))
    with serving("serve", str(folder), folder=folder) as served:
        yield served


def check(page) -> str:
    page.goto("/house/address/")
    road.press(page, "Check it again")
    return road.plain(road.main_of(page).locator(".finding__what").first)


def test_a_server_finds_itself_and_tells_another_workshop_apart(demo, other, open_page):
    page = open_page(demo, LAPTOP)
    lead_to(demo, demo.address)
    assert check(page) == f"This workshop answered at {demo.address}."
    found = faults(page)
    lead_to(demo, other.address)
    assert check(page) == f"Another workshop answered at {other.address}, not this one."
    found += faults(page)
    other.process.terminate()
    other.process.wait(10)
    assert check(page) == f"Nobody answered at {other.address}."
    assert found + faults(page) == []


def test_before_tags_are_printed_the_address_is_asked_at(demo, open_page):
    page = open_page(demo, LAPTOP)
    lead_to(demo, demo.address)
    road.go_to_trial(page, "Long Light", "Cure")
    road.follow_link(page, "Print the shelf tags")
    assert "no other device has opened a page there yet" in road.head_of(page)
    found = faults(page)
    href = page.get_by_role("link", name="Print all the same").get_attribute("href")
    answer = page.request.get(page.url + href)
    assert answer.headers["content-type"] == "application/pdf"
    page.get_by_role("link", name="Check again").click()
    assert "no other device has opened a page there yet" in road.head_of(page)
    page.get_by_role("link", name="Set the address").click()
    assert road.head_of(page) == f"Square codes on paper lead to {demo.address}."
    assert found + faults(page) == []


def test_an_address_is_taken_by_one_press(empty_and_open, open_page):
    page = open_page(empty_and_open, LAPTOP)
    road.begin(page, workshop="Kattegat Lys", name="Signe")
    page.goto("/house/address/")
    assert road.head_of(page) == "This workshop has no address yet that paper could carry."
    found = faults(page)
    buttons = road.main_of(page).get_by_role("button", name=re.compile("^Take http"))
    taken = buttons.last.inner_text().removeprefix("Take ")
    assert "127.0.0.1" not in taken
    with page.expect_navigation():
        buttons.last.click()
    assert road.head_of(page) == f"Square codes on paper lead to {taken}."
    road.fill(page, Workshop_address="http://127.0.0.1:8650")
    road.press(page, "Keep this address")
    assert "leads each device to itself" in road.plain(road.main_of(page))
    assert found + faults(page) == []
