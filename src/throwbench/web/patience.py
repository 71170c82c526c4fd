"""How long the server listens to a caller who says little: a few who drip keep nobody else out."""

import socket
import ssl
import time
from threading import Timer
from typing import Any

from cheroot.makefile import StreamReader
from cheroot.server import HTTPConnection
from cheroot.wsgi import Server

from throwbench.web.callers import SAID_EVERY_S, Callers, Listening
from throwbench.web.saying import Said, Sayer

WAITS_S = 10.0
"""In all, for one request; what came meanwhile adds to it."""
LEAST_PER_S = 8_000
"""Bytes: a photo over a weak network comes faster. Each so many add a second."""
LONGEST_HEAD = 64 * 1024
"""Bytes of a request before its body; pages of ours send a few thousand. More is not received."""
HEAD_ENDS = b"\r\n\r\n"


class _Heard(socket.SocketIO):
    """What a caller says. Each word has its own limit in cheroot; here all of them have one."""

    def __init__(self, caller: socket.socket) -> None:
        super().__init__(caller, "rb")
        self._caller, self._each_s = caller, caller.gettimeout()
        self.has_ended = self.waits = False
        self.begin()

    def begin(self) -> None:
        """From now on it is another request."""
        self._came, self._waited_s = 0, 0.0

    def readinto(self, buffer: Any) -> int | None:
        left_s = WAITS_S + self._came / LEAST_PER_S - self._waited_s
        if self.waits and left_s <= 0:
            raise TimeoutError("timed out")
        since = time.monotonic()
        self._caller.settimeout(min(left_s, self._each_s or left_s) if self.waits else 0)
        try:
            came = super().readinto(buffer)
        except ssl.SSLWantReadError:
            return None
        finally:
            self._caller.settimeout(self._each_s)
            self._waited_s += time.monotonic() - since
        self._came += came or 0
        self.has_ended = came == 0
        return came


class _Reader(StreamReader):
    """Reads ahead as cheroot does; says whether a request can be answered without waiting."""

    def __init__(self, caller: socket.socket) -> None:
        self.heard = _Heard(caller)
        super(StreamReader, self).__init__(self.heard, LONGEST_HEAD)
        self.bytes_read = 0

    def gather(self) -> bool:
        """Take what is there now; whether that is a whole head, or no more can come."""
        self.heard.waits = False
        try:
            self.peek(LONGEST_HEAD)
        finally:
            self.heard.waits = True
        return self.heard.has_ended or self.has_data()

    def has_data(self) -> bool:
        """Cheroot asks before it waits for more: half a head is none."""
        there = self._read_buf[self._read_pos :]  # type: ignore[attr-defined]
        return HEAD_ENDS in there or len(there) >= LONGEST_HEAD


class PatientConnection(HTTPConnection):
    """A caller who is given a thread once the head of a request is there, and not for ever.

    No thread waits until the answer is taken either.
    """

    is_known = False
    """Whether it is among the callers of its door, or was."""
    ends = False
    """Whether it is hung up on once everything is said."""

    def __init__(self, server: Any, sock: socket.socket, makefile: object = None) -> None:
        super().__init__(server, sock, _file)
        self._began: float | None = None

    def communicate(self) -> bool:
        """Answer; or come back when there is more, which takes no thread meanwhile."""
        try:
            is_whole = self.rfile.gather()
        except OSError:
            return False  # whoever called hung up: there is nobody to tell
        if not is_whole:
            return not self.is_late()
        self._began = None
        self.rfile.heard.begin()
        self.wfile.begin()
        self.ends = not super().communicate()  # type: ignore[no-untyped-call]
        self.server.callers.answered(self)
        return bool(self.wfile.left) or not self.ends

    def is_late(self) -> bool:
        """Whether this request began too long ago; who says nothing at all is let go by cheroot."""
        now = time.monotonic()
        self._began = self._began or now
        return now - self._began > WAITS_S

    def close(self) -> None:
        self.server.callers.forget(self)
        super().close()


def _file(sock: socket.socket, mode: str, size: int) -> Any:
    return _Reader(sock) if "r" in mode else Said(sock)


class PatientServer(Server):
    """Cheroot's server with such callers, and no more of them than there is room for."""

    ConnectionClass = PatientConnection
    max_request_header_size = LONGEST_HEAD

    def __init__(self, *args: Any, callers: Callers | None = None, **more: Any) -> None:
        super().__init__(*args, **more)
        self.callers = Callers() if callers is None else callers
        self._said_at = -SAID_EVERY_S

    def bind(self, *args: Any) -> Listening:
        self.socket = listening = Listening(fileno=super().bind(*args).detach())
        listening.server = self
        return listening

    def prepare(self) -> None:
        super().prepare()
        self._sayer = Sayer(self._said_all)

    def process_conn(self, conn: PatientConnection) -> None:
        """A caller who came or said something."""
        is_taken = self.callers.takes(conn)
        if self.callers.is_full:
            self.say_rarely("Many callers at once: who said nothing for longest was let go.")
        if is_taken:
            super().process_conn(conn)
        else:
            conn.close()

    def put_conn(self, conn: PatientConnection) -> None:
        """A caller whom a thread is done with."""
        self.callers.wait_for(conn)
        if conn.wfile.left and self.ready:
            self._sayer.take(conn)
        else:
            super().put_conn(conn)

    def stop(self) -> None:
        if not self.ready:
            return
        hangs_up = Timer(self.shutdown_timeout, self.callers.let_all_go)
        hangs_up.start()
        super().stop()
        hangs_up.cancel()
        self._sayer.end()

    def say_rarely(self, words: str) -> None:
        """One line in the server's window, where the same could be said a thousand times."""
        now = time.monotonic()
        if now - self._said_at >= SAID_EVERY_S:
            self._said_at = now
            self.error_log(words)

    def _said_all(self, conn: PatientConnection) -> None:
        """Everything was said to this caller; or it took too little of it for too long."""
        if conn.wfile.left or conn.ends:
            conn.close()
        else:
            self.put_conn(conn)
