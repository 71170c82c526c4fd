"""The two commands keep their promises before anything is installed."""

import re
import subprocess
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


def run(*words: str, cwd: Path = ROOT, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [ROOT / "run", *words],
        cwd=cwd,
        env={"PATH": "/usr/bin:/bin", **environment},
        capture_output=True,
        text=True,
        check=False,
    )


def pins(name: str) -> dict[str, str]:
    """Return each pinned name of a lock with the text of its hashes."""
    text = (ROOT / "requirements" / name).read_text()
    return dict(
        re.findall(
            r"^([a-z0-9._-]+)(?:\[[a-z,-]+\])?==\S+((?: \\\n +--hash=sha256:[0-9a-f]{64})*)",
            text,
            re.M,
        )
    )


def test_run_alone_lists_its_verbs(tmp_path):
    done = run(cwd=tmp_path)
    assert done.returncode == 0
    assert re.findall(r"^  (\w+)", done.stdout, re.M) == [
        "demo",
        "test",
        "slow",
        "lint",
        "types",
        "screens",
        "bench",
        "kills",
        "mutation",
        "wheel",
        "bare",
        "lock",
    ]


@pytest.mark.parametrize("words", [["demonstrate"], ["bench", "nothing"], ["demo", "--serve"]])
def test_a_word_it_does_not_know_gets_one_sentence_and_exit_2(words):
    done = run(*words)
    assert done.returncode == 2
    assert done.stdout == ""
    assert len(done.stderr.splitlines()) == 1
    assert words[-1] in done.stderr


def test_the_ci_asks_for_what_a_newcomer_asks_for():
    lines = (ROOT / ".ci" / "run").read_text().splitlines()
    assert lines[-1] == "./run test"
    assert "set -euo pipefail" in lines


@pytest.mark.parametrize("name", ["run.txt", "dev.txt"])
def test_every_pin_of_the_lock_has_hashes(name):
    assert len(pins(name)) > 5
    assert all(pins(name).values())


@pytest.mark.parametrize(("name", "extras"), [("run.txt", []), ("dev.txt", ["dev"])])
def test_the_lock_holds_what_pyproject_asks_for(name, extras):
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text())
    project = settings["project"]
    asked = [*project["dependencies"], *settings["build-system"]["requires"]]
    for extra in extras:
        asked += project["optional-dependencies"][extra]
    names = {re.match(r"[\w.-]+", line)[0].lower().replace("_", "-") for line in asked}
    assert names <= set(pins(name))


def test_the_development_lock_holds_the_very_versions_of_the_other():
    def versions(name: str) -> set[str]:
        return set(re.findall(r"^\S+==\S+", (ROOT / "requirements" / name).read_text(), re.M))

    assert versions("run.txt") <= versions("dev.txt")
