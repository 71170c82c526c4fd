"""The gauge card on paper: every length is measured on the printed page, in mm."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from paper import MM, at, ink, longest_mm, middles_mm, pages, runs_mm
from throwbench.documents.gauge import GaugeCard, GaugeVessel, gauge_data
from throwbench.documents.heading import Heading
from throwbench.documents.pour_sheet import PitcherRow, PourSheet, WaxCard, pour_sheet
from throwbench.science.errors import OutOfRangeError

DAY = date(2027, 4, 24)
CARD_MM = 44.0
"""Width of the flame's card."""
CUP = GaugeVessel(name="stoneware cup", inside_mm=68)
BOWL = GaugeVessel(name="low glass bowl", inside_mm=90)


def printed(heading: Heading, card: GaugeCard) -> bytes:
    return pour_sheet(
        PourSheet(
            heading=replace(heading, day=DAY),
            wax_card=WaxCard(name="R-36"),
            pitchers=(PitcherRow(oil="Slate After Rain"),),
            gauge=card,
        )
    )


def rows_with_run(page: np.ndarray, low_mm: float, high_mm: float) -> list[int]:
    return [y for y, line in enumerate(page) if low_mm < longest_mm(line) < high_mm]


@pytest.mark.parametrize("limit", [None, 40.0, 82.5])
def test_the_line_to_check_a_print_by_is_50_mm(heading: Heading, limit: float | None) -> None:
    made = printed(heading, GaugeCard(flame_mm=limit))
    assert "Measure this line: 50 mm. If it is not, print again at 100 %" in pages(made)[-1]
    page = ink(made, -1 % len(pages(made)))
    (first, *rest) = rows_with_run(page, 46, 60)
    assert len(rest) < 6
    begin, end = max(runs_mm(page[first]), key=lambda run: run[1] - run[0])
    thick = 0.75 / 72 * 25.4
    assert end - begin - thick == pytest.approx(50, abs=0.2)


@pytest.mark.parametrize(
    ("limit", "expected"), [(None, 75.0), (40.0, 40.0), (82.5, 82.5), (160.0, 160.0)]
)
def test_the_flame_mark_stands_on_its_limit(
    heading: Heading, limit: float | None, expected: float
) -> None:
    made = printed(heading, GaugeCard(flame_mm=limit))
    page = ink(made, 1)
    mark = rows_with_run(page, CARD_MM - 1, CARD_MM + 1)
    assert len(mark) / MM == pytest.approx(1.2, abs=0.2)
    left = min(begin for begin, end in runs_mm(page[mark[0]]) if end - begin > 40)
    # Ticks of whole centimetres are 7 mm long, the halves 4 mm.
    ticks = middles_mm(page[:, at(left + 5.5)])
    foot = max(tick for tick in ticks if tick < 272)
    assert foot - max(mark) / MM == pytest.approx(expected, abs=0.25)
    ten_up = min(ticks, key=lambda tick: abs(tick - (foot - 10)))
    assert foot - ten_up == pytest.approx(10, abs=0.15)


def test_the_default_is_that_of_the_rules_and_said_as_a_house_limit(heading: Heading) -> None:
    said = pages(printed(heading, GaugeCard()))[-1]
    assert "75 mm house limit" in said
    assert "Flame over the mark: put it out." in said
    assert "Paper burns" in said


@pytest.mark.parametrize("vessel", [CUP, BOWL, GaugeVessel(name="tin", inside_mm=120)])
def test_a_full_melt_pool_is_as_wide_as_its_vessel(heading: Heading, vessel: GaugeVessel) -> None:
    made = printed(heading, GaugeCard(vessels=(vessel,)))
    page = ink(made, 1)
    if vessel.inside_mm <= 94:
        page[:, : at(43 + CARD_MM + 2)] = False  # the flame's card stands beside it
    else:
        page[: at(155)] = False  # and here above it
    page[at(272) :] = False
    page[:, : at(42)] = False
    edge = int(np.flatnonzero(page.any(axis=1)).max())
    up_mm = 0.8
    line = page[edge - at(up_mm)]
    bold = [(begin + end) / 2 for begin, end in runs_mm(line) if end - begin > 0.4]
    # definition: the chord of a circle, 0.8 mm above its middle
    chord = 2 * ((vessel.inside_mm / 2) ** 2 - up_mm**2) ** 0.5
    assert len(bold) == 2
    assert bold[1] - bold[0] == pytest.approx(chord, abs=0.25)


def test_each_size_is_drawn_once_and_named(heading: Heading) -> None:
    twin = replace(CUP, name="cup with a flaw in the glaze")
    said = pages(printed(heading, GaugeCard(vessels=(BOWL, CUP, twin, CUP))))[-1]
    assert "stoneware cup, cup with a flaw in the glaze, 68 mm inside" in said
    assert said.count("68 mm inside") == 1
    assert "low glass bowl, 90 mm inside" in said


def test_a_vessel_wider_than_the_sheet_is_sent_to_the_ruler(heading: Heading) -> None:
    wide = GaugeVessel(name="dough bowl", inside_mm=210)
    assert (
        "dough bowl, 210 mm inside: wider than this sheet. Measure its melt pool with a ruler."
    ) in pages(printed(heading, GaugeCard(vessels=(wide,))))[-1]


@pytest.mark.parametrize(("inside", "figures"), [(68, [20, 40, 60]), (61, [20, 40]), (10, [])])
def test_figures_on_the_edge_never_touch(inside: float, figures: list[int]) -> None:
    card = GaugeCard(vessels=(GaugeVessel(name="cup", inside_mm=inside),))
    (pool,) = gauge_data(card, day=DAY)["pools"]
    assert pool["figures"] == figures
    assert max(pool["rings"], default=0) <= inside - 3


@pytest.mark.parametrize(
    ("card", "said"),
    [
        (GaugeCard(flame_mm=9.9), "The flame's mark is 9.9 mm; 10 to 160 mm is allowed"),
        (GaugeCard(flame_mm=161), "The flame's mark is 161 mm; 10 to 160 mm is allowed"),
        (
            GaugeCard(vessels=(GaugeVessel(name="cup", inside_mm=0),)),
            "Inside diameter of cup is 0 mm; 10 to 1000 mm is allowed",
        ),
    ],
)
def test_what_has_no_room_on_a_card_is_refused(card: GaugeCard, said: str) -> None:
    with pytest.raises(OutOfRangeError, match=said):
        gauge_data(card, day=DAY)
