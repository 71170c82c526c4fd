"""Tags: their size in mm, their dates, and QR codes that a reader reads from the page."""

from collections.abc import Callable
from datetime import date

import pytest
import zxingcpp

from paper import MM, at, codes, for_keeping, grey, ink, middles_mm, pages, text_stays_mm, title
from throwbench.documents.qr import qr
from throwbench.documents.tags import (
    GAP_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    CodeTag,
    ShelfTag,
    code_tags,
    front_tags,
    shelf_tags,
)
from throwbench.science.errors import UnclearError

DAY = date(2027, 4, 24)
BASE = "http://192.168.1.20:8437/c/"
LONG_NAME = "Smoked Rhubarb, Wet Slate & Burnt-Sugar Custard No. 5 (Åse's)"
LONG_URL = "https://bench.example/c/" + "K7F" * 40


def shelf(code: str = "K7F", *, cure: int | None = 10, poured: date | None = DAY) -> ShelfTag:
    return ShelfTag(code=code, url=BASE + code, poured_on=poured, cure_days=cure)


def made_shelf(count: int) -> bytes:
    return shelf_tags([shelf(f"K{number:02}") for number in range(count)], day=DAY)


def made_code(count: int) -> bytes:
    tags = [CodeTag(code=f"K{n:02}", url=f"{BASE}K{n:02}", oil="Goat Willow") for n in range(count)]
    return code_tags(tags, day=DAY)


def made_front(count: int) -> bytes:
    return front_tags([str(100 + number) for number in range(count)], day=DAY)


SETS = [made_shelf, made_code, made_front]


def test_a_shelf_tag_says_when_its_cure_ends() -> None:
    made = shelf_tags([shelf()], day=DAY)
    assert title(made) == "Shelf tags"
    # definition: 24 April and ten days is 4 May
    said = "K7F sniff and burn not before 4 May 2027 poured: 24 April 2027 cure: 10 days"
    assert said in pages(made)[0]
    assert "192.168.1.20:8437/c/K7F" in pages(made)[0]


@pytest.mark.parametrize(
    ("tag", "said"),
    [
        (shelf(cure=None), "poured: 24 April 2027 cure: not known"),
        (shelf(poured=None), "poured: not known cure: 10 days"),
    ],
)
def test_what_is_not_known_leaves_a_line_for_a_pen(tag: ShelfTag, said: str) -> None:
    assert tag.not_before is None
    assert f"sniff and burn not before {said}" in pages(shelf_tags([tag], day=DAY))[0]


def test_a_long_address_stands_in_its_code_only() -> None:
    two = "https://" + "a" * 40 + "/c/K7F"
    said = pages(code_tags([CodeTag(code="K7F", url=two)], day=DAY))[0].replace(" ", "")
    assert "a" * 40 + "/c/K7F" in said
    assert "K7FK7F" not in pages(code_tags([CodeTag(code="A", url=LONG_URL)], day=DAY))[0]


def test_a_code_tag_has_the_name_under_the_code() -> None:
    made = code_tags([CodeTag(code="K7F", url=BASE + "K7F", oil="Slate After Rain")], day=DAY)
    assert title(made) == "Code tags"
    assert "K7F Slate After Rain 192.168.1.20:8437/c/K7F" in pages(made)[0]


def test_tags_for_the_front_are_three_digits_and_nothing_else() -> None:
    made = front_tags(["417", "803"], day=DAY)
    assert title(made) == "Tags"
    assert pages(made) == [
        "Each 63.5 × 38.1 mm, 21 on a sheet. Print at 100 %, nothing fitted to the page. 417 803"
    ]
    assert codes(made, 0) == []


def test_a_candles_code_never_stands_in_front() -> None:
    with pytest.raises(UnclearError, match="never the code of the candle"):
        front_tags(["417", "K7F"], day=DAY)


