"""What is pressed on a phone over plain http is kept there until the workshop has it."""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from browser import fielding
from browser.fielding import Workshop, kept_here, note_of, opened, press, say_of, wait_until_empty

CHECKS = "select count(*) from trials_check where no_change"
ENTRIES = "select count(*) from house_entry"
PRESSED = "select pressed_at from house_entry where id = ?"


@pytest.fixture
def here(on_plain_http: Workshop) -> Workshop:
    return on_plain_http


@pytest.fixture
def context(here: Workshop, phones: Browser) -> Iterator[BrowserContext]:
    context = fielding.phone(phones, here)
    yield context
    context.close()


@pytest.fixture
def page(here: Workshop, context: BrowserContext) -> Page:
    """Ragnhild's phone, let in, on the burn round."""
    page = context.new_page()
    fielding.let_in(page, here)
    opened(page, "/round/")
    return page


def test_the_phone_is_in_the_plain_world(page):
    """No lock, no worker, no digest: what is built on those would not be there on the network."""
    assert page.evaluate("isSecureContext") is False
    assert page.evaluate("'locks' in navigator || 'serviceWorker' in navigator") is False
    assert page.evaluate("crypto.subtle === undefined && crypto.randomUUID === undefined")


def test_a_press_is_noted_and_the_page_goes_on(here, page):
    before, checks = here.one(ENTRIES), here.one(CHECKS)
    with page.expect_navigation(url="**/round/"):
        press(page)
    assert here.one(ENTRIES) == before + 1
    assert here.one(CHECKS) == checks + 5
    assert kept_here(page) == []


def test_a_press_without_the_workshop_waits_and_is_noted_for_its_own_time(here, page):
    before = here.one(ENTRIES)
    here.kill()
    press(page)
    assert re.match(r"Noted on this phone at \d\d:\d\d\. It is sent as soon as", note_of(page))
    say_of(page, "1 entry waits on this phone")
    say_of(page, "Do not close it or load it anew while the workshop is out of reach")
    [kept] = kept_here(page)
    page.wait_for_timeout(2500)
    here.start()
    opened(page, "/round/")
    wait_until_empty(page)
    assert here.one(ENTRIES) == before + 1
    pressed = here.one(PRESSED, kept["id"].replace("-", ""))
    assert pressed == here.one("select max(noted_at) from trials_check")
    assert here.one("select sent_digest from house_entry order by rowid desc") == kept["digest"]


def test_the_open_page_sends_by_itself_and_says_so(here, page):
    here.kill()
    press(page)
    note_of(page)
    here.start()
    expect(page.locator(".entry-note")).to_contain_text("The workshop has it", timeout=30_000)
    expect(page.locator("[data-tray]")).to_be_empty()
    page.get_by_role("link", name="Show the page as it is now").click()
    expect(page.get_by_text("last seen").first).to_be_visible()


def test_a_page_that_lost_the_network_keeps_what_is_pressed(here, context, page):
    before = here.one(ENTRIES)
    context.set_offline(True)
    press(page)
    note_of(page)
    context.set_offline(False)
    wait_until_empty(page)
    assert here.one(ENTRIES) == before + 1


def test_a_second_look_an_hour_later_is_a_second_entry(here, page):
    here.kill()
    press(page)
    note_of(page)
    page.wait_for_selector("form:has(.dock__all):not([aria-busy])")
    press(page)
    say_of(page, "2 entries wait on this phone, the oldest of")
    first, second = kept_here(page)
    assert first["id"] != second["id"]
    assert first["told"]["turn"] + 1 == second["told"]["turn"]
    assert first["told"]["device"] == second["told"]["device"]


def test_a_closed_tab_loses_nothing(here, context, page):
    before = here.one(ENTRIES)
    here.kill()
    press(page)
    note_of(page)
    page.close()
    here.start()
    again = context.new_page()
    opened(again, "/")
    wait_until_empty(again)
    assert here.one(ENTRIES) == before + 1


