"""Asking this machine not to sleep while something is lit or timed. It may sleep all the same:
a closed lid, an empty battery, or somebody who sends it to sleep."""

import os
import shutil
import subprocess

WHO, WHY = "--who=Throwbench", "--why=A candle is lit or a timer runs"
ENDS_S = 5


def commands() -> list[list[str]]:
    """What keeps this machine awake for as long as it runs. Each ends when this process does:
    the first when its input is closed, the second by the number of the process."""
    known = [
        ["systemd-inhibit", "--what=sleep:idle", "--mode=block", WHO, WHY, "cat"],
        ["caffeinate", "-i", "-w", str(os.getpid())],
    ]
    found = ((shutil.which(command[0]), command) for command in known)
    return [[path, *command[1:]] for path, command in found if path]


class Awake:
    """One program that holds sleep off, begun and ended by the thread of the watch."""

    def __init__(self) -> None:
        self._child: subprocess.Popen[bytes] | None = None

    @property
    def is_held(self) -> bool:
        """Whether the program runs now; where it was refused, it has ended at once."""
        return self._child is not None and self._child.poll() is None

    def hold(self) -> None:
        """Begin it, once: a machine that refuses is not asked every few seconds."""
        if self._child is None and (found := commands()):
            self._child = subprocess.Popen(
                found[0],
                stdin=subprocess.PIPE,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            )

    def release(self) -> None:
        """End it: the machine may sleep again."""
        if self._child is None:
            return
        assert self._child.stdin is not None
        self._child.stdin.close()
        self._child.terminate()
        try:
            self._child.wait(ENDS_S)
        except subprocess.TimeoutExpired:
            self._child.kill()
            self._child.wait()
        self._child = None
