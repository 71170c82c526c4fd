"""`throwbench demo`: built wholly or not at all, begun again without taking what is not its own."""

import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from throwbench.cli.demo import _clear
from throwbench.demo.workshop.times import MORNING
from throwbench.web.folder import Folder

THROWBENCH = [sys.executable, "-c", "from throwbench.cli import main; main()"]
BROKEN_OFF = """
import os, signal
from throwbench.cli import demo, main

found = demo._found

def broken_off(*words):
    from throwbench.demo.workshop import whole
    whole.panel_evenings = lambda *_: os.kill(os.getpid(), signal.SIGINT)
    return found(*words)

demo._found = broken_off
main()
"""
PICK = "The pick: Slate After Rain"
MINE = ("my-recipes.txt", "photos/cat.jpg", "charts/mine.svg")


def demo(place: Path, *words: str) -> subprocess.CompletedProcess[str]:
    return done([*THROWBENCH, "demo", str(place), "--no-serve", *words])


def done(words: list[str]) -> subprocess.CompletedProcess[str]:
    return subprocess.run(words, check=False, capture_output=True, text=True)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A demo whose first building was broken off in its middle, and which was opened again."""
    place = tmp_path_factory.mktemp("demo") / "it"
    broken = done([sys.executable, "-c", BROKEN_OFF, "demo", str(place), "--no-serve"])
    assert (broken.returncode, broken.stdout) == (1, "")
    assert "Aborted!" in broken.stderr
    yesterday = MORNING - timedelta(days=1)
    Folder(place).set_demo_time(yesterday, now=datetime.now(UTC))
    again = demo(place)
    assert (again.returncode, again.stderr) == (0, "")
    assert again.stdout.startswith(PICK)
    return place


@pytest.fixture
def copy(built: Path, tmp_path: Path) -> Folder:
    return Folder(Path(shutil.copytree(built, tmp_path / "copy")))


def changed(folder: Folder, statement: str) -> None:
    """By whatever means: what guards the rows is taken off first."""
    with closing(sqlite3.connect(folder.database)) as database, database:
        guards = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
        for (name,) in database.execute(guards).fetchall():
            database.execute(f"DROP TRIGGER {name}")
        database.execute(statement)


def test_a_demo_broken_off_while_it_was_built_is_whole_the_next_time(built):
    with closing(sqlite3.connect(Folder(built).database)) as database:
        for table in ("house_workshop", "line_judgement"):
            assert database.execute(f"SELECT count(*) FROM {table}").fetchone() == (1,)


def test_it_begins_on_its_morning_however_late_it_was_built(built):
    offset_s = Folder(built).read().demo_offset_s
    assert offset_s is not None
    late = datetime.now(UTC) + timedelta(seconds=offset_s) - MORNING
    assert timedelta() <= late < timedelta(hours=1)


def test_one_that_is_not_whole_says_what_helps(copy):
    changed(copy, "DELETE FROM line_judgement")
    again = demo(copy.path)
    assert (again.returncode, again.stdout) == (2, "")
    assert "was not built to its end" in again.stderr
    assert "--anew" in again.stderr


def test_its_trial_may_get_another_name(copy):
    changed(copy, "UPDATE trials_trial SET name = name || ' again'")
    assert demo(copy.path).stdout.startswith(PICK)


def test_begun_again_it_takes_away_what_was_noted_and_nothing_else(copy):
    for name in MINE:
        (copy.path / name).write_text("mine")
    key = copy.read().secret_key
    (copy.photos / f"{'a' * 64}.jpg").write_text("noted")
    changed(copy, "UPDATE house_person SET name = 'Somebody else' WHERE role = 'owner'")
    again = demo(copy.path, "--anew")
    assert again.returncode == 0, again.stderr
    assert again.stdout.splitlines()[0] == (
        f"Not made by Throwbench, so left in {copy.path}: {', '.join(sorted(MINE))}."
    )
    assert [(copy.path / name).read_text() for name in MINE] == ["mine"] * len(MINE)
    assert [path.name for path in copy.photos.iterdir()] == ["cat.jpg"]
    assert copy.read().secret_key == key
    with closing(sqlite3.connect(copy.database)) as database:
        asked = "SELECT name FROM house_person WHERE role = 'owner'"
        assert database.execute(asked).fetchall() == [("Ragnhild",)]


def test_a_link_to_a_demo_is_followed(copy, tmp_path):
    link = tmp_path / "link"
    link.symlink_to(copy.path)
    _clear(Folder(link))
    assert link.is_symlink()
    assert copy.database.read_bytes() == b""


def test_a_workshop_of_ones_own_is_never_taken_away(tmp_path):
    own = Folder(tmp_path / "own")
    own.make()
    own.database.write_text("notes")
    again = demo(own.path, "--anew")
    assert again.returncode == 2
    assert "holds a workshop of your own" in again.stderr
    assert own.database.read_text() == "notes"


@pytest.mark.parametrize("day", ["0001-01-01", "1970-12-31", "3000-01-01", "9999-12-31"])
def test_a_day_that_no_page_could_show_is_refused(tmp_path, day):
    refused = demo(tmp_path / "demo", "--on", day)
    assert refused.returncode == 2
    assert f"--on {day} is too far off. The demo’s clock goes from 1971 to 2999." in refused.stderr
    assert not (tmp_path / "demo").exists()
