"""A guest's answers on a phone that goes round, while the workshop is out of reach."""

import pytest
from playwright.sync_api import expect

from browser import fielding, road
from browser.fielding import kept_here, opened, wait_until_empty

SNIFFS = "select count(*) from panel_sniff"


@pytest.fixture
def page(on_plain_http, phones):
    """The phone that goes round, with the page of one candle for Isak; it keeps its way back."""
    context = fielding.phone(phones, on_plain_http)
    page = context.new_page()
    fielding.let_in(page, on_plain_http)
    road.follow_link(page, "Hand the phone round")
    page.digits = road.hand_round(page)
    road.be_nose(page, "Isak")
    road.at_tag(page, "417")
    page.wait_for_selector(fielding.READY)
    yield page
    context.close()


def answered(page):
    road.answer(page, "Do you like it?", "4")
    road.answer(page, "How strong is it?", "3")
    page.get_by_label("One word for it").fill("tar")
    page.get_by_role("button", name="Send 417").click()


def test_a_guest_is_thanked_and_the_answers_are_sent_once_the_workshop_is_back(on_plain_http, page):
    before = on_plain_http.one(SNIFFS)
    on_plain_http.kill()
    answered(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("Thank you, Isak.")
    expect(page.get_by_text("min of clean air, by an open window or outside")).to_be_visible()
    expect(page.get_by_text("Hand the phone on.")).to_be_visible()
    expect(page.get_by_role("link", name="The phone is handed on")).to_be_hidden()
    expect(page.get_by_role("group", name="Do you like it?")).to_be_hidden()
    assert page.locator("[name='liking']:checked").count() == 0
    assert page.get_by_label("One word for it").input_value() == ""
    on_plain_http.start()
    expect(page.get_by_text("The workshop has it")).to_be_visible(timeout=30_000)
    page.get_by_role("link", name="The phone is handed on").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Whose nose?")
    assert on_plain_http.one(SNIFFS) == before + 1
    assert kept_here(page) == []


def test_what_a_guest_ticks_after_sending_does_not_stay_for_the_next_nose(on_plain_http, page):
    on_plain_http.kill()
    page.evaluate("""() => {
      document.querySelector("form[data-entry] button").click();
      document.querySelector("[name='liking']").checked = true;
    }""")
    expect(page.get_by_role("heading", level=1)).to_have_text("Thank you, Isak.")
    expect(page.locator("[name='liking']:checked")).to_have_count(0)


def test_what_a_guest_gave_is_not_shown_to_the_next_nose(on_plain_http, page):
    """Not even if the workshop did not take it: it waits for the maker, counted."""
    with page.expect_navigation():
        page.get_by_role("button", name="Send 417").click()
    page.wait_for_selector(fielding.READY)
    opened(page, "/nose/")
    tray = page.locator("[data-tray]")
    expect(tray).to_contain_text("1 entry was not taken as given. It stays here for the maker.")
    expect(tray.get_by_role("button")).to_have_count(0)
    assert "417" not in tray.inner_text()


def test_the_maker_who_has_the_phone_back_sends_what_guests_pressed(on_plain_http, page):
    before = on_plain_http.one(SNIFFS)
    on_plain_http.kill()
    answered(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("Thank you, Isak.")
    on_plain_http.start()
    on_plain_http.end_sign_ins()
    fielding.let_in(page, on_plain_http)
    wait_until_empty(page)
    assert on_plain_http.one(SNIFFS) == before + 1
