"""Over https that a device trusts, pages open without the workshop, and only to whose they are."""

import shutil
import signal
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from browser import road
from browser.fielding import kept_here, let_in, opened, wait_until_empty
from browser.trusting import (
    CONTROLLED,
    Trusted,
    browser_of,
    https_workshop,
    kept_pages,
    looked_after,
    trust,
    wait_until_kept,
)

ENTRIES = "select count(*) from house_entry"
NOT_KEPT = "Not connected, and this page is not kept on this device."


@pytest.fixture
def here(demo_made, tmp_path) -> Iterator[Trusted]:
    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)
    with https_workshop(folder) as workshop:
        yield workshop


@pytest.fixture
def phone(here, browser, tmp_path) -> Iterator[BrowserContext]:
    """A phone that was told to trust this workshop."""
    with browser_of(browser, trust(tmp_path / "home", here.authority)) as context:
        yield context


@pytest.fixture
def page(here, phone) -> Page:
    """Ragnhild's phone, let in, its worker at work."""
    return looked_after(phone, here)


def head(page: Page, path: str, here: Trusted) -> str:
    """What a page says first, whether it is kept or not."""
    page.goto(here.address + path)
    return page.get_by_role("heading", level=1).inner_text()


def test_a_trusted_page_loads_and_a_worker_looks_after_it(here, page):
    opened(page, here.address + "/round/")
    assert page.evaluate("isSecureContext") is True
    assert page.evaluate(CONTROLLED)
    said = page.locator("[data-wake]")
    expect(said).to_have_text("The screen stays on while this page is open.")
    expect(page.locator("[data-kept]")).to_have_count(0)


def test_the_round_is_closed_and_opened_again_without_the_workshop(here, page, phone):
    """What is pressed on the kept page is sent once the workshop is back, as one row."""
    before = here.one(ENTRIES)
    opened(page, here.address + "/round/")
    wait_until_kept(page, "/round/")
    here.kill()
    page.close()
    again = phone.new_page()
    opened(again, here.address + "/round/")
    expect(again.locator("[data-kept]")).to_contain_text("As it was at ")
    expect(again.locator("[data-kept]")).to_contain_text("Not connected.")
    again.get_by_role("button", name="Seen, no change").click()
    expect(again.locator(".entry-note")).to_contain_text("Noted on this phone at")
    assert len(kept_here(again)) == 1
    here.start()
    expect(again.locator("[data-kept]")).to_contain_text("answers again", timeout=60_000)
    wait_until_empty(again, within_s=60)
    assert here.one(ENTRIES) == before + 1


def test_pages_never_visited_are_kept_ahead_and_others_say_what_is_kept(here, page):
    wait_until_kept(page, "/", "/round/", "/waiting/")
    here.kill()
    assert head(page, "/shelf/", here) == NOT_KEPT
    kept = page.get_by_role("listitem").get_by_role("link")
    expect(kept).to_have_text(["Today", "Burn round", "What waits on this device"])
    kept.filter(has_text="Burn round").click()
    expect(page).to_have_url(here.address + "/round/")
    expect(page.locator("[data-kept]")).to_contain_text("Not connected.")


def test_signing_out_takes_the_kept_pages_and_leaves_the_entries(here, page):
    wait_until_kept(page, "/round/")
    opened(page, here.address + "/house/")
    page.get_by_role("button", name="Let this browser forget me").click()
    page.wait_for_url("**/sign-in/")
    assert kept_pages(page) == {}
    here.kill()
    for path in ("/", "/round/", "/waiting/"):
        assert head(page, path, here) == NOT_KEPT
    expect(page.get_by_role("listitem")).to_have_count(0)


def test_signing_out_takes_them_even_where_nobody_answers(here, page):
    wait_until_kept(page, "/round/")
    opened(page, here.address + "/house/")
    here.kill()
    with page.expect_event("requestfailed"):
        page.get_by_role("button", name="Let this browser forget me").click()
    again = page.context.new_page()
    assert head(again, "/round/", here) == NOT_KEPT


def test_before_leaving_it_is_said_how_many_entries_wait(here, page):
    wait_until_kept(page, "/round/")
    house = page.context.new_page()
    opened(house, here.address + "/house/")
    here.kill()
    opened(page, here.address + "/round/")
    page.get_by_role("button", name="Seen, no change").click()
    expect(house.get_by_text("1 entry of yours waits on this phone, not sent yet.")).to_be_visible()


def test_pages_of_one_person_are_not_shown_to_the_next(here, page):
    wait_until_kept(page, "/round/")
    [hers] = kept_pages(page)
    let_in(page, here, "Maren")
    wait_until_kept(page, "/nose/mine/")
    assert hers not in kept_pages(page)
    here.kill()
    for path in ("/", "/round/"):
        assert head(page, path, here) == NOT_KEPT


def test_a_phone_that_is_handed_round_keeps_the_guests_road_only(here, page):
    """The tags that are open for a nose open without the workshop; the maker's pages do not."""
    wait_until_kept(page, "/round/")
    page.goto(here.address + "/")
    road.follow_link(page, "Hand the phone round")
    road.hand_round(page)
    road.be_nose(page, "Isak")
    tag = page.locator("a[data-keep]").first.get_attribute("href")
    wait_until_kept(page, tag)
    [kept] = kept_pages(page).values()
    assert all(path.startswith(("/nose/", "/waiting/")) for path in kept), kept
    here.kill()
    for path in ("/", "/round/"):
        assert head(page, path, here) == NOT_KEPT
    assert head(page, tag, here) == tag.strip("/").rpartition("/")[2]


def test_who_types_a_name_on_a_handed_phone_gets_no_page_of_the_nose_before(here, page):
    """A kept page answers for whom it was opened: the next nose's answer would be the other's."""
    page.goto(here.address + "/")
    road.follow_link(page, "Hand the phone round")
    road.hand_round(page)
    road.be_nose(page, "Isak")
    tag = page.locator("a[data-keep]").first.get_attribute("href")
    wait_until_kept(page, tag)
    page.goto(here.address + "/nose/")
    road.follow_link(page, "Someone else")
    road.fill(page, Your_name="Guest")
    page.get_by_role("main").get_by_role("button").click()
    page.wait_for_url("**/nose/mine/")
    wait_until_kept(page, tag)
    here.kill()
    page.goto(here.address + tag)
    whose = int(page.locator("form[data-entry] [name=nose]").get_attribute("value"))
    assert whose == here.one("select id from house_person where name = 'Guest'")


def test_a_workshop_that_says_nothing_is_waited_for_three_seconds(here, page, phone):
    """Then the page as it was is shown, and when the answer comes after all, that is said."""
    opened(page, here.address + "/round/")
    wait_until_kept(page, "/round/")
    page.close()
    again = phone.new_page()
    here.process.send_signal(signal.SIGSTOP)
    opened(again, here.address + "/round/")
    said = again.locator("[data-kept]")
    expect(said).to_contain_text("Not connected.")
    here.process.send_signal(signal.SIGCONT)
    expect(said).to_contain_text("The workshop answers again.", timeout=60_000)
    said.get_by_role("link", name="Load it anew").click()
    expect(said).to_have_count(0)
