"""What is noted goes into the files that the server opened, or is refused in a sentence."""

import shutil
import signal
import sqlite3
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from throwbench.web.folder import Folder
from throwbench.web.own_files import OwnFiles
from web.test_server import Window, any_port, called, serving

GONE = "was taken away or replaced while this server ran"


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "workshop"


@pytest.fixture
def window(place) -> Iterator[Window]:
    with serving("start", str(place), "--no-browser", *any_port()) as shown:
        yield shown


def sent(window: Window) -> tuple[int, str]:
    """What a form gets that has no key: 403 where the server looks at it at all."""
    try:
        urllib.request.urlopen(f"{window.address}/sign-in-now/", data=b"a=b", timeout=10)
    except urllib.error.HTTPError as error:
        return error.code, error.read().decode()
    raise AssertionError("a form without a key was taken")


def page(window: Window) -> str:
    """It is refused by a thread that has the notes not open, and cannot show any."""
    try:
        with urllib.request.urlopen(f"{window.address}/sign-in/", timeout=10) as answer:
            return answer.read().decode()
    except urllib.error.HTTPError as error:
        return error.read().decode()


def stopped(window: Window) -> str:
    window.process.send_signal(signal.SIGTERM)
    rest, _ = window.process.communicate(timeout=20)
    assert window.process.returncode == 0
    return rest


def people(database: Path) -> int:
    with closing(sqlite3.connect(database)) as notes:
        assert notes.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return notes.execute("SELECT count(*) FROM house_person").fetchone()[0]


def only_one(place: Path) -> Path:
    (kept,) = place.glob("workshop-as-noted-*.sqlite3")
    return kept


def test_while_all_is_well_nothing_is_said(window):
    assert sent(window)[0] == 403
    assert GONE not in page(window)


def test_a_database_that_was_taken_away_takes_no_notes_and_none_is_lost(place, window):
    database = Folder(place).database
    database.unlink()
    status, said = sent(window)
    assert (status, GONE in said) == (503, True)
    assert all(GONE in page(window) for _ in range(12))
    assert GONE in window.until(GONE)
    rest = stopped(window)
    assert "What was noted until then is in" in rest
    assert len(rest.splitlines()) == 1
    assert not database.exists()
    assert people(only_one(place)) == 1


def test_a_database_that_was_replaced_takes_no_notes_and_stays_as_it_was_put(place, window):
    database = Folder(place).database
    with closing(sqlite3.connect(database)) as notes, closing(sqlite3.connect(place / "x")) as new:
        notes.backup(new)
        new.execute("INSERT INTO house_room (name, kind) VALUES ('loft', 'large room')")
        new.commit()
    (place / "x").replace(database)
    assert sent(window)[0] == 503
    assert "What was noted until then is in" in stopped(window)
    assert people(database) == people(only_one(place)) == 1
    with closing(sqlite3.connect(database)) as notes:
        assert notes.execute("SELECT name FROM house_room").fetchall() == [("loft",)]


def test_an_entry_stays_with_who_pressed_it(place, window):
    Folder(place).database.unlink()
    request = urllib.request.Request(f"{window.address}/entries/", data=b"{}")
    with pytest.raises(urllib.error.HTTPError) as told:
        urllib.request.urlopen(request, timeout=10)
    assert told.value.code == 503
    assert b'"outcome": "broke"' in told.value.read()


def test_where_the_folder_was_moved_it_says_where_the_notes_are(place, window):
    place.rename(place.with_name("moved"))
    place.mkdir()
    assert sent(window)[0] == 503
    shutil.rmtree(place)
    assert "If the whole folder was moved, all notes are in it." in stopped(window)
    assert people(Folder(place.with_name("moved")).database) == 1


def test_a_lock_that_was_taken_away_is_made_again(place, window):
    (place / "lock").unlink()
    assert sent(window)[0] == 403
    second = called("serve", str(place))
    assert second.returncode == 2
    assert f"is open already (process {window.process.pid} at {window.address})" in second.stderr


def test_of_two_servers_on_one_folder_the_first_notes_nothing_more(place, window):
    (place / "lock").unlink()
    with Folder(place).lock():
        status, said = sent(window)
        assert (status, "Another server has opened" in said) == (503, True)


def test_without_a_server_there_is_no_trouble():
    assert OwnFiles().trouble() == ""
