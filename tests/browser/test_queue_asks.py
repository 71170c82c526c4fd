"""What the workshop does not take as it was comes back to the eyes of who pressed it."""

import re

import pytest
from playwright.sync_api import expect

from browser import fielding
from browser.fielding import kept_here, note_of, opened, press, say_of, wait_until_empty

CHECKS = "select count(*) from trials_check"
WIDE = "select count(*) from trials_check where pool_width_mm = 40"
ENTRIES = "select count(*) from house_entry"


@pytest.fixture
def here(on_plain_http):
    return on_plain_http


@pytest.fixture
def page(here, phones):
    """Ragnhild's phone on the burn round."""
    context = fielding.phone(phones, here)
    page = context.new_page()
    fielding.let_in(page, here)
    opened(page, "/round/")
    yield page
    context.close()


def measure_wrongly(page):
    """A melt pool wider than its vessel, of the first candle."""
    candle = page.locator(".round > li").first
    candle.get_by_role("radio", name="Changed").check()
    candle.locator("summary", has_text="A number, if you measured").click()
    candle.locator("[name$='-pool_width_mm']").fill("400")


def note_these(page):
    page.locator(".dock__some").click()


def test_a_question_of_the_open_page_comes_back_as_its_page_and_is_answered_once(here, page):
    entries = here.one(ENTRIES)
    measure_wrongly(page)
    with page.expect_navigation():
        note_these(page)
    page.wait_for_selector(fielding.READY)
    expect(page.get_by_text("Melt pool is 400 mm")).to_be_visible()
    [kept] = kept_here(page)
    assert kept["state"] == "shown"
    assert here.one(ENTRIES) == entries
    expect(page.locator("[data-tray]")).to_be_empty()
    page.locator(".round > li").first.locator("[name$='-pool_width_mm']").fill("40")
    with page.expect_navigation():
        note_these(page)
    page.wait_for_selector(fielding.READY)
    assert kept_here(page) == []
    assert here.one(ENTRIES) == entries + 1
    assert here.one(WIDE) == 1
    assert here.one("select id from house_entry order by rowid desc") == kept["id"].replace("-", "")


def pressed_offline_and_asked(here, page):
    """A press without the workshop about which the workshop then asks."""
    measure_wrongly(page)
    here.kill()
    note_these(page)
    note_of(page)
    here.start()
    opened(page, "/")
    say_of(page, "The workshop asks about “Burn round” of")


def test_a_question_about_what_waited_is_said_on_every_page_and_answered_on_its_own(here, page):
    pressed_offline_and_asked(here, page)
    [kept] = kept_here(page)
    assert kept["said"]
    for sentence in kept["said"]:
        say_of(page, sentence)
    with page.expect_navigation(url="**/round/"):
        page.get_by_role("button", name="Open it").click()
    page.wait_for_selector(fielding.READY)
    page.locator(".round > li").first.locator("[name$='-pool_width_mm']").fill("40")
    with page.expect_navigation():
        note_these(page)
    wait_until_empty(page)
    assert here.one(WIDE) == 1
    turn, device = here.all("select turn, device from house_entry order by rowid desc")[0]
    assert (turn, device) == (kept["told"]["turn"], kept["told"]["device"])


def test_a_question_whose_page_was_left_is_asked_again(here, page):
    pressed_offline_and_asked(here, page)
    with page.expect_navigation(url="**/round/"):
        page.get_by_role("button", name="Open it").click()
    opened(page, "/shelf/")
    say_of(page, "The workshop asks about “Burn round” of")


def test_leaving_it_out_is_asked_once_more_in_place(here, page):
    pressed_offline_and_asked(here, page)
    page.get_by_role("button", name="Leave it out").click()
    page.get_by_role("button", name="Keep it").click()
    assert len(kept_here(page)) == 1
    page.get_by_role("button", name="Leave it out").click()
    page.get_by_role("button", name="Leave it out for good").click()
    expect(page.locator("[data-tray]")).to_be_empty()
    assert kept_here(page) == []
    assert here.one(WIDE) == 0


def test_an_id_that_was_used_for_something_else_is_shown_and_let_go(here, page):
    """A browser that was put back from a copy may press under an id that is taken."""
    here.kill()
    press(page)
    note_of(page)
    [first] = kept_here(page)
    here.start()
    opened(page, "/round/")
    wait_until_empty(page)
    checks = here.one(CHECKS)
    page.evaluate(
        """async ([store, {id, key, told}]) => {
          const { keep } = await import(store);
          const fields = [[told.fields[0][0], "out"]];
          await keep({ id, key, address: "/round/", fields, pressedAt: Date.now(), words: "Look" });
        }""",
        [fielding.STORE, first],
    )
    opened(page, "/round/")
    say_of(page, "“Look” of")
    say_of(page, "was not noted: the workshop has another entry in its place")
    expect(page.locator("[data-tray]")).to_contain_text(
        re.compile(r"Kept first: burn round, \d\d:\d\d\.")
    )
    expect(page.locator("[data-tray]")).to_contain_text("Put out")
    page.get_by_role("button", name="Let it go").click()
    expect(page.locator("[data-tray]")).to_be_empty()
    assert kept_here(page) == []
    assert here.one(CHECKS) == checks
