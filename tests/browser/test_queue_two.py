"""A press while the one before is on its way: the same again is one, something else is its own."""

import signal
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from browser import fielding
from browser.fielding import kept_here, note_of, opened, press, wait_until_empty


@pytest.fixture
def page(on_plain_http, phones) -> Iterator[Page]:
    """Ragnhild's phone on the burn round."""
    context = fielding.phone(phones, on_plain_http)
    page = context.new_page()
    fielding.let_in(page, on_plain_http)
    opened(page, "/round/")
    yield page
    context.close()


@pytest.fixture
def silent(on_plain_http) -> Iterator[None]:
    """The workshop's machine takes what comes and answers nothing."""
    on_plain_http.process.send_signal(signal.SIGSTOP)
    yield
    on_plain_http.process.send_signal(signal.SIGCONT)


def flame_over_the_mark(page):
    second = page.locator(".round > li").nth(1)
    second.locator("[value='changed']").check()
    second.get_by_label("Flame over the mark").check()


def note_these(page):
    page.get_by_role("button", name="Note these").and_(page.locator(".dock__some")).click()


def over_the_mark(row):
    return [name for name, _ in row["told"]["fields"] if name.endswith("-over")]


def test_what_is_seen_while_the_look_before_is_on_its_way_is_kept_too(page, silent):
    press(page)
    flame_over_the_mark(page)
    note_these(page)
    page.wait_for_timeout(500)
    first, second = kept_here(page)
    assert over_the_mark(first) == []
    assert len(over_the_mark(second)) == 1


def test_what_is_seen_right_after_a_look_without_the_workshop_is_kept_too(on_plain_http, page):
    on_plain_http.kill()
    press(page)
    note_of(page)
    flame_over_the_mark(page)
    note_these(page)
    page.wait_for_timeout(500)
    assert [len(over_the_mark(row)) for row in kept_here(page)] == [0, 1]
    on_plain_http.start()
    opened(page, "/round/")
    wait_until_empty(page)


def test_what_is_ticked_while_a_look_is_on_its_way_stays_ticked(page, silent):
    press(page)
    flame_over_the_mark(page)
    page.wait_for_timeout(10_500)
    note_of(page)
    expect(page.locator(".round > li").nth(1).get_by_label("Flame over the mark")).to_be_checked()


def test_a_look_that_is_answered_late_leaves_what_was_ticked_since(on_plain_http, page, silent):
    press(page)
    flame_over_the_mark(page)
    on_plain_http.process.send_signal(signal.SIGCONT)
    expect(page.locator(".entry-note", has_text="The workshop has it")).to_be_visible()
    expect(page.locator(".round > li").nth(1).get_by_label("Flame over the mark")).to_be_checked()


def test_a_finger_that_slips_after_a_change_notes_no_look_at_all_of_them(on_plain_http, page):
    """The button that is there then says "no change: all five"."""
    on_plain_http.kill()
    flame_over_the_mark(page)
    note_these(page)
    note_of(page)
    press(page)
    page.wait_for_timeout(500)
    assert len(kept_here(page)) == 1


def test_a_timer_that_is_set_without_the_workshop_says_that_it_does_not_ring_yet(
    on_plain_http, page
):
    opened(page, "/timers/")
    on_plain_http.kill()
    page.get_by_role("button", name="Stir, 3").click()
    assert "It rings only once the workshop has it: set your own timer now." in note_of(page)


def test_the_note_beside_the_button_says_when_the_workshop_asks(on_plain_http, page):
    """It said before that the entry is sent as soon as the workshop is reached."""
    first = page.locator(".round > li").first
    first.locator("[value='changed']").check()
    first.get_by_text("A number, if you measured").click()
    first.locator("[name$='-pool_width_mm']").fill("300")
    on_plain_http.kill()
    note_these(page)
    note_of(page)
    on_plain_http.start()
    asked = page.locator(".entry-note", has_text="The workshop asks about it: see above.")
    expect(asked).to_be_visible(timeout=40_000)
    expect(page.locator("[data-tray]")).to_contain_text("Melt pool is 300 mm")
