"""The laptop as a bench: read from two metres, and pressed by the space bar or a foot."""

import re
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, expect

from browser import road
from browser.conftest import LAPTOP, PHONE, serving
from browser.readable import faults

MM_PER_PX = 286 / 1280
"""A small laptop's screen is 286 mm wide (13 in, 16:10) and shows 1280 px."""
SMALLEST_CAPITAL_MM = 7
"""House rule: 1/300 of the distance, and a little more, from two metres."""
CAPITAL_PX = """(element) => {
  const style = getComputedStyle(element);
  const pen = document.createElement("canvas").getContext("2d");
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  return pen.measureText("H").actualBoundingBoxAscent;
}"""
"""How high a capital of its own font and size is drawn [px]."""
ONE_PRESS_MS = 800
NOTHING_PRESSED = "Nothing was pressed"


@pytest.fixture(scope="module")
def pour_day_made(browser, tmp_path_factory) -> tuple[Path, str]:
    """A workshop with one pitcher, whose wax is to be weighed; tests work on copies."""
    folder = tmp_path_factory.mktemp("pour-day") / "workshop"
    with serving("start", str(folder), "--no-browser", folder=folder) as served:
        page = browser.new_page(base_url=served.address)
        page.goto(served.link())
        page.get_by_role("button", name="Let this browser in").click()
        road.begin(page, workshop="Kattegat Lys", name="Signe")
        road.go_to(page, "Trials")
        road.follow_link(page, "Begin the first trial")
        road.plan_trial(page, question="Slate or rope?", name="First candle")
        road.add_oil(page, "slate rain, Tarnholt")
        road.choose_wick(page, wick="flat cotton 4", load="8", wax="R-36", vessel="cup")
        road.fix_plan(page)
        road.follow_link(page, "Begin the pitcher")
        road.fill(page, Wax_planned="170")
        road.press(page, "Begin this pitcher")
        address = urlsplit(page.url).path
        page.close()
    return folder, address


@pytest.fixture
def bench(pour_day_made, tmp_path, open_page) -> Iterator[Page]:
    made, address = pour_day_made
    folder = tmp_path / "workshop"
    shutil.copytree(made, folder)
    with serving("serve", str(folder), folder=folder) as served:
        page = open_page(served)
        page.goto(address)
        yield page


@pytest.fixture
def round_(demo, open_page) -> Page:
    """Five candles are lit."""
    page = open_page(demo)
    page.goto("/round/")
    return page


def head(page: Page):
    return page.get_by_role("heading", level=1)


def capital_mm(found) -> float:
    return float(found.evaluate(CAPITAL_PX)) * MM_PER_PX


def says(page: Page):
    return page.get_by_text(re.compile(NOTHING_PRESSED))


# --- from two metres


def test_the_bench_is_read_from_two_metres(bench):
    assert_far(bench, ".bench__verb", ".bench__fig", ".bench__window strong")


def test_the_round_is_read_from_two_metres(round_):
    assert_far(round_, ".clock__verb", ".clock__fig", ".round__code")


def assert_far(page: Page, *selectors: str) -> None:
    """Large enough, and the figure stands on the first screen with its button."""
    page.evaluate("document.fonts.ready")
    found = {each: capital_mm(page.locator(each).first) for each in selectors}
    assert min(found.values()) >= SMALLEST_CAPITAL_MM, found
    for selector in (selectors[1], "[data-bench] .act--do:visible"):
        box = page.locator(selector).first.bounding_box()
        assert box["y"] >= 0
        assert box["y"] + box["height"] <= LAPTOP["height"], selector


# --- the space bar


def test_the_button_says_space_bar_where_there_are_keys(round_):
    button = round_.get_by_role("button", name="Seen, no change: all five", exact=True)
    expect(button).to_contain_text("space bar")
    expect(button.locator("kbd")).to_be_visible()
    round_.set_viewport_size(PHONE)
    expect(button.locator("kbd")).to_be_hidden()


def test_the_space_bar_notes_a_look_at_all_of_them(round_):
    expect(round_.get_by_text("not seen yet")).to_have_count(5)
    round_.keyboard.press("Space")
    expect(round_.get_by_text("not seen yet")).to_have_count(0)


def test_the_space_bar_goes_on_from_step_to_step_of_the_bench(bench):
    expect(head(bench)).to_contain_text("wax")
    with bench.expect_navigation():
        bench.keyboard.press("Space")
    expect(head(bench)).to_contain_text("oil")
    bench.wait_for_timeout(ONE_PRESS_MS)
    with bench.expect_navigation():
        bench.keyboard.press("Space")
    expect(head(bench)).to_contain_text("pour")


def test_a_key_that_is_held_presses_once(bench):
    bench.keyboard.down("Space")
    expect(head(bench)).to_contain_text("oil")
    bench.wait_for_load_state()
    for _ in range(20):
        bench.keyboard.down("Space")
        bench.wait_for_timeout(60)
    expect(head(bench)).to_contain_text("oil")


def test_a_switch_that_bounces_presses_once(bench):
    """The next page may be there before the switch is still; its clock stands in this test."""
    bench.clock.set_fixed_time(datetime.now(UTC))
    bench.keyboard.press("Space")
    expect(head(bench)).to_contain_text("oil")
    bench.wait_for_load_state()
    bench.keyboard.press("Space")
    bench.wait_for_timeout(1500)
    expect(head(bench)).to_contain_text("oil")


