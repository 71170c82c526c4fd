"""What the tray says can be read by everybody, and a glove can press what it offers."""

import pytest

from browser import fielding, road
from browser.fielding import kept_here, note_of, opened, press, say_of
from browser.readable import faults

GLOVE_PX = 64
BUTTONS = ".tray .act, .dock .act, .bench__do .act--bench"


@pytest.fixture
def page(on_plain_http, phones):
    """Ragnhild's phone on the burn round."""
    context = fielding.phone(phones, on_plain_http)
    page = context.new_page()
    fielding.let_in(page, on_plain_http)
    opened(page, "/round/")
    yield page
    context.close()


def too_small(page) -> list[str]:
    """Shown buttons that a glove would miss."""
    return page.eval_on_selector_all(
        BUTTONS,
        """(all, least) => all
          .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < least)
          .map((one) => one.innerText)""",
        GLOVE_PX,
    )


def wrong(page) -> list[str]:
    return [*faults(page), *too_small(page)]


def keep_a_wrong_look(page, **more) -> None:
    """A melt pool wider than any vessel of the demo."""
    page.evaluate(
        """async ([store, more]) => {
          const { keep } = await import(store);
          const key = document.querySelector('meta[name="entry-key"]').content;
          const [name] = document.querySelector('[name$="-answer"]').name.split("-");
          const fields = [[`${name}-answer`, "changed"], [`${name}-pool_width_mm`, "400"]];
          const told = { key, address: "/round/", fields, words: "Burn round", ...more };
          await keep({ ...told, pressedAt: Date.now() });
        }""",
        [fielding.STORE, more],
    )


def test_each_state_of_the_tray_is_readable(on_plain_http, page):
    page.context.set_offline(True)
    press(page)
    note_of(page)
    say_of(page, "1 entry waits on this phone")
    [first] = kept_here(page)
    found = wrong(page)
    page.context.set_offline(False)
    fielding.wait_until_empty(page)
    opened(page, "/round/")
    keep_a_wrong_look(page)
    keep_a_wrong_look(page, id=first["id"])
    keep_a_wrong_look(page, key="somebody-else")
    opened(page, "/waiting/")
    say_of(page, "The workshop asks about “Burn round”")
    say_of(page, "was not noted: the workshop has another entry in its place")
    say_of(page, "1 entry of somebody else waits")
    found += wrong(page)
    page.get_by_role("button", name="Leave it out").click()
    found += wrong(page)
    opened(page, "/round/")
    on_plain_http.end_sign_ins()
    press(page)
    say_of(page, "sign in as Ragnhild to send it")
    assert found + wrong(page) == []


def test_a_guest_who_is_thanked_offline_can_read_it(on_plain_http, page):
    opened(page, "/")
    road.follow_link(page, "Hand the phone round")
    road.hand_round(page)
    road.be_nose(page, "Isak")
    road.at_tag(page, "417")
    page.wait_for_selector(fielding.READY)
    found = wrong(page)
    page.context.set_offline(True)
    page.get_by_role("button", name="Send 417").click()
    page.get_by_role("heading", name="Thank you, Isak.").wait_for()
    say_of(page, "1 entry waits on this phone")
    assert found + wrong(page) == []
