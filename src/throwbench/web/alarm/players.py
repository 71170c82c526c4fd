"""What this machine has to play a sound and to show a notification: its own programs."""

import shutil
import subprocess
import threading
from collections.abc import Sequence
from pathlib import Path

LIMIT_S = 10
"""A player that takes longer hangs: it is ended, and the next one is tried."""
NO_PLAYER = "this machine has no player for sounds"
NO_NOTICES = "this machine has no program for notifications"

_MAC_SAYS = (
    "on run argv",
    "display notification (item 2 of argv) with title (item 1 of argv)",
    "end run",
)


def sound_commands(file: Path) -> list[list[str]]:
    """What plays the file here, in the order in which it is tried."""
    known = [
        ["pw-play", str(file)],
        ["paplay", str(file)],
        ["aplay", "-q", str(file)],
        ["canberra-gtk-play", "-f", str(file)],
        ["afplay", str(file)],
    ]
    return _here(known)


def notice_commands(title: str, words: str) -> list[list[str]]:
    """What shows a notification here. After "--" a room's name is a name, however it begins."""
    script = [part for line in _MAC_SAYS for part in ("-e", line)]
    known = [
        ["notify-send", "--urgency=critical", "--app-name=Throwbench", "--", title, words],
        ["osascript", *script, "--", title, words],
    ]
    return _here(known)


def _here(known: list[list[str]]) -> list[list[str]]:
    found = ((shutil.which(command[0]), command) for command in known)
    return [[path, *command[1:]] for path, command in found if path]


class Player:
    """Runs the programs of this machine one after the other; `end` stops what still runs."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._running: set[subprocess.Popen[bytes]] = set()
        self._lock = threading.Lock()
        self._ended = False

    def has_sound(self) -> bool:
        return bool(sound_commands(self._file))

    def has_notices(self) -> bool:
        return bool(notice_commands("", ""))

    def sound(self) -> str:
        """Play it, and wait until it was played. Why not, in words; empty where it was."""
        return self._first_that_can(sound_commands(self._file), none=NO_PLAYER)

    def notice(self, title: str, words: str) -> str:
        """Show a notification. Why not, in words; empty where it was shown."""
        return self._first_that_can(notice_commands(title, words), none=NO_NOTICES)

    def end(self) -> None:
        """No program is left behind, and none is started any more."""
        with self._lock:
            self._ended = True
            for process in self._running:
                process.kill()

    def _first_that_can(self, commands: Sequence[Sequence[str]], *, none: str) -> str:
        troubles = []
        for command in commands:
            trouble = self._run(command)
            if not trouble:
                return ""
            troubles.append(f"{Path(command[0]).name}: {trouble}")
        return "; ".join(troubles) or none

    def _run(self, command: Sequence[str]) -> str:
        try:
            process = self._begin(command)
        except OSError as error:
            return error.strerror or "could not be started"
        if process is None:
            return "the server was stopped"
        with process:
            try:
                _, said = process.communicate(timeout=LIMIT_S)
            except subprocess.TimeoutExpired:
                process.kill()
                said = f"took longer than {LIMIT_S} s".encode()
            finally:
                with self._lock:
                    self._running.discard(process)
        return "" if process.returncode == 0 else _words(said, process.returncode)

    def _begin(self, command: Sequence[str]) -> subprocess.Popen[bytes] | None:
        with self._lock:
            if self._ended:
                return None
            process = subprocess.Popen(
                command,
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.PIPE,
            )
            self._running.add(process)
            return process


def _words(said: bytes, code: int) -> str:
    """The last line that it wrote, or with which number it ended."""
    lines = said.decode(errors="replace").strip().splitlines()
    return lines[-1].strip()[:120] if lines else f"ended with {code}"
