"""Cold against hot throw: whose ends are known, who is spoken of, and labels that stay apart."""

import re
from itertools import pairwise

import pytest

from throwbench.documents.slope import Ends, ends, slope
from throwbench.documents.tokens import WEB
from throwbench.verdict.result import Band

RHUBARBS = (
    Ends(oil="Rebarbara K", cold=3.0, hot=3.8),
    Ends(oil="Rhubarb Cold Frame", cold=3.05, hot=3.75),
    Ends(oil="Vårrabarbra 114", cold=4.6, hot=1.9),
)
BAND = Band(3.2, 4.4, "kitchen")


def drawn(oils=RHUBARBS, spoken_of="Vårrabarbra 114", band=BAND, **more) -> str:
    return slope(oils, spoken_of=spoken_of, scale=(1, 5), band=band, **more)


def text_heights(svg: str, side: str) -> list[float]:
    anchor = {"cold": "end", "hot": "start"}[side]
    found = re.findall(
        rf'<text text-anchor="{anchor}" transform="translate\(([\d.]+),([\d.]+)\)', svg
    )
    edge = max(float(x) for x, _ in found) if side == "hot" else min(float(x) for x, _ in found)
    return [float(y) for x, y in found if float(x) == edge]


def test_an_oil_that_was_not_scored_both_ways_has_no_line(verdict):
    assert ends(verdict) == ()


def test_the_oil_spoken_of_is_the_only_warm_line():
    lines = re.findall(r'<line[^>]*stroke="([^"]+)"[^>]*stroke-width="3"', drawn())
    assert lines == [WEB.flame]


def test_each_name_stands_at_both_ends_with_its_figure():
    text = drawn()
    for one in RHUBARBS:
        assert f"{one.oil} {one.cold:.1f}" in text
        assert f"{one.hot:.1f} {one.oil}" in text


def test_a_fine_line_leads_from_each_dot_to_its_label():
    lines = re.findall(r'<line[^>]*stroke-width="0.75"', drawn())
    assert len(lines) == 2 * len(RHUBARBS)
    assert 'stroke-width="0.75"' not in drawn(narrow=True)


def test_a_narrow_one_gives_figures_of_the_one_spoken_of():
    text = drawn(narrow=True)
    assert "4.6" in text
    assert "Rebarbara" not in text


@pytest.mark.parametrize("side", ["cold", "hot"])
def test_labels_stand_apart(side):
    heights = sorted(text_heights(drawn(), side))
    assert all(b - a >= 17.9 for a, b in pairwise(heights))


def test_many_equal_oils_stay_inside_the_chart():
    many = tuple(Ends(oil=f"Oil {i}", cold=1.0, hot=1.0) for i in range(9))
    heights = text_heights(drawn(many, spoken_of="Oil 0"), "hot")
    assert len(heights) == 9
    assert max(heights) <= 276


def test_without_a_band_nothing_is_said_to_be_right():
    assert "right:" in drawn()
    assert "right:" not in drawn(band=None)


def test_a_name_cannot_become_markup():
    text = drawn((Ends(oil="<script>&", cold=3, hot=3),), spoken_of="<script>&")
    assert "<script>" not in text
    assert "&lt;script&gt;&amp;" in text


def test_a_label_stands_at_its_point_where_it_has_room():
    """Both ends far apart: the label's middle line is the height of the point."""
    pair = (Ends(oil="High", cold=5, hot=5), Ends(oil="Low", cold=1, hot=1))
    text = slope(pair, spoken_of="High", scale=(1, 5), band=None)
    points = {float(y) for y in re.findall(r'<path transform="translate\([\d.]+,([\d.]+)\)"', text)}
    assert {y - 5 for y in text_heights(text, "hot")} == points


def test_steps_that_nobody_reaches_are_left_out():
    """From 3 to 4 the chart is one step high; on the whole scale a quarter of it."""

    def apart(oils):
        text = slope(oils, spoken_of="A", scale=(1, 5), band=None)
        found = re.findall(r'<path transform="translate\([\d.]+,([\d.]+)\)"', text)
        return max(map(float, found)) - min(map(float, found))

    near = (Ends(oil="A", cold=3, hot=4),)
    far = (*near, Ends(oil="B", cold=1, hot=5))
    assert apart(near) == apart(far)


def test_all_at_one_step_keeps_the_whole_scale():
    text = slope((Ends(oil="A", cold=3, hot=3),), spoken_of="A", scale=(1, 5), band=None)
    assert text.count('stroke="var(--rule)"') == 5
