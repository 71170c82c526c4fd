"""A photo on the round, with and without the workshop, and its numbers in the evening."""

import base64
import hashlib
import json
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Locator, Page, expect

from browser.conftest import LAPTOP
from browser.fielding import (
    Workshop,
    kept_here,
    let_in,
    opened,
    phone,
    wait_until_empty,
)
from browser.readable import faults
from throwbench.web.folder import Folder
from workshop.trials.pictures import encoded, exif, phone_photo

PHOTOS = "select count(*) from trials_photo"
CODE = (
    "select code from trials_testcandle c join trials_burn b on b.candle_id = c.id"
    " where out_at is null"
)


@pytest.fixture
def here(on_plain_http: Workshop) -> Workshop:
    return on_plain_http


@pytest.fixture
def page(here, phones) -> Iterator[Page]:
    """Ragnhild's phone, let in."""
    context = phone(phones, here)
    own = context.new_page()
    let_in(own, here)
    yield own
    context.close()


@pytest.fixture
def taken(tmp_path) -> Path:
    """As a phone takes it: twelve million pixels, held upright, with its place."""
    noise = Image.merge("RGB", [Image.effect_noise((4000, 3000), 40) for _ in range(3)])
    file = tmp_path / "IMG_0001.jpg"
    file.write_bytes(encoded(noise, quality=80, exif=exif(orientation=6)))
    return file


def box_of(page: Page, code: str) -> Locator:
    """The box for a photo of one candle, opened."""
    candle = page.get_by_role("group", name=code).first
    folded = candle.locator(".photo__add:not([open]) > summary")
    if folded.count():
        folded.click()
    return candle.get_by_label(f"Photo of {code}")


def note_of(page: Page, code: str) -> Locator:
    return page.get_by_role("group", name=code).first.locator(".photo__add .entry-note")


def file_of(here: Workshop) -> Path:
    """The one photo in the folder."""
    (file,) = (here.folder / "photos").iterdir()
    return file


def demo_time(here: Workshop, pressed_ms: int) -> datetime:
    """When something was pressed, by the demo's own clock."""
    offset_s = Folder(here.folder).read().demo_offset_s or 0
    return datetime.fromtimestamp(pressed_ms / 1000, UTC) + timedelta(seconds=offset_s)


def test_a_photo_without_the_workshop_is_kept_once_without_place_at_its_time(here, page, taken):
    code = here.one(CODE)
    opened(page, "/round/")
    here.kill()
    box_of(page, code).set_input_files(taken)
    expect(note_of(page, code)).to_contain_text("Noted on this phone at")
    (kept,) = kept_here(page)
    (data,) = [value for name, value in kept["told"]["fields"] if name == "photo_data"]
    assert data.startswith("data:image/jpeg;base64,")
    assert len(kept["text"].encode()) < 2 * 1024 * 1024
    page.wait_for_timeout(1500)
    here.start()
    opened(page, "/round/")
    wait_until_empty(page)
    assert here.one(PHOTOS) == 1
    digest, at = here.all("select digest, at from trials_photo")[0]
    assert file_of(here).name == f"{digest}.jpg"
    assert hashlib.sha256(file_of(here).read_bytes()).hexdigest() == digest
    noted = datetime.fromisoformat(at).replace(tzinfo=UTC)
    pressed = demo_time(here, kept["pressedAt"])
    assert abs(noted - pressed) < timedelta(seconds=1), "not when it was sent"
    with Image.open(file_of(here)) as image:
        assert dict(image.getexif()) == {}
        assert image.size == (1200, 1600), "upright, as it was held"


def test_one_press_opens_the_camera(here, page, taken):
    code = here.one(CODE)
    opened(page, "/round/")
    with page.expect_file_chooser() as camera:
        page.get_by_role("group", name=code).first.locator(".photo__add > summary").click()
    camera.value.set_files(taken)
    expect(note_of(page, code)).to_contain_text("The workshop has it")
    assert here.one(PHOTOS) == 1


def test_what_leaves_the_phone_says_no_place(here, page, taken):
    bodies: list[bytes] = []
    page.on("request", lambda request: bodies.append(request.post_data_buffer or b""))
    code = here.one(CODE)
    opened(page, "/round/")
    box_of(page, code).set_input_files(taken)
    expect(note_of(page, code)).to_contain_text("The workshop has it")
    largest = max(bodies, key=len)
    assert 50_000 < len(largest) < 2 * 1024 * 1024
    (data,) = [value for name, value in json.loads(largest)["fields"] if name == "photo_data"]
    picture = base64.b64decode(data.partition(",")[2])
    assert b"Camera works" not in picture
    assert b"Exif" not in picture[:4000], "it stands at the head"
    assert here.one(PHOTOS) == 1


def test_what_is_half_ticked_stays_and_photos_taken_in_a_row_are_all_kept(here, page, taken):
    code = here.one(CODE)
    opened(page, "/round/")
    candle = page.get_by_role("group", name=code).first
    candle.get_by_role("radio", name="Changed").check()
    box_of(page, code).set_input_files(taken)
    for side in (300, 400):
        more = {"name": "b.jpg", "mimeType": "image/jpeg", "buffer": phone_photo((side, 200))}
        box_of(page, code).set_input_files(more)
    for _ in range(150):
        if here.one(PHOTOS) == 3:
            break
        page.wait_for_timeout(200)
    expect(note_of(page, code)).to_contain_text("The workshop has it")
    assert candle.get_by_role("radio", name="Changed").is_checked()
    wait_until_empty(page)
    assert here.one(PHOTOS) == 3


