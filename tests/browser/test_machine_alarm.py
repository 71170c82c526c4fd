"""The real server process rings by its machine's own programs, notices that it was away, and ends
what it began. The programs are small scripts in a PATH of their own."""

import os
import re
import signal
import sqlite3
import time
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from browser.conftest import serving

WAIT_S = 30


@pytest.fixture
def programs(tmp_path, monkeypatch) -> Path:
    """Where this machine's programs lie; none of them is there at first."""
    place = tmp_path / "programs"
    place.mkdir()
    monkeypatch.setenv("PATH", str(place))
    return place


def install(programs: Path, name: str, script: str) -> Path:
    """A program that notes its words, then does what the script says."""
    noted, file = programs.parent / f"{name} called", programs / name
    file.write_text(f'#!/bin/sh\necho "$@" >> "{noted}"\n{script}\n')
    file.chmod(0o755)
    return noted


@pytest.fixture
def folder(tmp_path, programs) -> Path:
    """A workshop with an owner, closed."""
    folder = tmp_path / "workshop"
    with serving("start", str(folder), "--no-browser", folder=folder):
        pass
    return folder


def told(folder: Path, words: str, *values: object) -> list[tuple]:
    with closing(sqlite3.connect(folder / "workshop.sqlite3", timeout=20)) as database, database:
        return database.execute(words, values).fetchall()


def kept(moment: datetime) -> str:
    """As the database writes a time."""
    return moment.replace(tzinfo=None).isoformat(" ")


def set_timer(folder: Path, *, due: datetime, ago: timedelta = timedelta(hours=1)) -> None:
    told(
        folder,
        "INSERT INTO house_timer (what, due_at, set_at, set_by_id) VALUES ('stir', ?, ?, "
        "(SELECT min(id) FROM house_person))",
        kept(due),
        kept(due - ago),
    )


def wait_for(condition) -> None:
    ends = time.monotonic() + WAIT_S
    while not condition():
        assert time.monotonic() < ends, "it did not happen"
        time.sleep(0.1)


def served(folder: Path):
    return serving("start", str(folder), "--no-browser", folder=folder)


def rings(folder: Path) -> list[tuple]:
    return told(folder, "SELECT deadline, rung, trouble FROM house_ring ORDER BY rung")


def test_it_rings_when_a_timer_is_due_and_writes_it_down(folder, programs):
    played, shown = install(programs, "aplay", ""), install(programs, "notify-send", "")
    set_timer(folder, due=datetime.now(UTC) + timedelta(seconds=4))
    with served(folder):
        wait_for(lambda: played.exists() and len(rings(folder)) == 2)
    assert played.read_text() == f"-q {folder / 'alarm.wav'}\n"
    assert "stir now" in shown.read_text()
    assert rings(folder) == [("timer 1", "machine", ""), ("timer 1", "notice", "")]


def test_a_machine_without_programs_writes_down_that_it_could_not(folder):
    set_timer(folder, due=datetime.now(UTC) - timedelta(seconds=1))
    with served(folder):
        wait_for(lambda: len(rings(folder)) == 2)
    assert [trouble for *_, trouble in rings(folder)] == [
        "this machine has no player for sounds",
        "this machine has no program for notifications",
    ]


def test_a_server_that_was_away_says_what_it_missed(folder, open_page):
    now = datetime.now(UTC)
    set_timer(folder, due=now - timedelta(minutes=5))
    told(
        folder,
        "INSERT INTO house_watch (id, last_at) VALUES (1, ?)",
        kept(now - timedelta(minutes=10)),
    )
    told(
        folder,
        "INSERT INTO house_workshop (id, name, zone, units, address, invented) "
        "VALUES (1, 'Saltmyr', 'Europe/Oslo', 'metric', '', 0)",
    )
    with served(folder) as at:
        wait_for(lambda: told(folder, "SELECT * FROM house_unwatched"))
        page = open_page(at, scripts=False)
        missed = page.get_by_text(re.compile("^Alarm missed from .* “stir” was to be done by"))
        missed.first.wait_for()


def test_the_end_of_the_server_ends_what_plays(folder, programs):
    mark = programs.parent / "process"
    played = install(programs, "aplay", f'echo $$ > "{mark}"; exec /bin/sleep 100')
    set_timer(folder, due=datetime.now(UTC) - timedelta(seconds=1))
    began = time.monotonic()
    with served(folder) as at:
        wait_for(lambda: played.exists() and mark.exists() and mark.read_text().strip())
        at.process.send_signal(signal.SIGTERM)
        assert at.process.wait(10) == 0
    assert time.monotonic() - began < WAIT_S
    with pytest.raises(ProcessLookupError):
        os.kill(int(mark.read_text()), 0)


def test_killed_in_the_middle_it_goes_on_ringing_after_the_next_start(folder, programs):
    played = install(programs, "aplay", "")
    set_timer(folder, due=datetime.now(UTC) - timedelta(seconds=1))
    with served(folder) as at:
        wait_for(lambda: len(rings(folder)) == 2)
        at.process.kill()
        at.process.wait(10)
    before = played.read_text().count("\n")
    with served(folder):
        wait_for(lambda: played.read_text().count("\n") > before)
    assert len(rings(folder)) == 2


def test_while_a_timer_runs_the_machine_is_held_awake_and_let_go_with_the_server(folder, programs):
    mark = programs.parent / "process"
    asked = install(programs, "systemd-inhibit", f'echo $$ > "{mark}"; exec /bin/cat')
    set_timer(folder, due=datetime.now(UTC) + timedelta(hours=1))
    with served(folder) as at:
        wait_for(lambda: asked.exists() and mark.exists() and mark.read_text().strip())
        os.kill(int(mark.read_text()), 0)
        at.process.kill()
        at.process.wait(10)
        wait_for(lambda: is_gone(int(mark.read_text())))


def is_gone(process: int) -> bool:
    """Whether it ended; one that nobody waits for stands as a zombie until its heir looks."""
    try:
        state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    except FileNotFoundError:
        return True
    return state == "Z"
