"""What is pressed on a phone over plain http is kept there until the workshop has it."""

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.fielding import (
    Workshop,
    kept_here,
    let_in,
    opened,
    phone,
    phones,
    plain_workshop,
    wait_until_empty,
)

CHECKS = "select count(*) from trials_check where no_change"
ENTRIES = "select count(*) from house_entry"


@pytest.fixture
def here(demo_made, tmp_path) -> Iterator[Workshop]:
    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)
    with plain_workshop(folder) as workshop:
        yield workshop


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with phones() as browser:
        yield browser


@pytest.fixture
def page(here, chromium) -> Iterator[Page]:
    """Ragnhild's phone, let in."""
    context = phone(chromium, here)
    own = context.new_page()
    let_in(own, here)
    yield own
    context.close()


def press(page: Page) -> None:
    page.get_by_role("button", name="Seen, no change").click()


def test_the_phone_is_in_the_plain_world(page):
    """No lock, no worker, no digest: what is built on those would not be there on the network."""
    opened(page, "/round/")
    assert page.evaluate("isSecureContext") is False
    assert page.evaluate("'locks' in navigator || 'serviceWorker' in navigator") is False
    assert page.evaluate("crypto.subtle === undefined && crypto.randomUUID === undefined")


def test_a_press_is_noted_and_the_page_goes_on(here, page):
    before, checks = here.one(ENTRIES), here.one(CHECKS)
    opened(page, "/round/")
    with page.expect_navigation(url="**/round/"):
        press(page)
    assert here.one(ENTRIES) == before + 1
    assert here.one(CHECKS) > checks
    assert kept_here(page) == []


def test_a_press_without_the_workshop_waits_and_is_sent_once_it_is_back(here, page):
    before = here.one(ENTRIES)
    opened(page, "/round/")
    here.kill()
    press(page)
    expect(page.locator(".entry-note")).to_contain_text("Noted on this phone at")
    [kept] = kept_here(page)
    here.start()
    opened(page, "/round/")
    wait_until_empty(page)
    assert here.one(ENTRIES) == before + 1
    assert here.one("select sent_digest from house_entry order by rowid desc") == kept["digest"]
