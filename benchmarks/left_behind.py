"""Which processes are left of a server: read from /proc, by what they hold and whose they are."""

import os
from collections.abc import Iterator
from pathlib import Path

PROC = Path("/proc")
LISTENS = "0A"
"""State of a socket that waits for callers, in /proc/net/tcp."""


def left_behind(*, folder: Path, port: int, mark: str) -> dict[int, str]:
    """Processes that hold a file of the folder or its port, or that carry the server's mark.

    The mark is an environment variable (`NAME=value`) that the server was started with: whatever
    it spawned has inherited it. Threads of this process are not looked at.
    """
    sockets = {f"socket:[{inode}]" for inode in _listening(port)}
    found = {}
    for pid in _processes():
        why = _why(PROC / str(pid), folder=folder.resolve(), sockets=sockets, mark=mark.encode())
        if why:
            found[pid] = why
    return found


def _processes() -> Iterator[int]:
    own = os.getpid()
    for entry in PROC.iterdir():
        if entry.name.isdecimal() and int(entry.name) != own:
            yield int(entry.name)


def _why(process: Path, *, folder: Path, sockets: set[str], mark: bytes) -> str:
    """What ties a process to the server; empty where nothing does, or where it has just ended."""
    try:
        if _is_over(process):
            return ""
        if mark in (process / "environ").read_bytes().split(b"\0"):
            return f"carries the server's mark: {_words(process)}"
        for link in (process / "fd").iterdir():
            held = _target(link)
            if held in sockets:
                return f"listens on the port: {_words(process)}"
            if held.startswith(f"{folder}/"):
                return f"holds {held}: {_words(process)}"
    except (FileNotFoundError, ProcessLookupError, PermissionError):
        return ""
    return ""


def _is_over(process: Path) -> bool:
    """A process that ended and that nobody has asked after yet holds nothing."""
    state = (process / "stat").read_text().rpartition(")")[2].split()[0]
    return state in ("Z", "X")


def _target(link: Path) -> str:
    try:
        return os.readlink(link)
    except FileNotFoundError:
        return ""


def _words(process: Path) -> str:
    return (process / "cmdline").read_bytes().replace(b"\0", b" ").decode(errors="replace").strip()


def _listening(port: int) -> Iterator[str]:
    """The numbers of the sockets that wait for callers on a port of this machine."""
    for table in ("tcp", "tcp6"):
        try:
            lines = (PROC / "net" / table).read_text().splitlines()[1:]
        except FileNotFoundError:
            continue
        for line in lines:
            _, local, _, state, *rest = line.split()
            if state == LISTENS and int(local.rpartition(":")[2], 16) == port:
                yield rest[5]
