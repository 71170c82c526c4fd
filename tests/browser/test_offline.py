"""Over https that a device trusts, pages open without the workshop, and only to whose they are."""

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from browser.fielding import kept_here, let_in, opened, wait_until_empty
from browser.trusting import (
    CONTROLLED,
    Trusted,
    browser_of,
    https_workshop,
    trust,
    wait_until_kept,
)

ENTRIES = "select count(*) from house_entry"


@pytest.fixture
def here(demo_made, tmp_path) -> Iterator[Trusted]:
    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)
    with https_workshop(folder) as workshop:
        yield workshop


@pytest.fixture
def phone(here, tmp_path) -> Iterator[BrowserContext]:
    """A phone that was told to trust this workshop."""
    with browser_of(trust(tmp_path / "home", here.authority)) as context:
        yield context


@pytest.fixture
def page(here, phone) -> Page:
    """Ragnhild's phone, let in, its worker at work."""
    own = phone.new_page()
    let_in(own, here)
    own.wait_for_function(CONTROLLED)
    return own


def address(here: Trusted, path: str) -> str:
    return here.address + path


def test_a_trusted_page_loads_and_a_worker_looks_after_it(here, page):
    opened(page, address(here, "/round/"))
    assert page.evaluate("isSecureContext") is True
    assert page.evaluate("location.protocol") == "https:"
    assert page.evaluate(CONTROLLED)


def test_the_round_is_closed_and_opened_again_without_the_workshop(here, page, phone):
    before = here.one(ENTRIES)
    opened(page, address(here, "/round/"))
    wait_until_kept(page, "/round/")
    here.kill()
    page.close()
    again = phone.new_page()
    opened(again, address(here, "/round/"))
    expect(again.get_by_role("status").first).to_contain_text("Not connected.")
    again.get_by_role("button", name="Seen, no change").click()
    expect(again.locator(".entry-note")).to_contain_text("Noted on this phone at")
    assert len(kept_here(again)) == 1
    here.start()
    opened(again, address(here, "/round/"))
    wait_until_empty(again)
    assert here.one(ENTRIES) == before + 1
