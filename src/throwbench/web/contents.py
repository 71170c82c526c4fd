"""What Throwbench itself makes in a folder: closed to others, and all that it ever takes away."""

import os
from collections.abc import Iterator
from pathlib import Path

from throwbench.web.folder import Folder

DIGEST = "[0-9a-f]" * 64
NOTED = (
    "workshop.sqlite3",
    "workshop.sqlite3-*",
    "workshop-before-step-*.sqlite3",
    "workshop-as-noted-*.sqlite3",
    f"photos/{DIGEST}.jpg",
    "photos/.new-*",
    f"charts/{DIGEST}-*",
)
"""What holds notes, or is drawn from them."""
AROUND = ("lock", "settings.json", "settings.new", "alarm.wav", "photos", "charts", "tls")
"""What has to be there for them."""
FOR_OTHERS = 0o077
"""The bits of a file's mode that let other accounts of the machine in."""


def close_to_others(folder: Folder) -> None:
    """Take every right of other accounts from the folder and from what Throwbench made in it.

    The database holds who is let in. What belongs to another account stays as it is.
    """
    for path in (folder.path, *_found(folder, (*NOTED, *AROUND))):
        found = path.stat()
        if found.st_uid == os.geteuid() and found.st_mode & FOR_OTHERS:
            path.chmod(found.st_mode & ~FOR_OTHERS)


def take_away_the_notes(folder: Folder) -> tuple[str, ...]:
    """Make the folder as new, with its settings; the names of what is not Throwbench's stay."""
    for path in _found(folder, NOTED):
        path.unlink()
    folder.database.touch()
    return tuple(sorted(_of_somebody_else(folder)))


def _of_somebody_else(folder: Folder) -> Iterator[str]:
    own = {*AROUND, folder.database.name}
    yield from (path.name for path in folder.path.iterdir() if path.name not in own)
    for inside in (folder.photos, folder.charts):
        if inside.is_dir():
            yield from (f"{inside.name}/{path.name}" for path in inside.iterdir())


def _found(folder: Folder, patterns: tuple[str, ...]) -> Iterator[Path]:
    """No link is followed: what it leads to is not ours."""
    for pattern in patterns:
        yield from (path for path in folder.path.glob(pattern) if not path.is_symlink())
