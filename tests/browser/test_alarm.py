"""The alarm in an open page: it is heard when a candle has to be out, whatever else happens."""

import re
import shutil
import time
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import Page, expect

from browser import road
from browser.conftest import LAPTOP
from browser.fielding import plain_workshop
from browser.listening import (
    EAR,
    ask_now,
    browser_in_the_wild,
    time_in,
    to_be_out,
    wait_for_quiet,
    wait_for_rows,
    wait_for_sound,
    wait_until,
)
from browser.readable import faults
from browser.tabs import Tab, window

WITHIN_S = 20
"""So soon after its time a candle is heard of."""
LOUD = 0.7
"""Of full scale, at the very end of the page's sound."""
CODE = "D5Q"
TURN_ON = "Turn the sound on and try it"
RANG = "SELECT deadline FROM house_ring WHERE rung = 'page'"


@pytest.fixture(scope="module")
def wild(browser):
    with browser_in_the_wild(browser) as found:
        yield found


@pytest.fixture
def here(demo_made, tmp_path):
    """A demo of which five candles are lit, under a name of the network, over plain http."""
    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)
    with plain_workshop(folder) as found:
        yield found


@pytest.fixture
def opened(here):
    """Let a browser in, on the burn round."""
    contexts = []

    def open_in(chromium, *, size=LAPTOP) -> Page:
        context = chromium.new_context(base_url=here.address, viewport=size, locale="en-GB")
        contexts.append(context)
        context.add_init_script(EAR)
        page = context.new_page()
        page.goto(here.link())
        page.get_by_role("button", name="Let this browser in").click()
        page.goto("/round/")
        return page

    yield open_in
    for context in contexts:
        context.close()


@pytest.fixture
def round_on(wild, opened) -> Page:
    """The burn round, with the sound turned on."""
    page = opened(wild)
    turn_on(page)
    return page


def turn_on(page: Page) -> None:
    road.unfold(page, "Alarm:")
    page.get_by_role("button", name=TURN_ON).click()
    page.get_by_role("button", name="Yes, I heard it").click()


def step(page: Page):
    return page.locator('[data-rung="page"] [data-words]')


def strip(page: Page):
    return page.locator("[data-alarm]")


def wait_until_known(page: Page, due) -> None:
    ask_now(page)
    ms = round(due.timestamp() * 1000)
    known = f"Object.values(localStorage).some((kept) => kept.includes('\"due\":{ms}'))"
    wait_until(page, known, within_s=WITHIN_S)


# --- turning it on


def test_no_page_sounds_before_it_was_touched(wild, here, opened):
    to_be_out(here, CODE, in_s=-60)
    page = opened(wild)
    expect(strip(page)).to_contain_text(f"Put out {CODE} now", timeout=WITHIN_S * 1000)
    expect(page.get_by_text("This page has no sound now.")).to_be_visible()
    assert not page.evaluate("isSounding()")
    expect(step(page)).to_have_text("off until you turn it on")


def test_turning_it_on_sounds_a_second_and_asks_who_heard_it(wild, here, opened):
    page = opened(wild)
    road.unfold(page, "Alarm:")
    page.get_by_role("button", name=TURN_ON).click()
    wait_until(page, f"highestYet() > {LOUD} && !isSounding()", within_s=WITHIN_S)
    expect(step(page)).to_have_text("on, not heard yet")
    page.get_by_role("button", name="Yes, I heard it").click()
    expect(step(page)).to_have_text(re.compile(r"^on, heard at \d\d:\d\d$"))
    (row,) = wait_for_rows(here, "SELECT rung, heard FROM house_heard")
    assert row == ("page", 1)


def test_a_sound_that_was_not_heard_is_never_called_heard(wild, here, opened):
    page = opened(wild)
    road.unfold(page, "Alarm:")
    page.get_by_role("button", name=TURN_ON).click()
    page.get_by_role("button", name="No, nothing").click()
    expect(step(page)).to_have_text(re.compile("^on, but it was not heard"))
    assert wait_for_rows(here, "SELECT rung, heard FROM house_heard") == [("page", 0)]


def test_what_was_heard_without_the_workshop_is_kept_until_it_is_back(wild, here, opened):
    page = opened(wild)
    here.kill()
    turn_on(page)
    expect(page.locator("[data-tray]")).to_contain_text("1 entry waits on this")
    here.start()
    assert wait_for_rows(here, "SELECT rung, heard FROM house_heard") == [("page", 1)]


def test_a_page_that_was_opened_anew_says_that_the_browser_holds_the_sound_back(round_on):
    page = round_on.context.new_page()
    page.goto("/round/")
    expect(step(page)).to_have_text(re.compile("touch the page once to turn it on again$"))
    expect(page.locator("[data-page-state]")).to_have_text("off")
    page.mouse.click(5, 300)
    expect(step(page)).to_have_text(re.compile("^on, heard at"))
    expect(page.locator("[data-page-state]")).to_have_text("on")


