"""What lies in a workshop's folder is closed to the other accounts of the machine."""

import os
import stat
import subprocess
import sys
from pathlib import Path

from throwbench.web.contents import close_to_others
from throwbench.web.folder import Folder

OPEN = (
    "import sys; from pathlib import Path; from throwbench.web.folder import Folder;"
    "from throwbench.web.opening import opened; folder = Folder(Path(sys.argv[1]));"
)
WRITTEN_WHILE_OPEN = (
    "from throwbench.workshop.trials.photo_file import Picture, keep_file\n"
    "with opened(folder):\n"
    "    keep_file(Picture(jpeg=b'x', width=1, height=1), folder=folder.photos)\n"
    "    (folder.path / 'alarm.wav').write_bytes(b'x')\n"
    "    from django.db import connection\n"
    "    connection.cursor().execute('DELETE FROM django_session')\n"
    "    assert (folder.path / 'workshop.sqlite3-wal').exists()\n"
    "    assert not any(p.stat().st_mode & 0o077 for p in folder.path.rglob('*')), "
    "[(p, oct(p.stat().st_mode)) for p in folder.path.rglob('*')]\n"
)


def called(folder: Folder, code: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", f"{OPEN}\n{code}", str(folder.path)],
        check=False,
        capture_output=True,
        text=True,
    )


def open_to_all(folder: Folder) -> None:
    """As an older Throwbench left it."""
    for path in (folder.path, *folder.path.rglob("*")):
        path.chmod(0o755 if path.is_dir() else 0o644)


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_an_existing_folder_is_closed_when_it_is_opened(folder):
    (folder.photos / f"{'a' * 64}.jpg").write_bytes(b"x")
    for name in ("before-step-3", "as-noted-2027-05-24-110500"):
        (folder.path / f"workshop-{name}.sqlite3").write_bytes(b"x")
    open_to_all(folder)
    done = called(folder, "with opened(folder):\n    pass")
    assert done.returncode == 0, done.stderr
    modes = {path.name: mode(path) for path in folder.path.rglob("*")}
    assert mode(folder.path) == 0o700
    assert set(modes.values()) == {0o700, 0o600}, modes


def test_what_is_written_while_it_is_open_is_closed_too(folder):
    done = called(folder, WRITTEN_WHILE_OPEN)
    assert done.returncode == 0, done.stderr


def test_what_somebody_else_put_there_stays_as_it_is(folder):
    mine = folder.path / "recipes.txt"
    mine.write_text("mine")
    outside = folder.path.parent / "outside"
    outside.mkdir()
    folder.charts.symlink_to(outside)
    for path in (mine, outside):
        path.chmod(0o755)
    close_to_others(folder)
    assert mode(mine) == mode(outside) == 0o755


def test_what_belongs_to_another_account_stays_as_it_is(folder, monkeypatch):
    folder.database.chmod(0o644)
    monkeypatch.setattr(os, "geteuid", lambda: folder.database.stat().st_uid + 1)
    close_to_others(folder)
    assert mode(folder.database) == 0o644