def test_no_other_key_presses_it(round_):
    for key in ("Control+Space", "Shift+Space", "Alt+Space", "x", "Enter"):
        round_.keyboard.press(key)
        round_.wait_for_timeout(ONE_PRESS_MS)
        assert round_.get_by_text("not seen yet").count() == 5, key


def test_a_space_in_a_box_is_a_space(bench):
    road.unfold(bench, "Other weight")
    box = bench.get_by_label("The scale shows")
    box.focus()
    bench.keyboard.press("Space")
    assert box.input_value() == " "
    expect(head(bench)).to_contain_text("wax")


def test_a_space_on_another_button_or_fold_is_its_own(round_):
    fold = round_.locator("details.going > summary")
    fold.focus()
    round_.keyboard.press("Space")
    expect(round_.locator("details.going")).to_have_attribute("open", "")
    round_.wait_for_timeout(ONE_PRESS_MS)
    round_.get_by_role("button", name="All five are out").focus()
    round_.keyboard.down("Space")
    expect(round_.get_by_text("not seen yet")).to_have_count(5)


def test_a_box_reached_by_keys_is_ticked_by_the_space_bar(round_):
    round_.keyboard.press("Tab")
    code = round_.locator(".round__code").first.inner_text()
    radio = road.of_candle(round_, code).get_by_role("radio", name="Changed")
    radio.focus()
    round_.keyboard.press("Space")
    assert radio.is_checked()
    expect(round_.get_by_text("not seen yet")).to_have_count(5)


def test_a_box_ticked_by_hand_stays_ticked_when_the_foot_presses(round_):
    code = round_.locator(".round__code").first.inner_text()
    candle = road.of_candle(round_, code)
    candle.get_by_role("radio", name="Changed").click()
    tick = candle.get_by_role("checkbox", name=re.compile("^Flame over the mark"))
    tick.click()
    expect(tick).to_be_focused()
    round_.keyboard.press("Space")
    expect(round_.get_by_text("not seen yet")).to_have_count(0)
    expect(round_.get_by_role("alert").filter(has_text=code).first).to_be_visible()


def test_nothing_is_pressed_while_a_question_has_two_answers(bench):
    road.unfold(bench, "Other weight")
    road.fill(bench, The_scale_shows="1700")
    road.press(bench, "Note this weight")
    expect(bench.get_by_role("button", name="It was so: note it as typed")).to_be_visible()
    bench.evaluate("document.activeElement.blur()")
    bench.keyboard.press("Space")
    expect(says(bench)).to_be_visible()
    expect(head(bench)).to_contain_text("wax")


def test_nothing_is_pressed_while_going_out_is_open(round_):
    road.unfold(round_, "I’m going out")
    round_.evaluate("document.activeElement.blur()")
    round_.keyboard.press("Space")
    expect(says(round_)).to_be_visible()
    expect(round_.get_by_text("not seen yet")).to_have_count(5)
    assert faults(round_) == []


# --- the pedal


@pytest.fixture
def settings(demo, open_page) -> Page:
    page = open_page(demo)
    page.goto("/house/settings/")
    return page


def teach(page: Page, key: str) -> None:
    page.get_by_role("button", name="Teach the pedal").click()
    expect(page.get_by_text("Press the pedal now.")).to_be_visible()
    page.keyboard.press(key)


@pytest.mark.parametrize(
    ("key", "name"), [("PageDown", "Page Down"), ("b", "b"), ("Enter", "Enter")]
)
def test_a_pedal_that_was_taught_presses_the_ember_button(settings, key, name):
    teach(settings, key)
    expect(settings.get_by_text(f"The pedal is {name}, in this browser.")).to_be_visible()
    settings.goto("/round/")
    expect(settings.locator("[data-bench] kbd").first).to_have_text("space bar or pedal")
    settings.keyboard.press(key)
    expect(settings.get_by_text("not seen yet")).to_have_count(0)


def test_a_pedal_can_be_forgotten(settings):
    teach(settings, "PageDown")
    settings.reload()
    expect(settings.get_by_text("The pedal is Page Down, in this browser.")).to_be_visible()
    settings.get_by_role("button", name="Forget this pedal").click()
    expect(settings.get_by_text("No pedal is taught")).to_be_visible()
    settings.goto("/round/")
    settings.keyboard.press("PageDown")
    settings.wait_for_timeout(500)
    expect(settings.get_by_text("not seen yet")).to_have_count(5)


def test_a_key_that_would_hurt_is_refused_with_its_reason(settings):
    for key in ("Tab", "Escape", "Backspace", "F5", "Control+k"):
        teach(settings, key)
        expect(settings.get_by_text("so it cannot be the pedal")).to_be_visible()
        assert settings.evaluate("localStorage.getItem('pedal-key')") is None, key


def test_a_letter_of_the_pedal_is_typed_where_there_is_a_box(settings):
    teach(settings, "b")
    settings.goto("/round/")
    code = settings.locator(".round__code").first.inner_text()
    candle = road.of_candle(settings, code)
    candle.get_by_role("radio", name="Changed").click()
    candle.get_by_text("A number, if you measured").click()
    box = candle.get_by_role("textbox").first
    box.click()
    settings.keyboard.press("b")
    assert box.input_value() == "b"
    expect(settings.get_by_text("not seen yet")).to_have_count(5)


def test_the_block_of_the_pedal_is_readable(settings):
    teach(settings, "Tab")
    assert faults(settings) == []
