"""What stands on the pages is what comes out: refreshing them changes nothing."""

import json
import re
import struct
from pathlib import Path

import pytest

from throwbench.cli import main

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", ROOT / "CHANGELOG.md", *sorted((ROOT / "docs").rglob("*.md"))]
PICTURE = ROOT / "docs" / "images" / "verdict.png"
AGAIN = "is not what comes out today: call .venv/bin/python tools/refresh_docs.py"


def name_of(page: Path) -> str:
    return page.relative_to(ROOT).as_posix()


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_every_block_gives_what_stands_below_it(page, refresh):
    assert page.read_text(encoding="utf-8") == refresh.today(page), f"{name_of(page)} {AGAIN}"


def test_every_page_is_refreshed(refresh):
    assert sorted(refresh.pages()) == sorted(PAGES)


def test_the_picture_is_the_one_that_the_demo_makes(refresh):
    assert PICTURE.read_bytes() == refresh.picture(), f"{name_of(PICTURE)} {AGAIN}"


def test_the_picture_is_small_enough_for_a_slow_line_and_wide_enough_to_read():
    content = PICTURE.read_bytes()
    width, _ = struct.unpack(">II", content[16:24])
    assert len(content) < 400_000
    assert width >= 1200


@pytest.mark.parametrize("command", ["start", "demo", "serve", "verdict", "scent", "burn", "load"])
def test_every_option_of_the_help_stands_on_the_page_of_commands(command, cli_help):
    page = (ROOT / "docs" / "reference" / "commands.md").read_text(encoding="utf-8")
    part = page.partition(f"## `throwbench {command} ")[2].partition("\n## ")[0]
    options = [word for word in cli_help(command).split() if word.startswith("--")]
    assert len(options) >= 3
    assert [word for word in options if f"`{word.rstrip('.,')}" not in part] == []


@pytest.fixture
def cli_help(monkeypatch):
    """The option list of a command's real help."""
    from click.testing import CliRunner  # noqa: PLC0415

    def said(command: str) -> str:
        done = CliRunner().invoke(main, [command, "--help"], terminal_width=200)
        return done.output.partition("Options:")[2]

    return said


def test_a_figure_that_is_not_kept_is_not_invented(sections, monkeypatch, tmp_path):
    monkeypatch.setattr(sections, "RESULTS", tmp_path)
    for name in ("honesty", "truths", "belongs", "calibration", "speed", "pages"):
        assert sections.SECTIONS[name]().startswith("No result is kept yet")


def test_the_honesty_table_quotes_the_kept_counts(sections, monkeypatch, tmp_path):
    monkeypatch.setattr(sections, "RESULTS", tmp_path)
    world = {"candidates": 3, "noses": 6, "sniffs": 2, "gap": 0.0, "taste": 0.0}
    rate = {"world": world, "trials": 2000, "named": 88, "right": 30}
    rate |= {"named_at_most": 0.0526, "right_at_least": 0.01}
    better = rate | {"world": world | {"gap": 1.0}, "named": 1541, "right": 1540}
    tasting = better | {"world": world | {"gap": 1.0, "taste": 0.5}}
    result = {"commit": "0123456789abcdef", "day": "2026-11-25", "rates": [rate, better, tasting]}
    (tmp_path / "honesty.json").write_text(json.dumps(result))
    found = "(true rate at most 5.3 %)"
    right = "1,540 (true rate at least 1.0 %)"
    assert sections.honesty().splitlines()[2:5] == [
        "| 3 | 6 × 2 | nothing | nothing | at most 102 of 2,000 named | "
        f"88 of 2,000 {found} | there is none |",
        "| 3 | 6 × 2 | 1 step | nothing | at least 1,533 of 2,000 rightly | "
        f"1,541 of 2,000 {found} | {right} |",
        f"| 3 | 6 × 2 | 1 step | 0.5 step | none | 1,541 of 2,000 {found} | {right} |",
    ]
    assert "at commit 012345678;" in sections.honesty()


def test_the_promise_beside_the_counts_is_the_one_of_the_bench(sections):
    bench = (ROOT / "benchmarks" / "honesty.py").read_text(encoding="utf-8")
    for promise in sections.PROMISED.values():
        count = promise.split(" of ")[0]
        assert count in " ".join(bench.split()), promise


