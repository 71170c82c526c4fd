"""The one chart: true to the figures, valid, calm with long names and many oils."""

import json
from dataclasses import asdict, replace
from itertools import pairwise
from typing import Any

import altair
import pytest

from throwbench.documents import layout
from throwbench.documents.chart import chart, described, finding, legend, parts
from throwbench.documents.draw import svg
from throwbench.documents.tokens import DARK, LIGHT, PAPER, Theme
from throwbench.documents.widths import width_px
from throwbench.verdict.result import Band, Verdict

Spec = dict[str, Any]


def layers(spec: Spec, **mark: Any) -> list[Spec]:
    """The layers whose mark has these properties."""
    return [one for one in spec["layer"] if mark.items() <= one["mark"].items()]


def data(spec: Spec, **mark: Any) -> list[Spec]:
    return [datum for one in layers(spec, **mark) for datum in one["data"]["values"]]


def test_the_spec_is_plain_data_and_holds_to_the_published_schema(
    verdict: Verdict, liked: Verdict
) -> None:
    for one, theme in ((verdict, PAPER), (liked, DARK)):
        spec = chart(one, theme=theme)
        assert json.loads(json.dumps(spec)) == spec
        altair.LayerChart.from_dict(spec, validate=True)


def test_a_theme_changes_colours_and_nothing_else(verdict: Verdict) -> None:
    def pale(theme: Theme) -> str:
        said = json.dumps(chart(verdict, theme=theme))
        for colour in sorted(set(asdict(theme).values())):
            said = said.replace(colour, "#")
        return said

    assert pale(LIGHT) == pale(DARK) == pale(PAPER)


def test_the_filled_share_of_a_box_is_its_overlap_with_the_band(verdict: Verdict) -> None:
    spec = chart(verdict, theme=PAPER)
    boxes = data(spec, type="rect", color=PAPER.paper)
    filled = {one["y"]: one for one in data(spec, type="rect", color=PAPER.sea)}
    results = [one.of("hot_throw") for one in verdict.candidates]
    ranked = [result for result in results if result is not None]
    boxes = [box for box in boxes if box["x"] <= 5]
    for box, result in zip(boxes, ranked, strict=True):
        low, high = result.eight_in_ten.low, result.eight_in_ten.high
        assert (box["x"], box["x2"]) == (low, high)
        # definition: length of the box inside 3.2 to 4.4 over its whole length
        overlap = max(0.0, min(high, 4.4) - max(low, 3.2)) / (high - low)
        part = filled.get(box["y"])
        share = 0.0 if part is None else (part["x2"] - part["x"]) / (box["x2"] - box["x"])
        assert share == pytest.approx(overlap)


def test_whiskers_are_19_in_20_and_the_bar_is_the_middle(verdict: Verdict) -> None:
    spec = chart(verdict, theme=PAPER)
    slate = verdict.candidates[0].of("hot_throw")
    assert slate is not None
    whisker = data(spec, type="rule", strokeWidth=1.4)[0]
    assert whisker["x"] == slate.nineteen_in_twenty.low
    assert whisker["x2"] == slate.nineteen_in_twenty.high
    assert data(spec, type="rule", strokeWidth=3, color=PAPER.paper)[0]["x"] == slate.middle


def test_each_score_is_one_dot_counted_filled_and_others_open(verdict: Verdict) -> None:
    spec = chart(verdict, theme=PAPER)
    filled = [one["score"] for one in data(spec, type="point", fill=PAPER.ink_2)]
    opened = [one["score"] for one in data(spec, type="point", strokeWidth=1.2)]
    counted = [s for one in verdict.candidates for r in one.scent[:1] for s in r.counted]
    shown = [s for one in verdict.candidates for r in one.scent[:1] for s in r.not_counted]
    assert sorted(filled) == sorted(counted)
    assert len(opened) == len(shown) + 19


def test_dots_stand_at_most_six_abreast_and_never_on_each_other(crowd: Verdict) -> None:
    spec = chart(crowd, theme=PAPER)
    step_px = (layout.AXIS[1] - layout.AXIS[0]) / 4
    dots = data(spec, type="point", fill=PAPER.ink_2) + data(spec, type="point", strokeWidth=1.2)
    lines: dict[float, list[float]] = {}
    for dot in dots:
        lines.setdefault(dot["y"], []).append(dot["x"] * step_px)
    for across in lines.values():
        across.sort()
        assert all(b - a >= 7.99 for a, b in pairwise(across))
        assert len(across) <= 6 * 5


def test_the_axis_is_the_whole_scale_with_its_words(verdict: Verdict) -> None:
    spec = chart(verdict, theme=PAPER)
    said = [one["text"] for one in data(spec, type="text")]
    assert {"1", "2", "3", "4", "5", "none", "faint", "clear", "strong"} <= set(said)
    assert said.count("right: 3.2 to 4.4") == 1
    assert said[said.index("over-") + 1] == "powering"


def test_another_scale_has_its_numbers_and_no_words(liked: Verdict) -> None:
    said = [one["text"] for one in data(chart(liked, theme=PAPER), type="text")]
    assert [text for text in said if text.isdigit()][:11] == [str(step) for step in range(11)]
    assert not {"none", "faint", "right: 3.2 to 4.4"} & set(said)


