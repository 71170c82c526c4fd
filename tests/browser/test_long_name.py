"""A name as long as it may be widens no page of a phone for everybody."""

from browser import road
from browser.conftest import PHONE


def test_the_longest_name_breaks_where_it_has_to(demo, open_page):
    page = open_page(demo, PHONE)
    road.follow_link(page, "Hand the phone round")
    panel = page.url
    code = road.hand_round(page)
    road.follow_link(page, "Someone else")
    road.fill(page, Your_name="M" * 40)
    road.press(page, "This is my name")
    wide = [_too_wide(page)]
    for path in ("/nose/417/", "/nose/"):
        page.goto(path)
        wide.append(_too_wide(page))
    road.way_back(page, code)
    for path in (panel, f"{panel}slips/"):
        page.goto(path)
        wide.append(_too_wide(page))
    assert wide == [0] * 5


def _too_wide(page) -> int:
    return page.evaluate("Math.max(0, document.documentElement.scrollWidth - innerWidth)")
