"""Half an answer outlives a reload of the phone that goes round, and the next nose meets none."""

import pytest
from playwright.sync_api import expect

from browser import road


@pytest.fixture
def page(demo, open_page):
    page = open_page(demo)
    road.follow_link(page, "Hand the phone round")
    road.hand_round(page)
    road.be_nose(page, "Isak")
    road.at_tag(page, "417")
    return page


def kept(page) -> int:
    return page.evaluate(
        "Object.keys(sessionStorage).filter(key => key.startsWith('half ')).length"
    )


def test_pressed_and_typed_is_there_after_a_reload_and_gone_with_the_next_nose(page):
    page.wait_for_load_state("networkidle")
    road.answer(page, "Do you like it?", "4")
    page.get_by_label("One word for it").fill("mint")
    page.reload()
    expect(page.get_by_role("radio", name="4 yes")).to_be_checked()
    expect(page.get_by_label("One word for it")).to_have_value("mint")
    assert kept(page) == 1
    page.goto("/nose/")
    page.wait_for_load_state("networkidle")
    assert kept(page) == 0
    road.be_nose(page, "Isak")
    road.at_tag(page, "417")
    page.wait_for_load_state("networkidle")
    expect(page.get_by_role("radio", name="4 yes")).not_to_be_checked()
    expect(page.get_by_label("One word for it")).to_have_value("")


def test_what_was_sent_is_kept_no_longer(page):
    page.wait_for_load_state("networkidle")
    road.answer(page, "Do you like it?", "4")
    road.answer(page, "How strong is it?", "3")
    assert kept(page) == 1
    road.press(page, "Send 417")
    assert "Thank you, Isak" in road.head_of(page)
    assert kept(page) == 0
