"""The files that this server opened: whether they still lie where it found them."""

import logging
import os
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from threading import Lock
from typing import IO

from django.db import connection

from throwbench.web.folder import Folder, FolderError

Mark = tuple[int, int]
"""Device and inode: another file of the same name has another one."""
GONE = (
    "The file of the notes, {database}, was taken away or replaced while this server ran. "
    "What is noted now would be lost, so it is refused. Stop the server: it says where all is "
    "that was noted before. Put that in its place, and start again."
)
OTHER = (
    "Another server has opened {folder}, since the file “lock” was taken away from there. One "
    "server at a time keeps the notes. Stop this one."
)
STOPPED = "Stopped. Everything noted is in the folder."
STOPPED_GONE = (
    "Stopped. The file of the notes was taken away or replaced while this server ran. What was "
    "noted until then is in {kept}. Name that file {name} to go on with it."
)
NOT_KEPT = (
    "Stopped. The file of the notes was taken away or replaced while this server ran, and no copy "
    "could be written here ({why}). If the whole folder was moved, all notes are in it."
)
log = logging.getLogger("throwbench.files")


@dataclass(slots=True)
class _Opened:
    folder: Folder
    database: Mark | None
    lock: IO[str]


class OwnFiles:
    """Of one folder. One process serves one folder, so there is one."""

    def __init__(self) -> None:
        self._opened: _Opened | None = None
        self._said = ""
        self._mutex = Lock()

    def opened(self, folder: Folder, lock: IO[str]) -> None:
        """From now on these are the files of this server."""
        connection.ensure_connection()  # this thread's; at the end it can read what was taken away
        self._opened = _Opened(folder=folder, database=_mark(folder.database), lock=lock)

    def trouble(self) -> str:
        """Why nothing can be noted any more; empty where all is well, or nothing is served.

        The server's window says it once.
        """
        here = self._opened
        if here is None:
            return ""
        with self._mutex:
            found = _trouble(here)
            if found and found != self._said:
                log.error(found)
            self._said = found
            return found

    def end(self, *, now: datetime) -> str:
        """What to say once nothing is noted any more; what lies nowhere else is written down."""
        here = self._opened
        self._opened = None
        if here is None or _mark(here.folder.database) == here.database:
            return STOPPED
        target = here.folder.path / f"workshop-as-noted-{now:%Y-%m-%d-%H%M%S}.sqlite3"
        try:
            with closing(sqlite3.connect(target)) as copy:
                connection.connection.backup(copy)
        except (OSError, sqlite3.Error) as error:
            return NOT_KEPT.format(why=error)
        return STOPPED_GONE.format(kept=target, name=here.folder.database.name)


def _trouble(here: _Opened) -> str:
    if _mark(here.folder.database) != here.database:
        return GONE.format(database=here.folder.database)
    return "" if _holds(here) else OTHER.format(folder=here.folder.path)


def _holds(here: _Opened) -> bool:
    """Whether the lock is still this server's; one that was taken away is made again."""
    path = here.folder.lock_file
    if _mark(path) is None:
        here.lock.seek(0)
        reached = here.lock.read().split("\n")[1:]
        try:
            here.lock = here.folder.lock()
        except FolderError:
            return False
        here.folder.note_address(here.lock, *reached)
    return _mark(path) == _mark_of(os.fstat(here.lock.fileno()))


def _mark(path: Path) -> Mark | None:
    try:
        return _mark_of(path.stat())
    except OSError:
        return None


def _mark_of(found: os.stat_result) -> Mark:
    return found.st_dev, found.st_ino


own_files = OwnFiles()