def test_a_picture_that_the_browser_cannot_read_is_said(here, page):
    code = here.one(CODE)
    opened(page, "/round/")
    heic = b"\0\0\0\x18ftypheic" + b"\0" * 4000
    box = box_of(page, code)
    box.set_input_files({"name": "IMG_7.HEIC", "mimeType": "image/heic", "buffer": heic})
    status = page.get_by_role("group", name=code).first.locator(".photo__add [role=status]").first
    expect(status).to_contain_text("This browser cannot read “IMG_7.HEIC”.")
    expect(status).to_contain_text("A JPEG, PNG or WebP picture is kept.")
    assert kept_here(page) == []
    assert here.one(PHOTOS) == 0


def test_in_the_evening_the_numbers_are_read_from_it(here, page, phones, taken):
    code = here.one(CODE)
    keep(page, code, taken)
    context = phones.new_context(viewport=LAPTOP, base_url=here.address, locale="en-GB")
    laptop = context.new_page()
    let_in(laptop, here)
    laptop.goto("/")
    laptop.get_by_role("link", name="One photo waits for its numbers").click()
    laptop.get_by_role("link", name="What does it show?").click()
    picture = laptop.get_by_role("img", name=code)
    assert picture.evaluate("image => image.complete && image.naturalWidth") == 1200
    laptop.get_by_label("Melt pool, widest").fill("41,5")
    laptop.get_by_label("Soot").select_option("trace")
    laptop.get_by_role("button", name="It shows this at").click()
    expect(laptop.get_by_role("heading", level=1)).to_contain_text(f"{code}, burn")
    (read,) = here.all(
        "select pool_width_mm, soot, flame, pool_full, no_change, c.at, p.at"
        " from trials_check c join trials_photo p on p.read_as_id = c.id"
    )
    assert read[:5] == (41.5, "trace", "", None, None)
    assert read[5][:16] == read[6][:16], "at the minute of the photo"
    context.close()


def test_everybody_can_read_the_pages_of_photos(here, phones, taken):
    """None yet; one that waits; read, put aside, and its file missing."""
    context = phones.new_context(viewport=LAPTOP, base_url=here.address, locale="en-GB")
    page = context.new_page()
    let_in(page, here)
    code = here.one(CODE)
    wrong = faults_of(page, "/photos/", "/round/")
    keep(page, code, taken)
    burn = here.one("select burn_id from trials_photo")
    wrong += faults_of(page, "/", "/photos/", "/round/", f"/burns/{burn}/", "/photos/1/")
    page.get_by_role("button", name="Nothing can be read from it").click()
    wrong += faults_of(page, "/photos/1/", f"/burns/{burn}/")
    page.goto("/photos/1/")
    page.get_by_label("Flame height").fill("180")
    page.get_by_role("button", name="It shows this at").click()
    page.get_by_text("180 mm is over").wait_for()
    wrong += faults(page)
    page.get_by_label("Flame height").fill("18")
    page.get_by_role("button", name="It shows this at").click()
    wrong += faults_of(page, "/photos/1/")
    file_of(here).unlink()
    wrong += faults_of(page, "/photos/1/", f"/burns/{burn}/")
    context.close()
    assert not wrong, "\n".join(wrong)


def test_a_picture_stands_within_its_page(here, page, taken):
    keep(page, here.one(CODE), taken)
    for path in ("/photos/", "/photos/1/"):
        opened(page, path)
        box = page.get_by_role("img").first.bounding_box()
        assert 250 < box["width"] <= 360 - box["x"], path


def faults_of(page: Page, *paths: str) -> list[str]:
    """What is wrong with these pages, with every box for a photo open."""
    wrong = []
    for path in paths:
        opened(page, path)
        page.evaluate(
            "document.querySelectorAll('.photo__add').forEach((box) => (box.open = true))"
        )
        wrong += faults(page)
    return wrong


def keep(page: Page, code: str, taken: Path) -> None:
    """A photo on the round, until the workshop has it."""
    opened(page, "/round/")
    box_of(page, code).set_input_files(taken)
    expect(note_of(page, code)).to_contain_text("The workshop has it")


def test_without_scripts_the_form_sends_the_file(here, phones, taken):
    context = phones.new_context(viewport=LAPTOP, base_url=here.address, java_script_enabled=False)
    page = context.new_page()
    page.goto(here.link())
    page.get_by_role("button", name="Let this browser in").click()
    code = here.one(CODE)
    page.goto("/round/")
    box_of(page, code).set_input_files(taken)
    page.get_by_role("group", name=code).first.get_by_role("button", name="Keep this photo").click()
    expect(page.get_by_text("last one").first).to_be_visible()
    with Image.open(file_of(here)) as image:
        assert dict(image.getexif()) == {}
        assert image.size == (1500, 2000)
    context.close()