def test_an_ended_sign_in_is_said_and_a_new_one_sends(here, page):
    before = here.one(ENTRIES)
    here.end_sign_ins()
    press(page)
    assert "Your sign-in has ended" in note_of(page)
    say_of(page, "1 entry waits here; sign in as Ragnhild to send it.")
    fielding.let_in(page, here)
    wait_until_empty(page)
    assert here.one(ENTRIES) == before + 1


def test_a_form_whose_key_has_changed_is_sent_with_the_new_one(here, page):
    """Once the old key is refused, the page asks for the new one by itself."""
    before = here.one(ENTRIES)
    sent = []

    def with_an_old_key(route: Route) -> None:
        sent.append(route.request.post_data)
        old = {"x-csrftoken": "a" * 64} if len(sent) == 1 else {}
        route.continue_(headers={**route.request.headers, **old})

    page.route("**/entries/", with_an_old_key)
    with page.expect_navigation():
        press(page)
    assert len(sent) == 2
    assert sent[0] == sent[1]
    assert here.one(ENTRIES) == before + 1


def test_a_double_press_is_one(here, page):
    before = here.one(ENTRIES)
    with page.expect_navigation():
        page.get_by_role("button", name="Seen, no change").dblclick()
    page.wait_for_selector(fielding.READY)
    assert kept_here(page) == []
    assert here.one(ENTRIES) == before + 1


def test_a_double_press_without_the_workshop_is_one(here, page):
    here.kill()
    page.get_by_role("button", name="Seen, no change").dblclick()
    note_of(page)
    assert len(kept_here(page)) == 1


def test_two_tabs_send_each_entry_once(here, context, page):
    other = context.new_page()
    opened(other, "/")
    sent = []
    context.on("request", lambda one: one.method == "POST" and sent.append(one.post_data))
    here.kill()
    fill_up(page, 30)
    here.start()
    for tab in (page, other):
        tab.evaluate("window.dispatchEvent(new Event('online'))")
    wait_until_empty(page)
    assert len(sent) == len(set(sent)) == 30


def fill_up(page: Page, count: int) -> None:
    """Looks at the first candle, a second apart, put in by the page's own store."""
    page.evaluate(
        """async ([store, count]) => {
          const { keep } = await import(store);
          const key = document.querySelector('meta[name="entry-key"]').content;
          const name = document.querySelector('[name$="-answer"]').name;
          for (let i = 0; i < count; i++) {
            const pressedAt = Date.now() - (count - i) * 1000;
            const fields = [[name, "same"]];
            await keep({ key, address: "/round/", fields, pressedAt, words: "Look" });
          }
        }""",
        [fielding.STORE, count],
    )


def test_what_somebody_else_pressed_is_neither_sent_nor_shown(here, page):
    here.all("update house_person set role = 'helper' where name = 'Isak'")
    before = here.one(ENTRIES)
    here.kill()
    press(page)
    note_of(page)
    here.end_sign_ins()  # before the page finds the workshop again
    here.start()
    fielding.let_in(page, here, "Isak")
    say_of(page, "1 entry of somebody else waits on this phone")
    opened(page, "/waiting/")
    expect(page.locator("[data-waiting-said]")).to_contain_text("Nothing of yours waits")
    assert "Seen, no change" not in page.content()
    assert here.one(ENTRIES) == before
    here.end_sign_ins()
    fielding.let_in(page, here, "Ragnhild")
    wait_until_empty(page)
    assert here.one(ENTRIES) == before + 1
    assert here.one("select name from house_entry e join house_person p on p.id = e.who_id "
                    "order by e.rowid desc") == "Ragnhild"  # fmt: skip


def test_the_list_of_what_waits_names_each_entry(here, context, page):
    other = context.new_page()
    opened(other, "/waiting/")
    expect(other.locator("[data-waiting-said]")).to_contain_text("Nothing of yours waits")
    here.kill()
    press(page)
    note_of(page)
    expect(other.locator("[data-waiting-said]")).to_have_text("1 entry waits on this phone.")
    expect(other.locator("[data-waiting-list] li")).to_contain_text("Seen, no change")