@pytest.mark.parametrize("make", [made_shelf, made_code])
def test_a_reader_reads_every_code_on_the_page(make: Callable[[int], bytes]) -> None:
    found = codes(make(21), 0)
    assert {code.text for code in found} == {f"{BASE}K{number:02}" for number in range(21)}
    assert len(found) == 21
    assert {code.format for code in found} == {zxingcpp.BarcodeFormat.QRCode}
    assert {code.ec_level for code in found} == {"M"}


@pytest.mark.parametrize("url", [BASE + "K7F", "https://bench.example/c/K7F", LONG_URL])
def test_modules_are_half_a_millimetre_and_more_with_four_of_white_around(url: str) -> None:
    made = shelf_tags([ShelfTag(code="K7F", url=url)], day=DAY)
    (code,) = codes(made, 0)
    assert code.text == url
    corners = code.position
    left, top = corners.top_left.x, corners.top_left.y
    right, bottom = corners.bottom_right.x, corners.bottom_right.y
    across = round(qr(url, within_mm=30).size_mm / qr(url, within_mm=30).module_mm) - 8
    module = (right - left) / across
    assert module / MM >= 0.49
    assert module / MM == pytest.approx(qr(url, within_mm=30).module_mm, abs=0.02)
    quiet = int(4 * module)
    page = grey(made, 0)
    around = page[top - quiet : bottom + quiet, left - quiet : right + quiet].copy()
    edge = quiet - 4  # the ink of the code itself runs out over some of them
    around[edge:-edge, edge:-edge] = 255
    assert around.min() > 200


def test_an_address_with_no_room_is_refused() -> None:
    with pytest.raises(UnclearError, match=r"has 3\d\d characters.*a shorter address"):
        shelf_tags([ShelfTag(code="K7F", url=BASE + "K" * 290)], day=DAY)


def test_a_short_code_is_not_blown_up() -> None:
    assert qr("a", within_mm=300).module_mm == 0.8


@pytest.mark.parametrize("make", SETS)
def test_tags_are_as_large_as_the_sheet_says(make: Callable[[int], bytes]) -> None:
    made = make(21)
    assert "Each 63.5 × 38.1 mm, 21 on a sheet." in pages(made)[0]
    page = ink(made, 0, below=225)
    across = middles_mm(page[at(TOP_MM + 1.5)])
    step = WIDTH_MM + GAP_MM
    expected = [LEFT_MM + n * step + edge for n in range(3) for edge in (0, WIDTH_MM)]
    assert across == pytest.approx(expected, abs=0.15)
    down = middles_mm(page[:, at(LEFT_MM + 1.5)])
    # The words above the tags stand on the same edge.
    assert down[-8:] == pytest.approx([TOP_MM + n * HEIGHT_MM for n in range(8)], abs=0.15)


@pytest.mark.parametrize("make", SETS)
@pytest.mark.parametrize(("count", "sheets"), [(0, 1), (1, 1), (21, 1), (22, 2), (64, 4)])
def test_many_tags_go_on_over_the_page(
    make: Callable[[int], bytes], count: int, sheets: int
) -> None:
    assert len(pages(make(count))) == sheets


def test_a_long_name_wraps_inside_its_tag() -> None:
    word = "Donaudampfschiffahrtselektrizitätenhauptbetriebswerk"
    tags = [
        CodeTag(code="W8R2N5BX", url=LONG_URL, oil=LONG_NAME),
        CodeTag(code="K7F", url=BASE + "K7F", oil=word),
    ]
    made = code_tags([*tags * 10, tags[0]], day=DAY)
    assert len(pages(made)) == 1
    assert "Custard No. 5 (Åse's)" in pages(made)[0]
    page = ink(made, 0, below=225)
    assert middles_mm(page[at(TOP_MM + 1.5)])[:2] == pytest.approx(
        [LEFT_MM, LEFT_MM + WIDTH_MM], abs=0.15
    )
    assert text_stays_mm(made) > 6
    assert {code.text for code in codes(made, 0)} == {LONG_URL, BASE + "K7F"}


@pytest.mark.parametrize("make", SETS)
def test_they_are_made_for_keeping_and_always_the_same(make: Callable[[int], bytes]) -> None:
    made = make(3)
    assert for_keeping(made)
    assert made == make(3)
