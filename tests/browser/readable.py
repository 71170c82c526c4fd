"""Whether everybody can read a page: by day and by night, on phone and laptop."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

PHONE, LAPTOP = {"width": 360, "height": 740}, {"width": 1280, "height": 860}
NARROWEST = {"width": 320, "height": 640}


ABOUT_COLOUR = ("color-contrast", "link-in-text-block")
"""The rules of axe that look at colours. All others see the same page by night as by day."""


def broken_rules(page: Page, *rules: str) -> str:
    """What axe finds in the page as it stands; empty if nothing. Without rules: all of them."""
    only = {"runOnly": {"type": "rule", "values": list(rules)}} if rules else {}
    results = Axe().run(page, options={"resultTypes": ["violations"], **only})
    return results.generate_report() if results.violations_count else ""


def is_too_wide(page: Page) -> bool:
    """Whether the page scrolls sideways."""
    wide: bool = page.evaluate("document.documentElement.scrollWidth > window.innerWidth")
    return wide


def faults(page: Page) -> list[str]:
    """All that is wrong with the page as it stands, in each of its looks."""
    found = []
    page.wait_for_load_state()  # a press that leads on comes back before the page is there
    for size in (NARROWEST, PHONE, LAPTOP):
        page.set_viewport_size(size)
        if is_too_wide(page):
            found.append(f"{page.url} scrolls sideways at {size['width']}")
    for size in (PHONE, LAPTOP):
        page.set_viewport_size(size)
        for scheme, rules in (("light", ()), ("dark", ABOUT_COLOUR)):
            page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
            if said := broken_rules(page, *rules):
                found.append(f"{page.url}, {scheme}, {size['width']}: {said}")
    return found