def test_without_a_band_no_box_is_filled_and_nothing_is_warm(liked: Verdict) -> None:
    spec = chart(liked, theme=PAPER)
    assert data(spec, type="rect", color=PAPER.sea) == []
    assert not {PAPER.flame, PAPER.ember, PAPER.band} & {
        one["mark"].get("color") for one in spec["layer"]
    }


def test_a_broken_limit_is_a_solid_block_and_not_yet_known_is_dashed(verdict: Verdict) -> None:
    spec = chart(verdict, theme=PAPER)
    assert len(data(spec, type="rect", color=PAPER.ink)) == 1
    dashed = [one for one in layers(spec, type="rect") if "strokeDash" in one["mark"]]
    assert len(dashed[0]["data"]["values"]) == 5
    said = [one["text"] for one in data(spec, type="text", color=PAPER.paper)]
    assert said == ["wick 6 broken: soot"]


def test_no_text_runs_into_the_next_column(crowd: Verdict) -> None:
    ends = {0.0: layout.STRIP[0], layout.CHANCE: layout.WIDTH, layout.LIMIT_TEXT: layout.WIDTH}
    checked = 0
    for one in layers(chart(crowd, theme=PAPER), type="text", align="left"):
        mark = one["mark"]
        face = "besley" if mark["font"].startswith("Besley") else "words"
        if mark["fontWeight"] == 600:
            face = "words_strong"
        for datum in one["data"]["values"]:
            if datum["x"] in ends and datum["text"] != finding(crowd):
                wide = width_px(text=datum["text"], face=face, size_px=mark["fontSize"])  # type: ignore[arg-type]
                assert datum["x"] + wide <= ends[datum["x"]], datum["text"]
                checked += 1
    assert checked > 100


def test_rows_do_not_overlap(crowd: Verdict) -> None:
    texts = data(chart(crowd, theme=PAPER), type="text", align="left")
    by_column: dict[float, list[float]] = {}
    for one in texts:
        if one["x"] in (0, layout.LIMIT_TEXT):
            by_column.setdefault(one["x"], []).append(one["y"])
    for heights in by_column.values():
        heights.sort()
        assert all(below - above >= 12 for above, below in pairwise(heights))


def test_a_name_is_text_in_the_drawing_whatever_it_looks_like(crowd: Verdict) -> None:
    drawn = svg(chart(crowd, theme=PAPER))
    assert "=1+1 #let x =" in drawn
    assert "&lt;&amp;&gt; Űrrom" in drawn
    assert "<&>" not in drawn


def test_the_same_verdict_gives_the_same_drawing(verdict: Verdict) -> None:
    assert svg(chart(verdict, theme=PAPER)) == svg(chart(verdict, theme=PAPER))


def test_a_long_chart_comes_in_parts_that_hold_every_row_once(crowd: Verdict) -> None:
    runs = parts(crowd, first_px=600, next_px=900)
    assert len(runs) > 1
    assert [row for first, stop in runs for row in range(first, stop)] == list(range(25))
    second = chart(crowd, theme=PAPER, first=runs[1][0], stop=runs[1][1])
    said = [one["text"] for one in data(second, type="text")]
    assert "right: 3.2 to 4.4" in said
    assert finding(crowd) not in said


def test_the_title_is_the_finding(verdict: Verdict, liked: Verdict) -> None:
    assert finding(verdict) == "Hot throw is right for the living room in 6 of 8 oils."
    assert finding(liked) == "Liking: Fog stands highest, at 7.0."
    nothing = replace(verdict, candidates=verdict.candidates[8:9])
    assert finding(nothing) == "Hot throw: no score counts yet."
    anywhere = replace(verdict, bands=(Band(3.2, 4.4),))
    assert finding(anywhere) == "Hot throw is right in 6 of 8 oils."


def test_the_chart_can_be_heard_with_its_values(verdict: Verdict) -> None:
    said = described(verdict)
    assert (
        "Slate After Rain: in the pick, 4.2, 8 times in 10 between 3.9 and 4.5, "
        "19 in 20 between 3.8 and 4.6, over 99 in 100; "
        "limits: none broken: 2 candles, 17 burns, to the end." in said
    )
    assert "Goat Willow: test again, tunnels: not ranked" in said


def test_the_legend_says_what_none_broken_is_worth(verdict: Verdict) -> None:
    assert "None broken says what was tried: gross faults only." in legend(verdict)


def test_one_oil_alone_has_no_column_of_chances(alone: Verdict) -> None:
    said = {one["text"] for one in data(chart(alone, theme=LIGHT), type="text")}
    assert "limits" in said
    assert not {"in the", "pick", "over 99", "in 100"} & said
    assert "chance" not in legend(alone)


def test_evidence_that_is_too_long_is_cut_where_a_part_of_it_ends(verdict: Verdict) -> None:
    told = "Burn W8R until 12 mm are left, and weigh it on the same scale as before each time"
    limits = replace(verdict.candidates[4].limits[0], told=told)
    oil = replace(verdict.candidates[4], limits=(limits,))
    spec = chart(replace(verdict, candidates=(oil,)), theme=LIGHT)
    said = " ".join(str(one["text"]) for one in data(spec, type="text"))
    assert "Burn W8R until 12 mm are left …" in said


def test_one_oil_alone_does_not_stand_highest(liked) -> None:
    alone = replace(liked, candidates=liked.candidates[:1])
    (oil,) = alone.candidates
    assert finding(alone).startswith(f"Liking: {oil.candidate} at ")
    assert finding(alone).endswith(", nothing to compare it with.")
