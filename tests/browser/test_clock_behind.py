"""A clock that was put back a day, as a page shows it: said above, and rung for at once."""

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from browser.conftest import LAPTOP, PHONE
from browser.fielding import Workshop, let_in, plain_workshop
from browser.readable import faults

BEHIND = "Until then no put-out time here holds: go by your own timer."


@pytest.fixture
def here(demo_made, tmp_path) -> Iterator[Workshop]:
    """Five candles that were lit a day later than the workshop's clock shows."""
    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)
    with plain_workshop(folder) as found:
        found.all(
            "update trials_burn set lit_at = datetime(lit_at, '+1 day'), "
            "out_by_at = datetime(out_by_at, '+1 day') where out_at is null"
        )
        yield found


@pytest.fixture(params=[PHONE, LAPTOP], ids=["phone", "laptop"])
def page(here, phones, request) -> Iterator[Page]:
    context = phones.new_context(viewport=request.param, base_url=here.address, locale="en-GB")
    page = context.new_page()
    let_in(page, here)
    yield page
    context.close()


@pytest.mark.parametrize("path", ["/", "/round/"])
def test_it_is_said_and_rung_for_at_once(page, path):
    page.goto(path)
    expect(page.get_by_text(BEHIND)).to_be_visible()
    strip = page.locator("[data-alarm]")
    expect(strip).to_contain_text("The workshop’s clock is behind: go by your own timer.")
    expect(strip).to_contain_text("Look at D5Q")
    assert page.title().startswith("Look at D5Q")
    assert faults(page) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
