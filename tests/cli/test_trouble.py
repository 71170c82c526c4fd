"""What a disk or a database refuses is a sentence and exit code 2, at every door."""

import resource
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from django.db import DatabaseError

from throwbench.cli.say import Refusal, refusing
from throwbench.web.folder import Folder

THROWBENCH = [sys.executable, "-c", "from throwbench.cli import main; main()"]
LONG = "x" * 300


def refused(*words: str, **more: object) -> str:
    """The one sentence; never what the code did."""
    done = subprocess.run(
        [*THROWBENCH, *words], check=False, capture_output=True, text=True, timeout=60, **more
    )
    assert (done.returncode, done.stdout) == (2, ""), done.stderr
    assert len(done.stderr.splitlines()) == 1
    return done.stderr


def said(error: Exception) -> str:
    with pytest.raises(Refusal) as refusal, refusing():
        raise error
    return refusal.value.message


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    """A workshop with all its tables."""
    folder = Folder(tmp_path_factory.mktemp("trouble") / "workshop")
    opens = (
        "import sys; from pathlib import Path; from throwbench.web.folder import Folder;"
        "from throwbench.web.opening import opened\n"
        "with opened(Folder(Path(sys.argv[1]))): pass"
    )
    subprocess.run([sys.executable, "-c", opens, str(folder.path)], check=True)
    return folder


def changed(folder: Folder, *statements: str) -> None:
    with closing(sqlite3.connect(folder.database)) as database, database:
        for statement in statements:
            database.execute(statement)


def test_a_full_disk_is_said():
    with pytest.raises(Refusal, match=r"No space left on device\. .+ Make room"), refusing():
        Path("/dev/full").write_text("x" * 10_000)


def test_a_database_that_fills_its_disk_is_said(tmp_path):
    with closing(sqlite3.connect(tmp_path / "full")) as database:
        database.execute("PRAGMA max_page_count = 2")
        database.execute("CREATE TABLE one (a)")
        with pytest.raises(Refusal, match=r"database or disk is full\. .+ Make room"), refusing():
            database.execute("INSERT INTO one VALUES (zeroblob(100000))")


def test_a_database_that_another_program_holds_is_said(tmp_path):
    path = tmp_path / "held"
    with (
        closing(sqlite3.connect(path, isolation_level=None)) as other,
        closing(sqlite3.connect(path, timeout=0)) as ours,
    ):
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(Refusal, match=r"database is locked\. .+ Close the other"), refusing():
            ours.execute("CREATE TABLE one (a)")


def test_a_database_that_may_not_be_written_to_is_said(tmp_path):
    path = tmp_path / "closed"
    path.touch()
    with (
        closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as database,
        pytest.raises(Refusal, match=r"readonly database\. .+ Allow this user"),
        refusing(),
    ):
        database.execute("CREATE TABLE one (a)")


def test_what_django_wrapped_is_said():
    wrapped = DatabaseError("x")
    wrapped.__cause__ = sqlite3.DatabaseError("file is not a database")
    assert said(wrapped) == (
        "The notes cannot be used: file is not a database. They are a SQLite file that "
        "Throwbench wrote. Put it back from a copy of the folder."
    )


@pytest.mark.parametrize(
    "error",
    [BrokenPipeError(32, "Broken pipe"), KeyError("x"), sqlite3.IntegrityError("x"), OSError("x")],
)
def test_what_is_our_own_fault_is_not_called_the_disks(error):
    with pytest.raises(type(error)), refusing():
        raise error


@pytest.mark.parametrize("door", ["start", "serve", "sign-in", "demo"])
def test_a_folder_with_too_long_a_name_is_said(tmp_path, door):
    assert "File name too long. A disk takes names of 255" in refused(door, str(tmp_path / LONG))


def test_a_file_with_too_long_a_name_is_said(tmp_path):
    assert "File name too long" in refused("verdict", str(tmp_path / LONG))
    assert "File name too long" in refused("burn", str(tmp_path / LONG))


def test_a_link_that_leads_to_itself_is_said(tmp_path):
    loop = tmp_path / "loop"
    loop.symlink_to(loop)
    assert "loop is not there" in refused("verdict", str(loop), str(loop))
    assert "loop is not there" in refused("verdict", str(loop))
    assert "loop is not there" in refused("burn", str(loop))
    for door in ("start", "demo"):
        assert "cannot be made" in refused(door, str(loop))


def test_a_file_where_a_folder_is_needed_is_said(tmp_path):
    file = tmp_path / "file"
    file.write_text("x")
    assert "cannot be made: File exists" in refused("start", str(file))
    assert "There is no workshop in" in refused("serve", str(file))
    assert "There is no workshop in" in refused("sign-in", str(file))


@pytest.mark.parametrize("port", ["0", "65536", "door"])
def test_what_is_no_port_is_said(tmp_path, port):
    said = refused("start", str(tmp_path / "workshop"), "--port", port)
    assert f"--port {port} is no port. A port is a whole number from 1 to 65535." in said


def test_a_table_that_is_gone_is_said(begun):
    changed(begun, "DROP TABLE house_signinlink")
    assert "no such table: house_signinlink" in refused("sign-in", str(begun.path))


def test_a_file_at_the_place_of_the_photos_is_said(begun):
    begun.photos.rmdir()
    begun.photos.write_text("x")
    said = refused("serve", str(begun.path))
    assert "photos cannot be used: File exists. Throwbench needs a folder of that name." in said


@pytest.mark.parametrize("bytes_a_file", [0, 200_000])
def test_a_disk_without_room_at_the_first_start_leaves_nothing_that_fails_later(
    tmp_path, bytes_a_file
):
    """A limit on the size of files stands for the disk."""
    place = tmp_path / "workshop"

    def narrow() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (bytes_a_file, bytes_a_file))

    refused("start", str(place), "--no-browser", preexec_fn=narrow)
    folder = Folder(place)
    folder.make()
    assert folder.database.read_bytes() == b""
    assert not list(place.glob("workshop-before*"))