def test_a_sound_that_the_browser_took_back_is_called_off_until_a_touch(round_on):
    round_on.evaluate("contexts().forEach((context) => context.suspend())")
    expect(step(round_on)).to_have_text(re.compile("^held back by this browser"))
    expect(round_on.locator("[data-page-state]")).to_have_text("off")
    round_on.mouse.click(5, 300)
    expect(step(round_on)).to_have_text(re.compile("^on, heard at"))


# --- it rings


def test_it_rings_and_says_which_candle_when_it_has_to_be_out(here, round_on):
    due = to_be_out(here, CODE, in_s=4)
    ask_now(round_on)
    wait_for_sound(round_on, within_s=4 + WITHIN_S)
    assert timedelta(0) <= time_in(here) - due < timedelta(seconds=WITHIN_S)
    wait_until(round_on, f"highestYet() > {LOUD}", within_s=5)
    clock = due.astimezone(ZoneInfo("Europe/Oslo"))
    expect(strip(round_on)).to_contain_text(
        f"Put out {CODE} now: it was to be out by {clock:%H:%M}. Loft."
    )
    assert round_on.title().startswith(f"Put out {CODE} now")
    expect(round_on.get_by_text("This page has no sound now.")).to_be_hidden()
    ask_now(round_on)
    (row,) = wait_for_rows(here, RANG)
    assert row[0].startswith("burn ")


def test_it_rings_on_every_page_of_a_maker(here, round_on):
    """A touch of the page before counts for the next one."""
    to_be_out(here, CODE, in_s=0)
    for path in ("/", "/shelf/", "/house/settings/", "/trials/2/verdict/"):
        with round_on.expect_navigation():
            round_on.evaluate("path => location.assign(path)", path)
        wait_for_sound(round_on, within_s=WITHIN_S)
        expect(strip(round_on)).to_contain_text(f"Put out {CODE} now")
        round_on.mouse.click(5, 300)


def test_it_rings_in_a_tab_that_is_hidden(here, wild):
    """Another tab in front: the timers of the hidden one get hardly any time."""
    with window(wild) as tabs:
        hidden = Tab(tabs, here.link(), first=EAR)
        hidden.click("main button")
        hidden.wait_until("document.querySelector('.top__who') !== null")
        hidden.goto(f"{here.address}/round/")
        hidden.evaluate("document.querySelector('[data-ladder]').open = true")
        hidden.click("[data-ladder] [data-sound-on]")
        hidden.wait_until("isSounding()")
        Tab(tabs, f"{here.address}/shelf/")
        hidden.wait_until("document.visibilityState === 'hidden' && !isSounding()")
        hidden.evaluate("{ window.turns = 0; setInterval(() => window.turns++, 50); }")
        due = to_be_out(here, CODE, in_s=12)
        hidden.wait_until("isSounding()", within_s=12 + WITHIN_S)
        assert time_in(here) - due < timedelta(seconds=WITHIN_S)
        assert hidden.evaluate("document.visibilityState") == "hidden"
        assert hidden.evaluate("turns") < 100, "the hidden tab was given all its time"
        hidden.wait_until(f"loudness() > {LOUD}", within_s=5)


def test_it_rings_when_the_server_is_killed_before_and_started_after(here, round_on):
    due = to_be_out(here, CODE, in_s=4)
    wait_until_known(round_on, due)
    here.kill()
    wait_for_sound(round_on, within_s=4 + WITHIN_S)
    here.start()
    ask_now(round_on)
    assert wait_for_rows(here, RANG), "it was told, so it has asked"
    assert round_on.evaluate("isSounding()")


def test_it_rings_when_the_server_stays_dead(here, round_on):
    due = to_be_out(here, CODE, in_s=4)
    wait_until_known(round_on, due)
    here.kill()
    wait_for_sound(round_on, within_s=4 + WITHIN_S)
    assert time_in(here) - due < timedelta(seconds=WITHIN_S)
    expect(strip(round_on)).to_contain_text(f"Put out {CODE} now")


def test_a_page_that_lies_open_goes_by_the_later_of_two_clocks(here, round_on):
    """Set back, the device's clock would make it late; then the time that ran counts."""
    due = to_be_out(here, CODE, in_s=6)
    wait_until_known(round_on, due)
    here.kill()
    round_on.evaluate("""() => {
        const now = Date.now;
        Date.now = () => now() - 3600000;
    }""")
    wait_for_sound(round_on, within_s=6 + WITHIN_S)


