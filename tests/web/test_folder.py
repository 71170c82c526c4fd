"""The maker's folder: made once, read only when it is whole, held by one server."""

import json
import stat
import subprocess
import sys
from datetime import timedelta
from pathlib import Path

import pytest
from django.conf import settings

from throwbench.web.folder import Folder, FolderError
from throwbench.web.settings import FOLDER


def test_a_folder_is_made_with_its_settings_for_this_user_only(folder):
    assert folder.exists()
    assert folder.photos.is_dir()
    assert stat.S_IMODE(folder.settings_file.stat().st_mode) == 0o600
    assert stat.S_IMODE(folder.path.stat().st_mode) == 0o700
    assert len(folder.read().secret_key) >= 50


def test_a_folder_is_made_once(folder):
    before = folder.read()
    folder.make()
    assert folder.read() == before


def test_two_folders_have_two_keys(folder, tmp_path):
    other = Folder(tmp_path / "other")
    other.make()
    assert other.read().secret_key != folder.read().secret_key


def test_two_folders_have_two_marks_and_each_keeps_its_own(folder, tmp_path, monkeypatch):
    monkeypatch.chdir(folder.path)
    assert Folder(Path()).mark == folder.mark
    assert Folder(tmp_path / "other").mark != folder.mark
    assert folder.mark.isalnum()


def test_the_cookies_of_a_folder_carry_its_mark():
    names = (settings.SESSION_COOKIE_NAME, settings.CSRF_COOKIE_NAME)
    assert names == (f"throwbench-{FOLDER.mark}", f"throwbench-form-{FOLDER.mark}")


def test_a_folder_with_other_files_is_left_alone(tmp_path):
    (tmp_path / "recipes.txt").write_text("mine")
    with pytest.raises(FolderError, match="holds other files"):
        Folder(tmp_path).make()
    assert [path.name for path in tmp_path.iterdir()] == ["recipes.txt"]


def test_a_folder_that_cannot_be_made_is_said(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(FolderError, match=r"cannot be made: .+ Name another one"):
        Folder(tmp_path / "file" / "workshop").make()


def test_an_empty_place_says_how_to_begin(tmp_path):
    with pytest.raises(FolderError, match="Call `throwbench start FOLDER` first"):
        Folder(tmp_path).read()


@pytest.mark.parametrize(
    "text",
    [
        *("", "{", "[]", "{}"),
        *('{"secret_key": ""}', '{"secret_key": 5}', '{"secret_key": null}'),
        *(
            f'{{"secret_key": "x", "demo_offset_s": {value}}}'
            for value in ('"1"', "NaN", "1e309", "1e15", "[]")
        ),
    ],
)
def test_broken_settings_are_said(folder, text):
    folder.settings_file.write_text(text)
    with pytest.raises(FolderError, match="Put it back from a copy"):
        folder.read()


def test_settings_of_a_newer_version_are_said_to_be_so(folder):
    folder.settings_file.write_text('{"secret_key": "x", "more": 1}')
    with pytest.raises(FolderError, match=r"hold more, .+ Install the newer Throwbench again"):
        folder.read()


def test_below_a_file_there_is_no_workshop(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(FolderError, match="There is no workshop in"):
        Folder(tmp_path / "file").read()


@pytest.mark.parametrize("last", ["photos", "workshop.sqlite3", "settings.new"])
def test_a_making_that_was_broken_off_is_gone_on_with(tmp_path, last):
    """A full disk leaves what was made before, and the next start finds it."""
    begun = Folder(tmp_path / "workshop")
    begun.photos.mkdir(parents=True)
    if last != "photos":
        begun.database.touch()
    if last == "settings.new":
        begun.settings_file.with_suffix(".new").write_text("{")
    begun.make()
    assert begun.read().secret_key
    assert begun.photos.is_dir()


@pytest.mark.parametrize("name", ["workshop.sqlite3", "photos/cat.jpg"])
def test_notes_without_their_settings_are_left_alone(tmp_path, name):
    (tmp_path / "photos").mkdir()
    (tmp_path / name).write_text("mine")
    with pytest.raises(FolderError, match="holds other files"):
        Folder(tmp_path).make()
    assert (tmp_path / name).read_text() == "mine"


def test_a_folder_that_cannot_be_written_to_is_said(folder):
    (folder.path / "lock").mkdir()
    with pytest.raises(FolderError, match=r"cannot be written to: .+ Allow this user"):
        folder.lock()


def test_a_demo_has_a_clock_of_its_own(folder, now):
    folder.set_demo_time(now + timedelta(days=3), now=now)
    assert folder.read().demo_offset_s == 3 * 24 * 3600
    assert json.loads(folder.settings_file.read_text())["secret_key"] == folder.read().secret_key


def test_a_workshop_of_ones_own_has_none(folder):
    assert folder.read().demo_offset_s is None


def test_a_held_folder_refuses_a_second_holder_and_names_the_first(folder):
    with folder.lock() as lock:
        folder.note_address(lock, "http://127.0.0.1:8650")
        with pytest.raises(FolderError, match=r"process \d+ at http://127.0.0.1:8650"):
            folder.lock()


def test_let_go_a_folder_can_be_held_again(folder):
    folder.lock().close()
    folder.lock().close()


def test_a_holder_that_was_killed_holds_nothing(folder):
    holds = (
        "import os, sys; from pathlib import Path; from throwbench.web.folder import Folder;"
        f"lock = Folder(Path({str(folder.path)!r})).lock(); os.kill(os.getpid(), 9)"
    )
    assert subprocess.run([sys.executable, "-c", holds], check=False).returncode == -9
    folder.lock().close()


def test_another_process_is_kept_out(folder):
    with folder.lock():
        tries = (
            "from pathlib import Path; from throwbench.web.folder import Folder;"
            f"Folder(Path({str(folder.path)!r})).lock()"
        )
        done = subprocess.run(
            [sys.executable, "-c", tries], check=False, capture_output=True, text=True
        )
    assert done.returncode != 0
    assert "is open already" in done.stderr


def test_the_address_is_known_while_the_folder_is_held(folder: Folder):
    assert folder.served_at() == ()
    with folder.lock() as lock:
        folder.note_address(lock, "http://127.0.0.1:8650")
        assert folder.served_at() == ("http://127.0.0.1:8650",)
    assert folder.served_at() == ()


def test_the_database_lies_in_the_folder(folder):
    assert folder.database == Path(folder.path / "workshop.sqlite3")
