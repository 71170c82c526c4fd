"""A caller who drips is heard out for a limited time, and one who says too much is cut short."""

import socket
import time
from collections.abc import Iterator
from contextlib import ExitStack
from threading import Event, Thread

import pytest

from throwbench.web import patience
from throwbench.web.patience import LONGEST_HEAD, PatientServer

THREADS = 2
HEAD = b"GET / HTTP/1.1\r\nHost: localhost\r\n"


def echo(environ, start):
    body = environ["wsgi.input"].read(int(environ.get("CONTENT_LENGTH") or 0))
    start("200 OK", [("Content-Length", str(len(body)))])
    return [body]


@pytest.fixture
def port(monkeypatch) -> Iterator[int]:
    """A server of two threads that waits half a second in all."""
    monkeypatch.setattr(patience, "WAITS_S", 0.5)
    server = PatientServer(("127.0.0.1", 0), echo, numthreads=THREADS, request_queue_size=64)
    server.prepare()
    thread = Thread(target=server.serve)
    thread.start()
    yield server.bind_addr[1]
    server.stop()
    thread.join()


def call(port: int) -> socket.socket:
    return socket.create_connection(("127.0.0.1", port), timeout=10)


def status(line: socket.socket) -> int:
    return int(line.recv(4096).split()[1])


def drip_for(line: socket.socket, *, seconds: float) -> None:
    ends = time.monotonic() + seconds
    while time.monotonic() < ends:
        time.sleep(0.1)
        line.sendall(b"X-More: yes\r\n")


def test_callers_who_drip_do_not_keep_others_out(port):
    stop = Event()
    with ExitStack() as lines:
        dripping = [lines.enter_context(call(port)) for _ in range(THREADS)]

        def drip() -> None:
            while not stop.wait(0.1):
                for line in dripping:
                    try:
                        line.sendall(b"X-More: yes\r\n")
                    except OSError:
                        return

        for line in dripping:
            line.sendall(HEAD)
        drips = Thread(target=drip)
        drips.start()
        time.sleep(0.2)
        began = time.monotonic()
        with call(port) as other:
            other.sendall(HEAD + b"\r\n")
            assert status(other) == 200
        assert time.monotonic() - began < 5
        stop.set()
        drips.join()


def test_who_says_nothing_or_half_a_head_takes_no_thread(port):
    with ExitStack() as lines:
        for said in (b"", b"G", HEAD) * THREADS * 2:
            lines.enter_context(call(port)).sendall(said)
        began = time.monotonic()
        with call(port) as other:
            other.sendall(HEAD + b"\r\n")
            assert status(other) == 200
        assert time.monotonic() - began < 0.4


def test_who_drips_is_hung_up_on(port):
    with call(port) as line:
        line.sendall(HEAD)
        with pytest.raises(OSError, match=r"Broken pipe|reset"):
            drip_for(line, seconds=5)


def test_a_body_that_does_not_come_is_not_waited_for_long(port):
    with call(port) as line:
        line.sendall(b"POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 4\r\n\r\na")
        assert status(line) == 408


def test_two_requests_at_once_are_both_answered(port):
    with call(port) as line:
        line.sendall((HEAD + b"\r\n") * 2)
        began, told = time.monotonic(), b""
        while told.count(b"200 OK") < 2 and time.monotonic() - began < 5:
            told += line.recv(4096)
        assert told.count(b"200 OK") == 2


def test_a_head_in_single_bytes_is_read(port):
    with call(port) as line:
        for sign in b"GET / HTTP/1.1\r\n\r\n":
            line.sendall(bytes([sign]))
            time.sleep(0.005)
        assert status(line) == 200


def test_a_long_body_that_comes_steadily_is_heard_out(port):
    """Longer than the wait in all, since what comes adds to it."""
    part, parts = b"a" * 4_000, 12
    with call(port) as line:
        line.sendall(b"POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 48000\r\n\r\n")
        for _ in range(parts):
            time.sleep(0.1)
            line.sendall(part)
        assert status(line) == 200


def test_the_next_request_of_a_caller_has_its_own_time(port):
    with call(port) as line:
        for _ in range(3):
            line.sendall(HEAD)
            time.sleep(0.3)
            line.sendall(b"\r\n")
            assert status(line) == 200


def test_a_head_without_end_is_not_received(port):
    with call(port) as line:
        line.sendall(HEAD + b"X-Long: " + b"a" * (LONGEST_HEAD + 256))
        assert status(line) == 413
