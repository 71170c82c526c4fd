"""A page that is older than what its browser keeps says so, and its forms reach the workshop."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

import throwbench
from browser import fielding, road
from browser.fielding import opened, press

NEWER = """() => new Promise((done, failed) => {
  const request = indexedDB.open("throwbench", 2);
  request.onsuccess = () => done("open");
  request.onblocked = () => failed(new Error("blocked"));
  request.onerror = () => failed(request.error);
  setTimeout(() => failed(new Error("never opened")), 30_000);
})"""
OLDER = "This page is older than what this browser keeps. Load it again; nothing is lost."
LOOKS = "select count(*) from trials_check"


@pytest.fixture
def page(on_plain_http, phones) -> Iterator[Page]:
    """Ragnhild's phone on the burn round."""
    context = fielding.phone(phones, on_plain_http)
    page = context.new_page()
    fielding.let_in(page, on_plain_http)
    opened(page, "/round/")
    yield page
    context.close()


def beside(page: Page) -> Page:
    """Another tab of the same browser, without a queue of its own."""
    other = page.context.new_page()
    other.goto("/static/flame.svg")
    return other


def wait_for_more(here, before: int, page: Page) -> None:
    for _ in range(200):
        if here.one(LOOKS) > before:
            return
        page.wait_for_timeout(100)
    raise AssertionError("no look was noted")


def test_an_older_page_lets_a_newer_one_open_and_says_so(on_plain_http, page):
    assert beside(page).evaluate(NEWER) == "open"
    expect(page.get_by_text(OLDER)).to_be_visible()
    before = on_plain_http.one(LOOKS)
    press(page)
    wait_for_more(on_plain_http, before, page)


def test_a_page_that_comes_later_says_so_too(on_plain_http, page):
    assert beside(page).evaluate(NEWER) == "open"
    late = page.context.new_page()
    late.goto("/round/")
    expect(late.get_by_text(OLDER)).to_be_visible()
    before = on_plain_http.one(LOOKS)
    press(late)
    wait_for_more(on_plain_http, before, late)


def test_a_newer_page_that_an_older_one_keeps_waiting_says_so_until_it_is_gone(page):
    page.goto("/static/flame.svg")  # an older page, which knew nothing of newer ones
    page.evaluate("""() => new Promise((done) => {
      indexedDB.open("throwbench", 1).onsuccess = (event) => {
        window.held = event.target.result;
        done();
      };
    })""")
    newer = page.context.new_page()
    newer.route(
        f"**{fielding.STORE}*",
        lambda route: route.fulfill(content_type="text/javascript", body=of_a_later_form()),
    )
    newer.goto("/round/")
    held = newer.get_by_text("Another tab is older than this page")
    expect(held).to_be_visible()
    page.evaluate("window.held.close()")
    newer.wait_for_selector(fielding.READY)
    expect(held).to_be_hidden()


def of_a_later_form() -> str:
    """The script of a later version, whose database has another form."""
    ours = (Path(throwbench.__file__).parent / "web/static/field/store.js").read_text()
    return ours.replace('"throwbench", 1', '"throwbench", 2').replace(
        "upgrade(db) {", "upgrade(db) { return;"
    )


def known(page: Page) -> list[str]:
    return page.evaluate(
        "Object.keys(localStorage).filter((name) => /^alarm-(dead|quiet|rang)/.test(name))"
    )


def wait_until_known(page: Page) -> None:
    page.wait_for_function(
        "Object.keys(localStorage).some((name) => name.startsWith('alarm-deadlines'))"
    )


def test_who_is_signed_out_leaves_no_candles_behind(page):
    wait_until_known(page)
    opened(page, "/house/")
    page.get_by_role("button", name="Let this browser forget me").click()
    page.wait_for_url("**/sign-in/**")
    page.wait_for_selector(fielding.READY)
    assert known(page) == []


def test_a_phone_that_goes_round_knows_no_candles_and_is_told_again_after(page):
    wait_until_known(page)
    opened(page, "/")
    road.follow_link(page, "Hand the phone round")
    digits = road.hand_round(page)
    page.wait_for_selector(fielding.READY)
    assert known(page) == []
    road.way_back(page, digits)
    opened(page, "/round/")
    wait_until_known(page)
