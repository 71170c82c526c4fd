"""The maker's folder: database, photos, settings, and the lock that keeps a second server out."""

import fcntl
import hashlib
import json
import os
import secrets
from dataclasses import asdict, dataclass, fields, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import IO

from throwbench.science.errors import SaidError

ENVIRONMENT = "THROWBENCH_FOLDER"


class FolderError(SaidError):
    """The folder cannot be used, in a sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderSettings:
    """What a server has to know before it opens the database."""

    secret_key: str
    demo_offset_s: float | None = None
    """Of a demo: seconds from the real time to the demo's own; None in a workshop of one's own."""


@dataclass(frozen=True, slots=True)
class Folder:
    """Where everything of one workshop lies."""

    path: Path

    @property
    def database(self) -> Path:
        return self.path / "workshop.sqlite3"

    @property
    def photos(self) -> Path:
        return self.path / "photos"

    @property
    def charts(self) -> Path:
        """Drawn charts, kept by digest; may be deleted at any time."""
        return self.path / "charts"

    @property
    def certificates(self) -> Path:
        """What https needs; there once it was asked for."""
        return self.path / "tls"

    @property
    def settings_file(self) -> Path:
        return self.path / "settings.json"

    @property
    def lock_file(self) -> Path:
        return self.path / "lock"

    @property
    def mark(self) -> str:
        """Eight letters and digits that tell this folder from others on the same machine."""
        return hashlib.sha256(os.fsencode(self.path.resolve())).hexdigest()[:8]

    def exists(self) -> bool:
        return self.settings_file.is_file()

    def make(self) -> None:
        """Make the folder where it is not there.

        Raises
        ------
        FolderError
            It cannot be made, or it holds something else.
        """
        if self.exists():
            return
        if self.path.is_dir() and not all(map(_is_left_over, self.path.iterdir())):
            raise FolderError(
                f"The folder {self.path} holds other files. A workshop begins in a folder of its "
                "own. Name a new or empty folder."
            )
        try:
            self.path.mkdir(parents=True, exist_ok=True)
            self.path.chmod(0o700)  # the database holds who is let in
            self.photos.mkdir(exist_ok=True)
            self.database.touch()
            self.write(FolderSettings(secret_key=secrets.token_urlsafe(50)))
        except OSError as error:
            raise FolderError(
                f"The folder {self.path} cannot be made: {error.strerror}. A workshop needs a "
                "folder that can be written to. Name another one."
            ) from error

    def read(self) -> FolderSettings:
        """The settings in the folder.

        Raises
        ------
        FolderError
            There are none, they are broken, or a newer Throwbench wrote them.
        """
        try:
            return _checked(json.loads(self.settings_file.read_text(encoding="utf-8")))
        except (FileNotFoundError, NotADirectoryError) as error:
            raise FolderError(
                f"There is no workshop in {self.path}. `throwbench start` makes one. Call "
                "`throwbench start FOLDER` first, or name another folder."
            ) from error
        except FolderError:
            raise
        except (ValueError, TypeError, OverflowError) as error:
            raise FolderError(
                f"{self.settings_file} cannot be read. It is a JSON file that Throwbench wrote. "
                "Put it back from a copy of the folder."
            ) from error

    def write(self, settings: FolderSettings) -> None:
        """Write the settings, readable for this user only."""
        text = json.dumps(asdict(settings), indent=2) + "\n"
        new = self.settings_file.with_suffix(".new")
        with os.fdopen(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w") as file:
            file.write(text)
        new.replace(self.settings_file)

    def set_demo_time(self, begins: datetime, *, now: datetime) -> None:
        """From `now` on this folder's clock shows `begins` and goes on from there."""
        offset_s = (begins - now).total_seconds()
        self.write(replace(self.read(), demo_offset_s=offset_s))

    def lock(self) -> IO[str]:
        """Hold the folder until the file returned is closed or this process ends.

        Raises
        ------
        FolderError
            Another server holds it, or it cannot be written to.
        """
        try:
            file = self.lock_file.open("a+", encoding="utf-8")
        except OSError as error:
            raise FolderError(
                f"{self.path} cannot be written to: {error.strerror}. A workshop keeps its notes "
                "there. Allow this user to write in the folder, or name another one."
            ) from error
        if not _hold(file):
            file.seek(0)
            process, *reached = file.read().split("\n")
            holder = " at ".join(filter(None, (process, " and ".join(reached))))
            holder = holder or "another process"
            file.close()
            raise FolderError(
                f"The workshop in {self.path} is open already ({holder}). One server at a time "
                "keeps its notes. Use that one, or stop it first."
            )
        self.note_address(file)
        return file

    def note_address(self, lock: IO[str], *addresses: str) -> None:
        """Say beside the lock where its holder is reached."""
        lock.seek(0)
        lock.truncate()
        lock.write("\n".join(filter(None, (f"process {os.getpid()}", *addresses))))
        lock.flush()

    def served_at(self) -> tuple[str, ...]:
        """The addresses of the server that holds the folder, https first; none where none does."""
        try:
            file = self.lock_file.open("r+", encoding="utf-8")
        except FileNotFoundError:
            return ()
        with file:
            return () if _hold(file) else tuple(file.read().split("\n")[1:])


def _is_left_over(path: Path) -> bool:
    """Whether this was left by a making that was broken off, by a full disk or by the maker."""
    if path.name == "photos":
        return path.is_dir() and not any(path.iterdir())
    empty = path.is_file() and not path.stat().st_size
    return path.name == "settings.new" or (path.name == "workshop.sqlite3" and empty)


def _checked(found: dict[str, object]) -> FolderSettings:
    """Raises TypeError, ValueError or OverflowError where one of them is of another kind."""
    unknown = set(found) - {field.name for field in fields(FolderSettings)}
    if unknown:
        raise FolderError(
            f"The settings of this workshop hold {', '.join(sorted(unknown))}, which this version "
            "does not know. It reads its own and older ones. Install the newer Throwbench again."
        )
    settings = FolderSettings(**found)  # type: ignore[arg-type]
    if not isinstance(settings.secret_key, str) or not settings.secret_key:
        raise TypeError("secret_key")
    if settings.demo_offset_s is not None:
        datetime.now(UTC) + timedelta(seconds=settings.demo_offset_s)
    return settings


def _hold(file: IO[str]) -> bool:
    """Whether this process holds the file now; the lock ends with the file."""
    try:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
