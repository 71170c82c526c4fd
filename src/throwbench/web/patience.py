"""How long the server listens to a caller who says little: a few who drip keep nobody else out."""

import io
import socket
import time
from typing import Any

from cheroot.makefile import StreamReader, StreamWriter
from cheroot.server import HTTPConnection
from cheroot.wsgi import Server

WAITS_S = 10.0
"""In all, for one request; what came meanwhile adds to it."""
LEAST_PER_S = 8_000
"""Bytes: a photo over a weak network comes faster. Each so many add a second."""
LONGEST_HEAD = 64 * 1024
"""Bytes of a request before its body; pages of ours send a few thousand. More is not received."""


class _Heard(socket.SocketIO):
    """What a caller says. Each word has its own limit in cheroot; here all of them have one."""

    def __init__(self, caller: socket.socket) -> None:
        super().__init__(caller, "rb")
        self._caller, self._each_s = caller, caller.gettimeout()
        self.begin()

    def begin(self) -> None:
        """From now on it is another request."""
        self._came, self._waited_s = 0, 0.0

    def readinto(self, buffer: Any) -> int | None:
        left_s = WAITS_S + self._came / LEAST_PER_S - self._waited_s
        if left_s <= 0:
            raise TimeoutError("timed out")
        since = time.monotonic()
        self._caller.settimeout(left_s if self._each_s is None else min(left_s, self._each_s))
        try:
            came = super().readinto(buffer)
        finally:
            self._caller.settimeout(self._each_s)
            self._waited_s += time.monotonic() - since
        self._came += came or 0
        return came


class _Reader(StreamReader):
    """Reads ahead as cheroot does."""

    def __init__(self, caller: socket.socket, size: int) -> None:
        self.heard = _Heard(caller)
        super(StreamReader, self).__init__(self.heard, size)
        self.bytes_read = 0


class PatientConnection(HTTPConnection):
    """A caller who is listened to for a limited time."""

    def __init__(self, server: Any, sock: socket.socket, makefile: object = None) -> None:
        super().__init__(server, sock, _file)

    def communicate(self) -> bool:
        self.rfile.heard.begin()
        return bool(super().communicate())  # type: ignore[no-untyped-call]


def _file(sock: socket.socket, mode: str, size: int = io.DEFAULT_BUFFER_SIZE) -> Any:
    return _Reader(sock, size) if "r" in mode else StreamWriter(sock, mode, size)


class PatientServer(Server):
    """Cheroot's server with such callers."""

    ConnectionClass = PatientConnection
    max_request_header_size = LONGEST_HEAD
