"""Who is connected: no more than this process has room for, and who says least goes first."""

import errno
import resource
import socket
import time
from collections import Counter
from contextlib import suppress
from ipaddress import ip_address
from threading import Lock
from typing import Any

MOST = 200
"""Callers at one door. A browser keeps some six of them open."""
EACH = 30
"""Of one address on the network. Whoever sits at this machine is not counted so."""
FILES = 4096
"""Open files that are asked of the system: callers, the database of each thread, photos."""
OWN_FILES = 100
"""Of them kept for everything that is no caller."""
FEWEST = 10
NO_FILE_LEFT = (errno.EMFILE, errno.ENFILE, errno.ENOBUFS, errno.ENOMEM)
PAUSE_S = 0.1
"""Between two tries to let somebody in while there is no file left."""
SAID_EVERY_S = 60.0
"""A door that is full says so in the server's window once in this time."""


def room_for_files() -> int:
    """Let this process open more files where the system allows it; how many it may open now."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = FILES if hard == resource.RLIM_INFINITY else min(FILES, hard)
    if soft == resource.RLIM_INFINITY or soft >= wanted:
        return wanted
    resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, hard))
    return wanted


def most_callers(files: int, *, doors: int) -> int:
    """How many callers one of the doors has room for."""
    return max(FEWEST, min(MOST, (files - OWN_FILES) // doors))


class Callers:
    """Who is connected at one door, the one first who was answered least lately.

    For each it is known whether it is waited for, since it says nothing or takes nothing. Only
    such a one is let go for somebody else's sake. It sees the line go down, and comes back to the
    server as if it had hung up itself.
    """

    def __init__(self, *, most: int = MOST) -> None:
        self._most = most
        self._is_waited_for: dict[Any, bool] = {}
        self._lock = Lock()
        self.is_full = False
        """Whether somebody had to go when the last one came."""

    def __len__(self) -> int:
        return len(self._is_waited_for)

    def takes(self, caller: Any) -> bool:
        """Whether a thread is to look at this caller, who said something or came just now."""
        with self._lock:
            if not caller.is_known:
                caller.is_known = True
                self.is_full = not self._has_room(caller.remote_addr)
                if self.is_full and not self._makes_room(caller.remote_addr):
                    return False
            elif caller not in self._is_waited_for:
                return False  # let go meanwhile
            self._is_waited_for[caller] = False
            return True

    def wait_for(self, caller: Any) -> None:
        """Nobody works for this caller until it says or takes something."""
        with self._lock:
            if caller in self._is_waited_for:
                self._is_waited_for[caller] = True

    def answered(self, caller: Any) -> None:
        """Who was answered just now is the last to go."""
        with self._lock:
            if caller in self._is_waited_for:
                self._is_waited_for[caller] = self._is_waited_for.pop(caller)

    def forget(self, caller: Any) -> None:
        with self._lock:
            self._is_waited_for.pop(caller, None)

    def let_some_go(self) -> None:
        """A tenth of those who are waited for: the system has no file left."""
        with self._lock:
            waited = self._waited()
            for caller in waited[: len(waited) // 10 + 1]:
                self._let_go(caller)

    def let_all_go(self) -> None:
        """The server ends: no thread is to wait for anybody any more."""
        with self._lock:
            for caller in tuple(self._is_waited_for):
                self._let_go(caller)

    def _has_room(self, address: str) -> bool:
        if len(self._is_waited_for) >= self._most:
            return False
        return ip_address(address).is_loopback or self._count()[address] < EACH

    def _makes_room(self, address: str) -> bool:
        """Of this address, where it has its share; else of the one that has most."""
        count = self._count()
        if ip_address(address).is_loopback or count[address] < EACH:
            address = count.most_common(1)[0][0]
        waited = [one for one in self._waited() if one.remote_addr == address]
        for caller in (waited or self._waited())[:1]:
            self._let_go(caller)
            return True
        return False

    def _count(self) -> Counter[str]:
        return Counter(one.remote_addr for one in self._is_waited_for)

    def _waited(self) -> list[Any]:
        return [one for one, is_waited_for in self._is_waited_for.items() if is_waited_for]

    def _let_go(self, caller: Any) -> None:
        del self._is_waited_for[caller]
        with suppress(OSError):  # it hung up itself
            socket.socket.shutdown(caller.socket, socket.SHUT_RDWR)


class Listening(socket.socket):
    """The socket of a door. Where the system has no file left, some callers go first."""

    server: Any

    def accept(self) -> tuple[socket.socket, Any]:
        try:
            return super().accept()
        except OSError as error:
            if error.errno not in NO_FILE_LEFT:
                raise
            self.server.say_rarely(f"No more callers can come in: {error.strerror}.")
        self.server.callers.let_some_go()
        time.sleep(PAUSE_S)
        raise TimeoutError
