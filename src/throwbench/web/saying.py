"""How an answer is said: who takes it slowly gets it by and by, and no thread waits meanwhile."""

import selectors
import socket
import ssl
import time
from collections.abc import Callable
from contextlib import suppress
from threading import Event, Lock, Thread
from typing import Any

WAITS_S = 10.0
"""In all, for one answer to be taken; what there is to say adds to it."""
LEAST_PER_S = 8_000
"""Bytes: a phone on a weak network takes more. Each so many of an answer add a second."""
MOST_LEFT = 512 * 1024
"""Bytes of an answer that wait in memory for their caller; for more of them its thread waits."""
AT_ONCE = 64 * 1024
LOOKS_EVERY_S = 0.25
NOT_NOW = (BlockingIOError, ssl.SSLWantWriteError)


class Said:
    """What is said to one caller: given to the system as it takes it, the rest is left."""

    def __init__(self, caller: socket.socket) -> None:
        self._caller, self._each_s = caller, caller.gettimeout()
        self.left = bytearray()
        self.bytes_written = 0
        self.begin()

    def begin(self) -> None:
        """From now on it is another answer."""
        self._words, self._waits_since = 0, 0.0

    def write(self, words: bytes) -> int:
        """Raises TimeoutError where the caller took too little for too long."""
        self.left += words
        self._words += len(words)
        self.bytes_written += len(words)
        self.say()
        while len(self.left) > MOST_LEFT:
            self._wait()
        return len(words)

    def say(self) -> None:
        """Give what is taken now. Raises OSError where the caller hung up."""
        self._caller.settimeout(0)
        try:
            while self.left:
                self._give()
        except NOT_NOW:
            self._waits_since = self._waits_since or time.monotonic()
        finally:
            self._caller.settimeout(self._each_s)

    def left_s(self) -> float:
        """How long this answer is still waited with."""
        waited_s = time.monotonic() - self._waits_since if self._waits_since else 0.0
        return WAITS_S + self._words / LEAST_PER_S - waited_s

    def _wait(self) -> None:
        left_s = self.left_s()
        if left_s <= 0:
            raise TimeoutError("timed out")
        self._caller.settimeout(left_s)
        try:
            self._give()
        except TimeoutError as error:
            raise TimeoutError("timed out") from error  # as cheroot knows it; TLS words it so not
        finally:
            self._caller.settimeout(self._each_s)

    def _give(self) -> None:
        del self.left[: self._caller.send(self.left[:AT_ONCE])]


class Sayer:
    """One thread that says what is left to all who take it slowly.

    `done` is called with each of them: everything was said, or it took too long.
    """

    def __init__(self, done: Callable[[Any], None]) -> None:
        self._done = done
        self._selector = selectors.DefaultSelector()
        self._lock = Lock()
        self._ended = Event()
        self._thread = Thread(target=self._run, name="sayer", daemon=True)
        self._thread.start()

    def take(self, caller: Any) -> None:
        with self._lock:
            self._selector.register(caller.socket, selectors.EVENT_WRITE, data=caller)

    def end(self) -> None:
        """Nothing more is said; whoever still waits is hung up on."""
        self._ended.set()
        self._thread.join()
        for caller in self._all():
            caller.wfile.left.clear()
            self._release(caller)
        self._selector.close()

    def _run(self) -> None:
        while not self._ended.is_set():
            for key, _ in self._selector.select(LOOKS_EVERY_S):
                self._go_on(key.data)
            for caller in self._all():
                if caller.wfile.left_s() <= 0:
                    self._release(caller)

    def _go_on(self, caller: Any) -> None:
        try:
            caller.wfile.say()
        except OSError:  # whoever called hung up: there is nobody to tell
            self._release(caller)
        else:
            if not caller.wfile.left:
                self._release(caller)

    def _all(self) -> list[Any]:
        with self._lock:
            return [key.data for key in self._selector.get_map().values()]

    def _release(self, caller: Any) -> None:
        with self._lock:
            self._selector.unregister(caller.socket)
        with suppress(OSError):  # it may have hung up in this moment
            self._done(caller)