def test_a_page_that_was_opened_while_nothing_was_lit_learns_of_a_candle(here, wild, opened):
    here.all("UPDATE trials_burn SET out_at = out_by_at WHERE out_at IS NULL")
    page = opened(wild)
    page.goto("/shelf/")
    here.all(
        "UPDATE trials_burn SET out_at = NULL, out_by_at = ? WHERE id = "
        "(SELECT max(id) FROM trials_burn)",
        f"{time_in(here):%F %T.%f}",
    )
    expect(strip(page)).to_contain_text("Put out", timeout=(30 + WITHIN_S) * 1000)
    expect(strip(page).get_by_role("link", name="Hand over")).to_be_visible()


def test_of_two_tabs_one_sounds_and_the_other_follows_it(here, round_on):
    other = round_on.context.new_page()
    other.goto("/round/")
    other.mouse.click(5, 300)
    to_be_out(here, CODE, in_s=-5)
    for tab in (round_on, other):
        ask_now(tab)
        expect(strip(tab)).to_contain_text(f"Put out {CODE} now")
    both = [tab.evaluate("isSounding()") for tab in (round_on, other)]
    wait_for_sound(round_on if both[0] else other, within_s=WITHIN_S)
    for _ in range(20):
        both = [tab.evaluate("isSounding()") for tab in (round_on, other)]
        round_on.wait_for_timeout(100)
    assert sorted(both) == [False, True]
    first, second = (round_on, other) if both[0] else (other, round_on)
    first.close()
    wait_for_sound(second, within_s=WITHIN_S)


# --- it is quiet again


@pytest.fixture
def ringing(here, round_on) -> Page:
    round_on.evaluate("document.querySelector('[data-alarm]').dataset.pauseS = 6")
    to_be_out(here, CODE, in_s=0)
    ask_now(round_on)
    wait_for_sound(round_on, within_s=WITHIN_S)
    return round_on


def test_im_there_silences_it_for_its_pause_and_no_longer(here, ringing):
    pressed = time.monotonic()
    ringing.get_by_role("button", name="I’m there").click()
    wait_for_quiet(ringing, within_s=5)
    expect(strip(ringing)).to_be_hidden()
    assert ringing.title().startswith("Burn round")
    wait_for_sound(ringing, within_s=6 + WITHIN_S)
    assert time.monotonic() - pressed > 5
    assert here.one("SELECT count(*) FROM house_there") == 1


def test_candles_that_are_due_together_are_one_sentence(here, ringing):
    """Five may be lit at once, and a strip of five sentences is not read."""
    due = to_be_out(here, CODE, in_s=-5)
    here.all("UPDATE trials_burn SET out_by_at = ? WHERE out_at IS NULL", f"{due:%F %T.%f}")
    ask_now(ringing)
    expect(strip(ringing)).to_contain_text(f"Put out {CODE}, H6X and V3J now: they were to be out")


def test_im_there_leaves_what_is_half_filled_in(here, ringing):
    road.of_candle(ringing, CODE).get_by_role("radio", name="Changed").check()
    ringing.get_by_role("button", name="I’m there").click()
    wait_for_rows(here, "SELECT id FROM house_there")
    expect(ringing.locator("[data-tray]")).to_be_empty()
    assert road.of_candle(ringing, CODE).get_by_role("radio", name="Changed").is_checked()


def test_the_pause_of_a_page_as_it_comes_is_two_minutes(round_on):
    assert strip(round_on).get_attribute("data-pause-s") == "120"


def test_out_is_quiet_although_the_workshop_does_not_know_it_yet(here, ringing):
    here.kill()
    road.unfold(ringing, "I’m going out")
    ringing.get_by_role("button", name="All five are out").click()
    wait_for_quiet(ringing, within_s=WITHIN_S)
    ask_now(ringing)
    ringing.wait_for_timeout(2500)
    assert not ringing.evaluate("isSounding()")
    expect(strip(ringing)).to_be_hidden()


def test_a_timer_is_quiet_once_it_is_done_although_the_workshop_does_not_know_it(here, round_on):
    here.all("UPDATE trials_burn SET out_at = out_by_at WHERE out_at IS NULL")
    here.all(
        "INSERT INTO house_timer (what, set_at, due_at, set_by_id) "
        "VALUES ('stir', ?, ?, (SELECT min(id) FROM house_person))",
        f"{time_in(here) - timedelta(minutes=3):%F %T.%f}",
        f"{time_in(here):%F %T.%f}",
    )
    with round_on.expect_navigation():
        round_on.evaluate("location.assign('/timers/')")
    wait_for_sound(round_on, within_s=WITHIN_S)
    here.kill()
    round_on.get_by_role("button", name=re.compile("^Done")).click()
    wait_for_quiet(round_on, within_s=WITHIN_S)
    expect(strip(round_on)).to_be_hidden()


def test_one_put_out_on_another_device_is_quiet_here(here, wild, ringing, opened):
    other = opened(wild)
    road.put_out(other, CODE)
    ask_now(ringing)
    wait_for_quiet(ringing, within_s=WITHIN_S)


# --- how it looks


def test_everybody_can_read_the_strip(here, ringing):
    assert faults(ringing) == []
