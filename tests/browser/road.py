"""The road of a maker, press by press. Only what stands on the pages is used, and no address."""

import re
from collections.abc import Sequence
from datetime import date, datetime, timedelta

from playwright.sync_api import Locator, Page, expect


def main_of(page: Page) -> Locator:
    return page.get_by_role("main")


def head_of(page: Page) -> str:
    """The sentence that a page opens with."""
    return plain(page.get_by_role("heading", level=1))


def plain(found: Locator) -> str:
    """Its words, whatever they break by."""
    return " ".join(found.inner_text().split())


def press(page: Page, name: str | re.Pattern[str]) -> None:
    """A button of a form; on until the answer is there."""
    with page.expect_navigation():
        main_of(page).get_by_role("button", name=name).click()


def follow_link(page: Page, name: str | re.Pattern[str]) -> None:
    main_of(page).get_by_role("link", name=name).first.click()


def go_to(page: Page, where: str) -> None:
    """By the navigation; from the burn round, which has none, by the mark that leads home."""
    navigation = page.get_by_role("navigation", name="Main")
    if not navigation.count():
        page.get_by_role("banner").get_by_role("link", name="Throwbench").click()
    navigation.get_by_role("link", name=where).click()


def unfold(page: Page, words: str) -> None:
    """Open what is folded away, if it is."""
    folded = main_of(page).locator("details:not([open]) > summary", has_text=words)
    if folded.count():
        folded.first.click()


def fill(page: Page, **told: str) -> None:
    """Boxes by their label; `_` stands for a space."""
    for label, value in told.items():
        box = main_of(page).get_by_label(label.replace("_", " "), exact=True)
        is_list = box.evaluate("box => box.tagName") == "SELECT"
        box.select_option(value) if is_list else box.fill(value)


# --- house and shelf


def begin(page: Page, *, workshop: str, name: str) -> None:
    fill(page, Name_of_the_workshop=workshop, Your_own_name=name, Time_zone="Europe/Oslo")
    press(page, "Begin this workshop")


def add_room(page: Page, *, name: str, kind: str) -> None:
    go_to(page, "House")
    follow_link(page, re.compile("room"))
    fill(page, Name=name, Kind=kind)
    press(page, "Add this room")


def add_person(page: Page, *, name: str) -> None:
    go_to(page, "House")
    follow_link(page, "Add or blank a person")
    fill(page, Name=name)
    press(page, "Add this person")


def add_oil_line(page: Page, line: str) -> None:
    fill(page, One_line_per_oil=line)
    press(page, "Put this oil on the shelf")


def say_cure(page: Page, *, days: int) -> None:
    """On the wax card, where the cure of a trial asks for it."""
    follow_link(page, "fill in the wax card")
    fill(page, Cure=str(days))
    press(page, "Keep this card")


# --- trial


def plan_trial(page: Page, *, question: str, name: str) -> None:
    fill(page, The_question=question, Name_of_the_trial=name)
    press(page, "Begin this trial")


def go_to_trial(page: Page, name: str, step: str = "Plan") -> None:
    go_to(page, "Trials")
    follow_link(page, name)
    follow_link(page, step)


def add_oil(page: Page, line: str) -> None:
    unfold(page, "Add an oil")
    fill(page, Oil=line)
    press(page, "Add this oil")


def choose_wick(page: Page, *, wick: str, load: str, wax: str, vessel: str) -> None:
    unfold(page, "Add a wick")
    fill(page, Wick=wick, Load_of_wax=load, Wax=wax, Vessel=vessel)
    press(page, "Try this wick")


def fix_plan(page: Page) -> None:
    press(page, "Fix the plan and pour")


def pour(page: Page, *, oil: str, wax_g: str, days_ago: int) -> str:
    """Weigh, add and pour what the bench says; the code of the candle."""
    follow_link(page, f"Begin the pitcher of {oil}")
    fill(page, Wax_planned=wax_g)
    press(page, "Begin this pitcher")
    press(page, re.compile("of wax is in$"))
    press(page, re.compile("g is in$"))
    code = main_of(page).get_by_role("checkbox").first.evaluate("box => box.labels[0].innerText")
    unfold(page, "Another day")
    fill(page, Poured_on_another_day=str(date.today() - timedelta(days=days_ago)))
    press(page, "Poured: note it")
    follow_link(page, "To the other pitchers")
    return str(code).split()[0]


