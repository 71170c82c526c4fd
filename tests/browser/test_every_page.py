"""Every named page of the demo, light and dark, on phone and laptop: readable by everybody."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from browser.walking import all_names, follow

PHONE, LAPTOP = {"width": 360, "height": 740}, {"width": 1280, "height": 860}
NARROWEST = {"width": 320, "height": 640}

FILES: set[str] = set()
"""Addresses that answer with a file."""
NO_PAGE: set[str] = set()
"""Addresses that only take a press, or send on to another page."""
ELSEWHERE: set[str] = set()
"""Pages that are looked at in tests of their own: of an empty workshop, of an assessor."""


@pytest.fixture(scope="module")
def visited(demo_to_read, browser) -> dict[str, str]:
    context = browser.new_context(base_url=demo_to_read.address)
    page = context.new_page()
    page.goto(demo_to_read.link())
    page.get_by_role("button", name="Let this browser in").click()
    found = follow(page, "/", passed_by=FILES | NO_PAGE | ELSEWHERE)
    yield found, context
    context.close()


def test_links_lead_to_every_named_page(visited):
    found, _ = visited
    assert all_names() - set(found) == FILES | NO_PAGE | ELSEWHERE


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("size", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_no_rule_of_axe_is_broken(visited, size, dark):
    found, context = visited
    page = context.new_page()
    page.emulate_media(color_scheme="dark" if dark else "light")
    page.set_viewport_size(size)
    broken = {}
    for name, path in found.items():
        page.goto(path)
        results = Axe().run(page)
        if results.violations_count:
            broken[name] = results.generate_report()
    page.close()
    assert not broken, "\n".join(f"{name}: {said}" for name, said in broken.items())


@pytest.mark.parametrize("size", [NARROWEST, PHONE, LAPTOP], ids=["320", "360", "1280"])
def test_no_page_scrolls_sideways(visited, size):
    found, context = visited
    page = context.new_page()
    page.set_viewport_size(size)
    wider = {}
    for name, path in found.items():
        page.goto(path)
        width = page.evaluate("document.documentElement.scrollWidth")
        if width > size["width"]:
            wider[name] = width
    page.close()
    assert wider == {}


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
