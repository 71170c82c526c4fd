"""A drawing that stands in a page grows with its place and takes the page's colours."""

from xml.etree import ElementTree

import pytest

from throwbench.documents import marks
from throwbench.documents.inline import drawn

LINE = marks.rules([{"x": 1, "x2": 9.123456, "y": 2, "y2": 2}], colour="var(--ink)", width=1)
BOX = (1.0, 0.0, 10.0, 20.0)


def parsed(**options: bool) -> ElementTree.Element:
    return ElementTree.fromstring(drawn([LINE], box=BOX, **options))


def test_it_has_a_part_to_show_and_no_size_of_its_own():
    root = parsed()
    assert root.get("viewBox") == "1 0 10 20"
    assert root.get("width") is None
    assert root.get("height") is None


def test_the_colours_of_the_page_go_through():
    assert 'stroke="var(--ink)"' in drawn([LINE], box=BOX)


def test_no_style_is_written_into_it():
    text = drawn([LINE], box=BOX)
    assert "style=" not in text
    assert "<style" not in text


def test_it_says_nothing_to_who_cannot_see_it():
    root = parsed()
    assert root.get("aria-hidden") == "true"
    inside = [element for element in root.iter() if element is not root]
    assert not any(
        name == "role" or name.startswith("aria-") for one in inside for name in one.attrib
    )


def test_figures_are_written_to_a_hundredth():
    assert "8.12" in drawn([LINE], box=BOX)
    assert "8.123" not in drawn([LINE], box=BOX)


@pytest.mark.parametrize(("stretched", "thin"), [(True, "non-scaling-stroke"), (False, None)])
def test_lines_stay_thin_where_it_is_stretched(stretched, thin):
    root = parsed(stretched=stretched)
    assert root.find(".//line").get("vector-effect") == thin
    assert root.get("preserveAspectRatio") == ("none" if stretched else None)
