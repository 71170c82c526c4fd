"""Imports only go down, and asking for help costs nothing."""

import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "src" / "throwbench"
HEAVY = {"numpy", "scipy", "yaml", "typst", "vl_convert", "django"}


def python(code: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", code]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


def contracts() -> list[dict]:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text())
    return settings["tool"]["importlinter"]["contracts"]


def test_the_import_contracts_hold():
    done = python(
        "from importlinter.cli import lint_imports; raise SystemExit(lint_imports(no_cache=True))"
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert f"{len(contracts())} kept, 0 broken" in done.stdout


def test_every_room_has_its_layer_and_every_layer_its_room():
    (layers,) = (
        contract["layers"]
        for contract in contracts()
        if contract["type"] == "layers" and contract["containers"] == ["throwbench"]
    )
    named = [room.strip() for layer in layers for room in layer.split("|")]
    rooms = [
        path.name for path in PACKAGE.iterdir() if path.is_dir() and path.name != "__pycache__"
    ]
    assert sorted(named) == sorted(rooms)


@pytest.mark.parametrize("room", ["records", "science", "rules", "verdict"])
def test_the_import_contracts_cover_each_pure_room(room):
    (clause,) = (contract for contract in contracts() if contract["type"] == "forbidden")
    assert f"throwbench.{room}" in clause["source_modules"]
    assert {"click", "django", "sqlite3", "time"} <= set(clause["forbidden_modules"])


def test_help_imports_nothing_heavy():
    done = python(
        "import sys\n"
        "from throwbench.cli import main\n"
        "main(['--help'], standalone_mode=False)\n"
        "print('imported', *sorted({name.partition('.')[0] for name in sys.modules}))"
    )
    assert done.returncode == 0, done.stderr
    words = done.stdout.splitlines()[-1].split()
    assert "click" in words
    assert HEAVY.isdisjoint(words)


def test_each_command_named_in_help_answers_its_own_help():
    done = python(
        "from throwbench.cli import COMMANDS, main\n"
        "for name in COMMANDS:\n"
        "    main([name, '--help'], standalone_mode=False)\n"
    )
    assert done.returncode == 0, done.stderr
