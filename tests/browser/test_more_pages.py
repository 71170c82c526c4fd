"""Pages that links of the demo do not lead to: of an empty workshop, of the way in, and errors."""

import re
import shutil

import pytest

from browser import road
from browser.conftest import PHONE, serving
from browser.readable import faults
from throwbench.records.attribute import KINDS

NOWHERE = ("/nowhere/", "/trials/9999/", "/candles/Z9Z/")
EMPTY_PAGES = (
    *("/", "/shelf/", "/shelf/lots/", "/trials/", "/line/", "/line/compare/", "/light/", "/round/"),
    *("/house/", "/house/people/", "/house/rooms/", "/house/limits/", "/house/phone/", "/nose/"),
)
STEPS = ("Plan", "Pour", "Cure", "Burn and sniff", "Verdict")


def test_the_way_in_is_readable(empty, open_page):
    page = open_page(empty, signed_in=False)
    found = []
    for path in (empty.link(), "/sign-in/", "/sign-in/a-link-that-never-was/", *NOWHERE):
        page.goto(path)
        found += faults(page)
    assert found == []


def test_the_pages_of_an_empty_workshop_are_readable(empty, open_page):
    page = open_page(empty)
    found = faults(page)
    road.fill(page, Name_of_the_workshop=" ", Your_own_name=" ")
    _press_unchecked(page, "Begin this workshop")
    found += faults(page)
    road.begin(page, workshop="Kattegat Lys", name="Signe")
    for path in (*EMPTY_PAGES, *NOWHERE):
        page.goto(path)
        found += faults(page)
    assert found == []


def test_the_pages_of_a_trial_are_readable_before_anything_is_in_it(empty, open_page):
    page = open_page(empty)
    road.begin(page, workshop="Kattegat Lys", name="Signe")
    page.goto("/trials/new/")
    _press_unchecked(page, "Begin this trial")
    found = faults(page)
    road.plan_trial(page, question="Slate or rope?", name="First candle")
    for step in STEPS:
        road.go_to_trial(page, "First candle", step)
        found += faults(page)
    road.go_to_trial(page, "First candle", "Burn and sniff")
    assert found == []


def test_the_bench_is_readable_from_the_first_weighing_to_the_pour(empty, open_page):
    page = open_page(empty)
    road.begin(page, workshop="Kattegat Lys", name="Signe")
    page.goto("/trials/new/")
    road.plan_trial(page, question="Slate or rope?", name="First candle")
    road.add_oil(page, "slate rain, Tarnholt")
    road.choose_wick(page, wick="flat cotton 4", load="8", wax="R-36", vessel="cup")
    road.fix_plan(page)
    found = faults(page)
    road.follow_link(page, "Begin the pitcher")
    found += faults(page)
    road.fill(page, Wax_planned="170")
    road.press(page, "Begin this pitcher")
    found += faults(page)
    for done in ("of wax is in$", "g is in$", "^Poured: note it$"):
        road.press(page, re.compile(done))
        found += faults(page)
    assert found == []


def test_a_form_with_errors_is_readable(demo, open_page):
    page = open_page(demo)
    found = []
    for path, label, button in (
        ("/shelf/oils/new/", "Flash point", "Put this oil on the shelf"),
        ("/shelf/waxes/new/", "Melts at", "Put this wax on the shelf"),
        ("/house/limits/burn-length/", "Own figure: at most", "Hold burns against this"),
    ):
        page.goto(path)
        road.main_of(page).get_by_label(label, exact=True).fill("warm")
        _press_unchecked(page, button)
        assert page.locator("[aria-invalid=true]").count()
        found += faults(page)
    assert found == []


def _press_unchecked(page, button) -> None:
    """Past the browser's own check, so that the server's words show."""
    page.evaluate("document.querySelectorAll('form').forEach(form => (form.noValidate = true))")
    road.press(page, button)


MAKERS_PAGES = ("/", "/shelf/", "/trials/", "/trials/2/verdict/", "/line/", "/house/", "/round/")


@pytest.fixture
def panel_page(demo, open_page):
    """The open panel of the demo, as the maker sees it."""
    page = open_page(demo)
    road.follow_link(page, "Hand the phone round")
    return page


def test_the_phone_that_goes_round_is_readable(panel_page):
    page = panel_page
    road.press(page, "Hand the phone round")
    found = faults(page)
    road.main_of(page).get_by_role("link").click()
    found += faults(page)
    for path in ("/nose/someone-else/", "/way-back/"):
        page.goto(path)
        found += faults(page)
    road.fill(page, The_four_digits="12")
    road.press(page, "Take the phone back")
    found += faults(page)
    page.goto("/nose/")
    road.be_nose(page, "Isak")
    found += faults(page)
    road.at_tag(page, "417")
    found += faults(page)
    road.press(page, "Send 417")
    found += faults(page)
    road.answer(page, "Do you like it?", "4")
    road.answer(page, "How strong is it?", "3")
    road.press(page, "Send 417")
    assert "Thank you, Isak" in road.head_of(page)
    assert found + faults(page) == []


def test_a_phone_that_goes_round_sees_noses_only(panel_page):
    road.hand_round(panel_page)
    for path in MAKERS_PAGES:
        panel_page.goto(path)
        assert road.head_of(panel_page) == "Whose nose?"


@pytest.fixture
def on_the_network(demo_made, tmp_path):
    """A demo that phones can reach."""
    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)
    with serving("serve", str(folder), "--lan", folder=folder) as served:
        yield served


def test_a_personal_link_needs_a_phone_that_can_come(panel_page):
    road.press(panel_page, re.compile("Personal link.*Pernille", re.S))
    assert road.head_of(panel_page).startswith("No phone can reach this workshop now")
    assert faults(panel_page) == []


def test_an_assessor_scores_on_a_phone_of_their_own(on_the_network, open_page):
    maker = open_page(on_the_network)
    road.follow_link(maker, "Hand the phone round")
    road.press(maker, re.compile("Personal link.*Pernille", re.S))
    found = faults(maker)
    link = re.search(r"/nose/by/\S+", road.main_of(maker).inner_text())[0]
    page = open_page(on_the_network, PHONE, signed_in=False)
    page.goto(link)
    found += faults(page)
    assert link not in page.url
    road.score(page, "682", liking="5", strength="4")
    assert "Thank you, Pernille" in road.head_of(page)
    assert found + faults(page) == []


def test_an_assessor_is_kept_from_the_makers_pages(demo, open_page):
    page = open_page(demo, signed_in=False)
    page.goto(demo.link("Maren"))
    page.get_by_role("button", name="Let this browser in").click()
    for path in MAKERS_PAGES:
        answer = page.goto(path)
        refused = answer.status == 403 or (path == "/" and "/nose/" in page.url)
        assert refused, (path, answer.status, page.url)
    assert faults(page) == []


OFFERED = [kind.offered for name, kind in KINDS.items() if kind.offered and name != "lit"]


@pytest.mark.parametrize("kind", OFFERED)
def test_each_kind_of_score_is_readable(demo, open_page, kind):
    page = open_page(demo)
    road.go_to_trial(page, "Softer Rope", "Burn and sniff")
    road.follow_link(page, "Sniff: the panels")
    road.follow_link(page, re.compile("^Open a panel"))
    road.fill(page, What_is_asked=kind)
    road.main_of(page).get_by_role("checkbox", name="Tor").check()
    road.press(page, "Draw the tags and open this panel")
    road.hand_round(page)
    road.be_nose(page, "Tor")
    assert re.fullmatch(r"\d{3}", road.head_of(page))
    assert faults(page) == []