# --- burns


def choose_to_light(page: Page, code: str) -> None:
    main_of(page).get_by_role("checkbox", name=code).check()
    press(page, "Go on with these candles")


def light(page: Page, *, code: str, kind: str, room: str, ago: timedelta) -> None:
    """One candle, lit `ago`."""
    choose_to_light(page, code)
    main_of(page).get_by_role("radio", name=kind).check()
    fill(page, Room=room)
    day, clock = (main_of(page).get_by_label(f"Lit {what}") for what in ("on, day", "at, time"))
    shown = f"{day.input_value()} {clock.input_value()}"
    lit_at = datetime.strptime(shown, "%Y-%m-%d %H:%M") - ago
    day.fill(f"{lit_at:%Y-%m-%d}")
    clock.fill(f"{lit_at:%H:%M}")
    press(page, re.compile("lit: note it$"))


def of_candle(page: Page, code: str) -> Locator:
    """What is asked of one candle on the burn round."""
    return main_of(page).get_by_role("group", name=re.compile(f"^{code}"))


def check_round(page: Page) -> None:
    """A look at all of them, and nothing has changed."""
    press(page, re.compile("^Seen, no change"))


def put_out(page: Page, *codes: str) -> None:
    for code in codes:
        of_candle(page, code).get_by_role("radio", name="Put out").check()
        of_candle(page, code).get_by_role("checkbox", name="None of these").check()
    press(page, "Note these")


# --- panel


def open_panel(page: Page, *, noses: Sequence[str]) -> None:
    """From the burns of a trial: the candles stand where they are lit."""
    follow_link(page, "Sniff: the panels")
    follow_link(page, re.compile("^Open a panel"))
    for nose in noses:
        main_of(page).get_by_role("checkbox", name=nose).check()
    press(page, "Draw the tags and open this panel")


def hand_round(page: Page) -> str:
    """The four digits that lead back; from here on the phone shows noses only."""
    press(page, "Hand the phone round")
    expect(page.get_by_role("heading", level=1)).to_contain_text("four digits")
    digits = main_of(page).get_by_text(re.compile(r"^\d{4}$")).inner_text()
    main_of(page).get_by_role("link").click()
    return digits


def be_nose(page: Page, name: str) -> None:
    main_of(page).get_by_role("button", name=re.compile(f"^{name}")).click()


def at_tag(page: Page, tag: str) -> None:
    """To the page of one tag; a name leads to one of them at once, or to all of them."""
    if head_of(page) != tag:
        unfold(page, "Not this one, or no more")
        follow_link(page, re.compile(rf"\b{tag}\b"))


def score(page: Page, tag: str, *, liking: str, strength: str) -> None:
    """The answers to one candle, as a guest presses them."""
    at_tag(page, tag)
    answer(page, "Do you like it?", liking)
    answer(page, "How strong is it?", strength)
    press(page, f"Send {tag}")


def answer(page: Page, question: str, step: str) -> None:
    group = main_of(page).get_by_role("group", name=question)
    group.get_by_role("radio", name=re.compile(rf"^{step}\b")).check()


def hand_round_scores(page: Page, given: Sequence[tuple[str, str, str, str]]) -> None:
    """Nose, tag, liking and strength; after each sniff the phone is handed on."""
    for nose, tag, liking, strength in given:
        be_nose(page, nose)
        score(page, tag, liking=liking, strength=strength)
        follow_link(page, "The phone is handed on")


def way_back(page: Page, code: str) -> None:
    follow_link(page, "Back to the maker")
    fill(page, The_four_digits=code)
    press(page, "Take the phone back")


def close_panel(page: Page) -> None:
    unfold(page, "Close this panel")
    press(page, "Close it now")
    expect(page.get_by_role("heading", level=1)).to_contain_text("closed")


# --- verdict


def ask_verdict(page: Page) -> None:
    press(page, "Ask for the verdict")


def decide(page: Page, *, button: str, why: str) -> None:
    fill(page, Why=why)
    press(page, button)
