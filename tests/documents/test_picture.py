"""The picture: right in size, the same each time, nothing cut off."""

import struct
from dataclasses import replace

from throwbench.documents.heading import Heading
from throwbench.documents.picture import picture
from throwbench.documents.tokens import DARK
from throwbench.verdict.result import Verdict


def size_px(png: bytes) -> tuple[int, int]:
    """Width and height as the file's own head says."""
    assert png.startswith(b"\x89PNG\r\n\x1a\n")
    width, height = struct.unpack(">II", png[16:24])
    return width, height


def test_a_picture_is_1600_wide_and_as_high_as_its_oils(
    verdict: Verdict, crowd: Verdict, liked: Verdict, heading: Heading
) -> None:
    sizes = [size_px(picture(one, heading=heading)) for one in (liked, verdict, crowd)]
    assert {width for width, _ in sizes} == {1600}
    heights = [height for _, height in sizes]
    assert heights == sorted(heights)
    assert heights[2] > 2 * heights[1]


def test_the_same_input_gives_the_same_bytes(verdict: Verdict, heading: Heading) -> None:
    assert picture(verdict, heading=heading) == picture(verdict, heading=heading)


def test_light_and_dark_are_two_pictures(verdict: Verdict, heading: Heading) -> None:
    light, dark = picture(verdict, heading=heading), picture(verdict, heading=heading, theme=DARK)
    assert size_px(light) == size_px(dark)
    assert light != dark


def test_a_verdict_on_nothing_has_a_picture(verdict: Verdict, heading: Heading) -> None:
    nothing = replace(verdict, candidates=(), pick=(), headline="No pick: nothing is noted.")
    assert size_px(picture(nothing, heading=heading))[0] == 1600
