"""The small programs that ./run leans on fail when they should."""

import importlib.util
import zipfile
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).parents[2]


def tool(name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, ROOT / "tools" / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_a_file_that_the_wheel_left_out_is_named(tmp_path):
    package = tmp_path / "throwbench" / "demo"
    package.mkdir(parents=True)
    (package / "scores.csv").write_text("score\n")
    (package / "burns.csv").write_text("burn\n")
    with zipfile.ZipFile(tmp_path / "some.whl", "w") as wheel:
        wheel.writestr("throwbench/demo/scores.csv", "score\n")
    missing = tool("wheel_contents").missing_files(tmp_path, tmp_path / "some.whl")
    assert missing == ["throwbench/demo/burns.csv"]


def results(*, killed: int, survived: int, room: str = "rules") -> list[str]:
    outcomes = ["killed"] * killed + ["survived"] * survived
    return [f"    throwbench.{room}.a.x_b__mutmut_{n}: {said}" for n, said in enumerate(outcomes)]


def test_each_room_is_scored_and_85_percent_is_enough(capsys):
    lines = results(killed=17, survived=3) + results(killed=9, survived=1, room="verdict")
    assert tool("mutation_score").report(lines) == 0
    assert capsys.readouterr().out.splitlines() == [
        "rules: 17 of 20 mutants found, 85.0 %",
        "verdict: 9 of 10 mutants found, 90.0 %",
    ]


def test_one_room_below_85_percent_is_not_made_up_for_by_the_other():
    lines = results(killed=16, survived=4) + results(killed=99, survived=0, room="verdict")
    assert tool("mutation_score").report(lines) == 1


def test_mutants_that_no_test_reaches_count_and_untried_ones_do_not():
    lines = [
        "throwbench.rules.a.x_b__mutmut_1: no tests",
        "throwbench.rules.a.x_b__mutmut_2: killed",
    ]
    untried = ["throwbench.rules.a.x_b__mutmut_3: not checked"]
    found, tried = tool("mutation_score").found_and_tried(lines + untried)
    assert (found["rules"], tried["rules"]) == (1, 2)


def test_nothing_tried_is_no_success():
    assert tool("mutation_score").report([]) == 1