def test_the_tables_of_planted_truths_quote_the_kept_rates(sections, monkeypatch, tmp_path):
    monkeypatch.setattr(sections, "RESULTS", tmp_path)
    shares = {"found": 0.985, "shuffled": 0.41, "chance": 0.5}
    result = {
        "commit": "0123456789abcdef",
        "day": "2026-11-25",
        "seeds": 200,
        "rates": [
            {"truth": "A", "no_more_than_chance": True} | shares,
            {"truth": "C", "no_more_than_chance": False} | shares,
        ],
        "without_a_shuffled_copy": {"B": 1.0},
        "belongs": [{"stated": 0.951, "belonged": 0.93, "count": 412}],
        "loss_steps": {"stated": 0.171, "true": 0.149},
    }
    (tmp_path / "truths.json").write_text(json.dumps(result))
    said = sections.truths()
    assert "| A | 98.5 % | 41.0 % | 50.0 % |" in said
    assert "| C | 98.5 % | 41.0 %, more than chance | 50.0 % |" in said
    assert "| B | 100.0 % |  |  |" in said
    assert "stated 0.17 step on average, true 0.15 step" in said
    assert "| 95.1 % | 93.0 % | 412 |" in sections.belongs()


def test_the_tables_of_calibration_quote_the_kept_shares(sections, monkeypatch, tmp_path):
    monkeypatch.setattr(sections, "RESULTS", tmp_path)
    result = {"commit": "0123456789abcdef", "day": "2026-11-25", "trials": 2000}
    result |= {"stated_loss": 0.3081, "true_loss": 0.2786, "ratio": 1.106, "ratio_se": 0.0321}
    result |= {"coverage": {"0.9": 0.8589}}
    result |= {"belongs": [{"stated": 0.85, "observed": 0.81, "number": 1234}]}
    (tmp_path / "calibration.json").write_text(json.dumps(result))
    said = sections.calibration()
    assert "stated 0.308 step on average, true 0.279 step; ratio 1.11 (standard error 0.03)" in said
    assert "| 90.0 % | 85.9 % |" in said
    assert "| 85.0 % | 81.0 % | 1,234 |" in said


def test_the_table_of_pages_quotes_the_kept_times(sections, monkeypatch, tmp_path):
    monkeypatch.setattr(sections, "RESULTS", tmp_path)
    page = {
        "name": "line:verdict",
        "path": "/trials/1/verdict/",
        "p95_ms": 45.31,
        "middle_ms": 30.0,
    }
    result = {"commit": "0123456789abcdef", "day": "2026-11-28", "requests": 60}
    result |= {"start_s": 1.42, "peak_mb": 180, "pages": [page]}
    (tmp_path / "pages.json").write_text(json.dumps(result))
    said = sections.pages()
    assert said.startswith("1 pages, 60 requests each. Start-up to the first page: 1.42 s.")
    assert "| line:verdict | 45.3 ms | 30.0 ms |" in said
    assert "at commit 012345678;" in said


def test_the_table_of_speed_quotes_the_kept_times(sections, monkeypatch, tmp_path):
    monkeypatch.setattr(sections, "RESULTS", tmp_path)
    timing = {"task": "help", "seconds": 0.1234, "beside": "target", "their_seconds": 0.2}
    slow = {"task": "verdict", "seconds": 1.2345, "beside": "target", "their_seconds": 1.5}
    result = {"commit": "0123456789abcdef", "day": "2026-11-25"}
    result |= {"timings": [timing | {"ratio": 0.617}, slow | {"ratio": 0.823}]}
    (tmp_path / "speed.json").write_text(json.dumps(result))
    assert sections.speed().splitlines()[2:4] == [
        "| help | 123 ms | target | 200 ms | 0.62 |",
        "| verdict | 1.23 s | target | 1.50 s | 0.82 |",
    ]


def test_every_rate_that_is_kept_stands_on_the_page_of_honest_doubt(sections):
    page = (ROOT / "docs" / "why" / "honest-doubt.md").read_text(encoding="utf-8")
    rates = (sections.kept("honesty") or {"rates": []})["rates"]
    said = re.findall(r"\| ([\d,]+) of ([\d,]+) \(true rate at most", page)
    kept = [(f"{rate['named']:,}", f"{rate['trials']:,}") for rate in rates]
    assert said == kept


def test_every_time_that_is_kept_stands_on_the_page_of_speed(sections):
    page = (ROOT / "docs" / "reference" / "speed.md").read_text(encoding="utf-8")
    timings = (sections.kept("speed") or {"timings": []})["timings"]
    said = re.findall(r"^\| (?!Task|---)(.+?) \| .* \| ([\d.]+) \|$", page, re.MULTILINE)
    assert said == [(item["task"], f"{item['ratio']:.2f}") for item in timings]


def test_every_kept_result_is_quoted_on_a_page():
    said = "".join(page.read_text(encoding="utf-8") for page in PAGES)
    kept = [path.name for path in (ROOT / "benchmarks" / "results").glob("*.json")]
    assert [name for name in kept if f"`benchmarks/results/{name}`" not in said] == []
