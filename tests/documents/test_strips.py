"""The chart in pieces is the one chart: same scale, same marks, same rows, same words."""

import re
from dataclasses import replace

import pytest

from throwbench.documents.chart import chart
from throwbench.documents.draw import svg
from throwbench.documents.strips import said, strips
from throwbench.documents.tokens import LIGHT, WEB


@pytest.fixture
def drawn(verdict):
    return strips(verdict)


def dots(text: str) -> int:
    return len(re.findall(r"<path[^>]*A2\.", text))


def test_there_is_one_strip_for_each_oil(verdict, drawn):
    assert len(drawn.oils) == len(verdict.candidates)


def test_each_score_is_one_dot(verdict, drawn):
    for one, text in zip(verdict.candidates, drawn.oils, strict=True):
        hot = one.of("hot_throw")
        counted = hot.counted if hot else ()
        shown = hot.not_counted if hot else dict(one.only_shown)["hot_throw"]
        assert dots(text) == len(counted) + len(shown)


def test_a_strip_has_the_marks_of_the_whole_chart(verdict):
    """The box of the first oil lies at the same place as on the paper."""
    whole = svg(chart(verdict, theme=LIGHT))
    box = re.search(r'd="M([\d.]+),[\d.]+h([\d.]+)v14[^"]*" fill="#fbfcfa"', whole)
    strip = strips(verdict, theme=LIGHT).oils[0]
    mine = re.search(r'd="M([\d.]+),[\d.]+h([\d.]+)v14[^"]*" fill="#fbfcfa"', strip)
    assert [float(x) for x in mine.groups()] == pytest.approx(
        [float(x) for x in box.groups()], abs=0.01
    )


def test_an_oil_that_is_not_ranked_says_so_in_its_strip(verdict, drawn):
    index = [one.candidate for one in verdict.candidates].index("Goat Willow")
    assert "tunnels: not ranked" in drawn.oils[index]
    assert "tunnels" not in drawn.oils[0]


def test_the_band_is_named_once_on_the_axis(drawn):
    assert "right: 3.2 to 4.4" in drawn.axis
    assert not any("right:" in text for text in (drawn.ground, *drawn.oils))


def test_without_a_band_nothing_is_warm(liked):
    found = strips(liked)
    assert not any(WEB.flame in text for text in (found.axis, found.ground, *found.oils))


def test_the_ground_holds_no_text_and_can_be_stretched(drawn):
    assert "<text" not in drawn.ground
    assert 'preserveAspectRatio="none"' in drawn.ground


def test_only_the_colours_of_the_page_are_used(drawn):
    for text in (drawn.axis, drawn.ground, *drawn.oils):
        colours = set(re.findall(r'fill="([^"]+)"', text)) - {"none"}
        assert all(colour.startswith("var(--") for colour in colours)


def test_each_strip_is_said_with_its_values(verdict):
    first = said(verdict)[0]
    assert first.startswith("Hot throw 4.2, 8 times in 10 between 3.9 and 4.5, 19 in 20 between")
    assert "right is 3.2 to 4.4" in first
    assert "Scores that count: 3, 4, 4, 4, 4, 4, 4, 4, 5, 5, 5, 5." in first
    assert first.endswith("Shown, not counted: 3, 3, 3, 4, 4, 5.")


def test_an_oil_without_a_counted_score_says_none(verdict):
    words = dict(zip([one.candidate for one in verdict.candidates], said(verdict), strict=True))
    assert "tunnels: not ranked" in words["Goat Willow"]
    assert "Scores that count: none." in words["Goat Willow"]


def test_one_oil_alone_has_a_strip(alone):
    one = replace(alone, candidates=alone.candidates[:1])
    assert len(strips(one).oils) == 1


def test_a_long_name_changes_no_strip(crowd):
    """Names stand beside the strips, not in them."""
    names = [one.candidate for one in crowd.candidates]
    assert not any(name in text for name in names for text in strips(crowd).oils)
