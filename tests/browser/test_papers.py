"""What can be taken out of the demo: sheets, slips, tags, report, picture, table, export."""

import json
import re

import pytest

from browser import road
from browser.conftest import called

KINDS = {
    "application/pdf": b"%PDF-",
    "image/png": b"\x89PNG\r\n",
    "application/zip": b"PK\x03\x04",
    "text/csv": b"",
}


@pytest.fixture(scope="module")
def page(demo_to_read, browser):
    context = browser.new_context(base_url=demo_to_read.address)
    page = context.new_page()
    page.goto(demo_to_read.link())
    page.get_by_role("button", name="Let this browser in").click()
    yield page
    context.close()


def taken(page, link: str | re.Pattern[str], kind: str) -> bytes:
    """The file behind a link of this page, which is what it says it is."""
    href = road.main_of(page).get_by_role("link", name=link).first.get_attribute("href")
    answer = page.request.get(href)
    assert answer.status == 200, (href, answer.text()[:400])
    assert answer.headers["content-type"].split(";")[0] == kind
    body = answer.body()
    assert len(body) > 1000
    assert body.startswith(KINDS[kind])
    return body


def _verdict(page) -> None:
    page.goto("/")
    road.go_to_trial(page, "Long Light", "Verdict")


@pytest.mark.parametrize(
    ("link", "kind"),
    [
        ("Print the report", "application/pdf"),
        ("Picture", "image/png"),
        ("Table for a spreadsheet", "text/csv"),
    ],
)
def test_a_verdict_leaves_on_paper_as_a_picture_and_as_a_table(page, link, kind):
    _verdict(page)
    taken(page, link, kind)


def test_the_export_gives_the_command_the_same_verdict(page, tmp_path):
    _verdict(page)
    kept = tmp_path / "trial.zip"
    kept.write_bytes(taken(page, re.compile("^Export"), "application/zip"))
    found = json.loads(called("verdict", str(kept), "--json").stdout)
    assert road.head_of(page) == f"{found['headline']} {found['risk']}"
    assert found["pick"]
    for item in found["candidates"]:
        row = road.plain(_row_of(page, item["candidate"]))
        assert _in_words(item["chance_to_belong"]) in row


def _in_words(chance: float | None) -> str:
    """A chance as the page says it; only what is ranked has one."""
    if chance is None:
        return "not ranked"
    if chance > 0.99:
        return "over 99 in 100"
    return "under 1 in 100" if chance < 0.01 else f"{round(100 * chance)} in 100"


def _row_of(page, oil: str):
    return page.get_by_role("row").filter(has=page.get_by_role("rowheader", name=oil)).first


@pytest.mark.parametrize(
    ("step", "link"),
    [
        ("Pour", "Print the pour sheet"),
        ("Burn and sniff", "Burn sheet on paper"),
    ],
)
def test_the_sheets_of_a_trial_print(page, step, link):
    page.goto("/")
    road.go_to_trial(page, "Long Light", step)
    taken(page, link, "application/pdf")


def test_slips_and_front_tags_of_an_open_panel_print(page):
    page.goto("/")
    road.follow_link(page, "Hand the phone round")
    taken(page, "Print the slips", "application/pdf")
    taken(page, "Print the tags", "application/pdf")


def test_tags_of_the_demo_say_once_that_its_address_is_for_show(demo, open_page):
    page = open_page(demo)
    road.go_to_trial(page, "Long Light", "Cure")
    tags = road.main_of(page).get_by_role("link", name="Print the shelf tags")
    href = tags.get_attribute("href")
    tags.click()
    assert road.head_of(page).startswith("The demo’s address is for show")
    anyway = page.get_by_role("link", name="Print all the same").get_attribute("href")
    for address in (href + anyway, href):
        answer = page.request.get(address)
        assert answer.body().startswith(KINDS["application/pdf"])
        assert answer.headers["content-type"] == "application/pdf"


def test_tags_without_an_address_print_without_square_codes(demo, open_page):
    page = open_page(demo)
    road.go_to(page, "House")
    road.follow_link(page, "See and check the address")
    road.fill(page, Workshop_address="")
    road.press(page, "Keep this address")
    road.go_to_trial(page, "Long Light", "Cure")
    road.follow_link(page, "Print the shelf tags")
    href = page.get_by_role("link", name="Print without square codes").get_attribute("href")
    answer = page.request.get(page.url + href)
    assert answer.body().startswith(KINDS["application/pdf"])
