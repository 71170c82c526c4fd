"""A thousand entries over https that the phone trusts, the page closed and opened offline."""

import shutil

import pytest
from playwright.sync_api import Page, expect

from browser.fielding import READY
from browser.thousand import a_thousand_entries
from browser.trusting import browser_of, https_workshop, looked_after, trust


@pytest.mark.slow
def test_a_thousand_entries_over_trusted_https(browser, demo_made, tmp_path):
    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)

    def closed_and_opened(page: Page) -> Page:
        """While nobody answers."""
        address = page.url
        page.close()
        again = phone.new_page()
        again.goto(address)
        again.wait_for_selector(READY)
        expect(again.locator("[data-kept]")).to_contain_text("Not connected.")
        return again

    with (
        https_workshop(folder) as here,
        browser_of(browser, trust(tmp_path / "home", here.authority), at=here.address) as phone,
    ):
        looked_after(phone, here).close()
        told = a_thousand_entries(phone, here, away=closed_and_opened)
    assert told["isSecureContext"] is True
