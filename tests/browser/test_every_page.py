"""Every named page of the demo, light and dark, on phone and laptop: readable by everybody."""

import pytest

from browser.readable import faults
from browser.walking import all_names, follow

FULLEST = ("/", "/candles/K7F/", "/trials/")
"""Where to begin: today, a candle of which most was noted, and all trials."""

FILES = {
    "alarm:put_out",
    "line:archive",
    "line:export",
    "line:picture",
    "line:report",
    "line:table",
    "panel:front_tags_pdf",
    "panel:slips_pdf",
    "trials:burn_sheet",
    "trials:code_tags",
    "trials:picture",
    "trials:pour_sheet",
    "trials:shelf_tags",
    "trust:certificate",
}
"""Addresses that answer with a file: looked at in `test_papers`."""
NO_PAGE = {
    "web:entries",
    "house:alive",
    "house:check_address",
    "alarm:alarm",
    "alarm:heard",
    "alarm:rang",
    "alarm:ring",
    "alarm:there",
    "alarm:timer_done",
    "house:enter",
    "house:sign_out",
    "house:theme",
    "line:ask",
    "panel:close",
    "panel:hand_round",
    "panel:link",
    "panel:mine",
    "panel:not_me",
    "panel:sit_out",
    "panel:sits_out",
    "panel:this_is",
    "shelf:wash",
    "trials:add_band",
    "trials:add_oil",
    "trials:add_photo",
    "trials:add_wick",
    "trials:all_out",
    "trials:fitted",
    "trials:fix",
    "trials:hand_over",
    "trials:one_more",
    "trials:photo_aside",
    "trials:poured",
    "trials:read",
    "trials:swapped",
    "trials:take_out",
    "trials:weigh",
    "trust:worker",
}
"""Addresses that only take a press, or send on to another page."""
ELSEWHERE = {
    "house:begin",
    "house:link",
    "house:sign_in",
    "panel:by_link",
    "panel:find_tag",
    "panel:my_nose",
    "panel:score",
    "panel:someone_else",
    "panel:thanks",
    "panel:way_back",
    "panel:whose_nose",
    "trials:begin_pour",
    "trials:photo",
    "trials:photos",
    "trust:page",
}
"""Pages of an empty workshop, of the way in and of an assessor: in `test_more_pages`; of photos: in
`test_photo`."""


@pytest.fixture(scope="module")
def visited(demo_to_read, browser) -> dict[str, str]:
    context = browser.new_context(base_url=demo_to_read.address)
    page = context.new_page()
    page.goto(demo_to_read.link())
    page.get_by_role("button", name="Let this browser in").click()
    page.goto("/shelf/")
    blend = page.get_by_role("link", name="Softer Rope").first.get_attribute("href")
    found = follow(page, *FULLEST, blend, passed_by=FILES | NO_PAGE | ELSEWHERE)
    yield found, context
    context.close()


def test_links_lead_to_every_named_page(visited):
    found, _ = visited
    assert all_names() - set(found) == FILES | NO_PAGE | ELSEWHERE


def test_everybody_can_read_every_page(visited):
    """No rule of axe is broken, light and dark, on phone and laptop; nothing scrolls sideways."""
    found, context = visited
    page = context.new_page()
    wrong = []
    for path in found.values():
        page.goto(path)
        wrong += faults(page)
    page.close()
    assert not wrong, "\n".join(wrong)


def test_nothing_is_refused_by_the_pages_own_policy(visited):
    """No script or style that the browser had to refuse, and no file that was not there."""
    found, context = visited
    page = context.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(f"{page.url}: {message.text}"))
    page.on("pageerror", lambda error: said.append(f"{page.url}: {error}"))
    for path in found.values():
        page.goto(path)
    page.close()
    assert said == []
