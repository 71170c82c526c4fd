"""A database on its way to this version's form: copied before, refused when it is newer."""

import json
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from throwbench.web.folder import Folder

OPEN = (
    "import sys; from pathlib import Path; from throwbench.web.folder import Folder;"
    "from throwbench.web.server import open_folder, set_up;"
    "folder = Folder(Path(sys.argv[1]));"
)


def called(folder: Folder, code: str) -> subprocess.CompletedProcess[str]:
    """Each opening is a process of its own, as it is for the maker."""
    return subprocess.run(
        [sys.executable, "-c", OPEN + code, str(folder.path)],
        check=False,
        capture_output=True,
        text=True,
    )


def opened(folder: Folder) -> subprocess.CompletedProcess[str]:
    return called(folder, "open_folder(folder)")


def asked(path: Path, question: str) -> list[tuple]:
    with closing(sqlite3.connect(path)) as database:
        return database.execute(question).fetchall()


def changed(path: Path, statement: str) -> None:
    with closing(sqlite3.connect(path)) as database, database:
        database.execute(statement)


def copies(folder: Folder) -> list[Path]:
    return sorted(folder.path.glob("workshop-before-step-*.sqlite3"))


def take_back_the_last_step(folder: Folder) -> None:
    """The form before the sittings' table of visits was made: an older Throwbench."""
    changed(folder.database, "DELETE FROM django_migrations WHERE app = 'sessions'")
    changed(folder.database, "DROP TABLE django_session")


@pytest.fixture
def ready(folder: Folder) -> Folder:
    done = opened(folder)
    assert done.returncode == 0, done.stderr
    return folder


def test_a_new_database_needs_no_copy(ready):
    assert copies(ready) == []
    assert asked(ready.database, "SELECT count(*) FROM django_migrations")[0][0] > 5


def test_opening_again_changes_and_copies_nothing(ready):
    before = asked(ready.database, "SELECT id, app, name FROM django_migrations")
    assert opened(ready).returncode == 0
    assert asked(ready.database, "SELECT id, app, name FROM django_migrations") == before
    assert copies(ready) == []


def test_an_older_database_is_copied_before_it_changes(ready):
    changed(ready.database, "INSERT INTO house_room (name, kind) VALUES ('loft', 'large room')")
    take_back_the_last_step(ready)
    assert opened(ready).returncode == 0
    (copy,) = copies(ready)
    tables = "SELECT name FROM sqlite_master WHERE name = 'django_session'"
    assert asked(copy, tables) == []
    assert asked(ready.database, tables) == [("django_session",)]
    rooms = "SELECT name FROM house_room"
    assert asked(copy, rooms) == asked(ready.database, rooms) == [("loft",)]


BROKEN_OFF = (
    "from django.db.migrations import executor\n"
    "once = executor.MigrationExecutor.apply_migration\n"
    "def apply(self, state, step, **more):\n"
    "    if step.app_label == 'trials':\n"
    "        raise KeyboardInterrupt\n"
    "    return once(self, state, step, **more)\n"
    "executor.MigrationExecutor.apply_migration = apply\n"
)


def test_a_new_database_whose_making_was_broken_off_is_made_anew(folder):
    broken = called(folder, f"set_up(folder)\n{BROKEN_OFF}open_folder(folder)")
    assert "KeyboardInterrupt" in broken.stderr
    assert folder.database.read_bytes() == b""
    assert opened(folder).returncode == 0
    assert copies(folder) == []


def test_an_older_one_keeps_what_it_holds_when_that_is_broken_off(ready):
    changed(ready.database, "INSERT INTO house_room (name, kind) VALUES ('loft', 'large room')")
    changed(ready.database, "DELETE FROM django_migrations")
    assert opened(ready).returncode != 0
    assert asked(ready.database, "SELECT name FROM house_room") == [("loft",)]


def test_a_newer_database_is_refused_and_left_as_it_is(ready):
    changed(
        ready.database,
        "INSERT INTO django_migrations (app, name, applied)"
        " VALUES ('line', '0099_of_the_future', '2030-01-01')",
    )
    before = ready.database.read_bytes()
    done = opened(ready)
    assert done.returncode != 0
    assert "were written by a newer Throwbench (1 steps newer)" in done.stderr
    assert ready.database.read_bytes() == before
    assert copies(ready) == []


def test_a_command_beside_the_server_changes_no_form(ready):
    take_back_the_last_step(ready)
    done = called(
        ready,
        "set_up(folder);"
        "from throwbench.web.database import demand_this_form; demand_this_form(folder)",
    )
    assert "have the form of an older Throwbench" in done.stderr
    assert copies(ready) == []


def test_what_is_written_is_on_the_disk_before_the_page_says_so(folder):
    """WAL for readers beside a writer, FULL so that a loss of power loses nothing said."""
    done = called(
        folder,
        "open_folder(folder);"
        "import json; from django.db import connection; cursor = connection.cursor();"
        "ask = lambda name: cursor.execute(f'PRAGMA {name}').fetchone()[0];"
        "print(json.dumps([ask('journal_mode'), ask('synchronous'), ask('foreign_keys')]))",
    )
    assert json.loads(done.stdout) == ["wal", 2, 1]


def test_a_write_takes_its_turn_at_once(settings):
    assert settings.DATABASES["default"]["OPTIONS"]["transaction_mode"] == "IMMEDIATE"


@pytest.mark.parametrize(
    ("address", "host"),
    [("https://bench.example", "bench.example"), ("http://[fd00::20]:8650", "[fd00::20]")],
)
def test_the_workshops_own_address_is_answered(ready, address, host):
    changed(
        ready.database,
        "INSERT INTO house_workshop"
        " (id, name, zone, units, address, invented)"
        f" VALUES (1, 'Saltmyr', 'Europe/Oslo', 'metric', '{address}', 0)",
    )
    done = called(
        ready,
        "open_folder(folder); from django.conf import settings;"
        "print(settings.ALLOWED_HOSTS[-1], settings.CSRF_TRUSTED_ORIGINS[-1])",
    )
    assert done.stdout.split() == [host, address]


@pytest.mark.parametrize("open_it", ["open_folder(folder)", "demand_this_form(folder)"])
def test_a_database_that_cannot_be_read_is_said(ready, open_it):
    ready.database.write_bytes(b"no database" * 1000)
    done = called(
        ready,
        "set_up(folder); from throwbench.web.database import demand_this_form;" + open_it,
    )
    assert "cannot be read (file is not a database)" in done.stderr
    assert "Put it back from a copy of the folder." in done.stderr
    assert "FolderError" in done.stderr


def test_a_folder_that_lost_its_database_is_said_and_not_begun_anew(ready):
    ready.database.unlink()
    done = opened(ready)
    assert done.returncode != 0
    assert "are missing: workshop.sqlite3 is not there" in done.stderr
    assert not ready.database.exists()
