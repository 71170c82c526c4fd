"""Who takes an answer slowly holds no thread, and is not waited for without end."""

import socket
import time
from collections.abc import Iterator
from contextlib import ExitStack
from threading import Event, Thread

import pytest

from throwbench.web import saying
from throwbench.web.patience import PatientServer

THREADS = 2
ASK = b"GET /%d HTTP/1.1\r\nHost: localhost\r\n\r\n"
LONG = 400 * 1024
LONGER = 8 * 1024 * 1024
"""More than waits in memory, and than the system takes."""


def answer(environ, start):
    length = int(environ["PATH_INFO"].strip("/"))
    start("200 OK", [("Content-Length", str(length))])
    return [b"a" * 4096] * (length // 4096)


@pytest.fixture
def server() -> Iterator[PatientServer]:
    server = PatientServer(("127.0.0.1", 0), answer, numthreads=THREADS, request_queue_size=64)
    server.prepare()
    thread = Thread(target=server.serve)
    thread.start()
    yield server
    server.stop()
    thread.join()


@pytest.fixture
def port(server) -> int:
    # What the system takes for a caller is little here, as it is on a network.
    server.socket.setsockopt(socket.SOL_SOCKET, socket.SO_SNDBUF, 8192)
    return server.bind_addr[1]


def call(port: int) -> socket.socket:
    line = socket.socket()
    line.settimeout(10)
    line.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 2048)
    line.connect(("127.0.0.1", port))
    return line


def taken(line: socket.socket) -> int:
    """All bytes until the other side hangs up."""
    count = 0
    try:
        while part := line.recv(65536):
            count += len(part)
    except ConnectionError:
        pass
    return count


def a_page_comes_in_s(port: int) -> float:
    began = time.monotonic()
    with call(port) as line:
        line.sendall(ASK % 4096)
        assert line.recv(4096).startswith(b"HTTP/1.1 200")
    return time.monotonic() - began


def test_slow_readers_with_many_requests_keep_nobody_out(port):
    stop = Event()
    with ExitStack() as lines:
        slow = [lines.enter_context(call(port)) for _ in range(8)]
        for line in slow:
            line.sendall((ASK % LONG) * 60)

        def sip() -> None:
            while not stop.wait(0.2):
                for line in slow:
                    line.recv(600)

        sips = Thread(target=sip)
        sips.start()
        time.sleep(0.5)
        try:
            assert max(a_page_comes_in_s(port) for _ in range(5)) < 3
        finally:
            stop.set()
            sips.join()


def test_an_answer_taken_slowly_arrives_whole_and_the_next_one_too(port):
    with call(port) as line:
        line.sendall((ASK % LONG) * 2)
        line.sendall(b"GET /4096 HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
        time.sleep(0.3)
        came = b""
        while part := line.recv(4096):
            came += part
    assert came.count(b"200 OK") == 3
    assert came.count(b"aaaa") * 4 >= 2 * LONG + 4096


@pytest.mark.parametrize("length", [LONG, LONGER])
def test_who_takes_nothing_is_hung_up_on(port, length, monkeypatch):
    monkeypatch.setattr(saying, "WAITS_S", 0.3)
    monkeypatch.setattr(saying, "LEAST_PER_S", 10_000_000)
    with call(port) as line:
        line.sendall(ASK % length)
        time.sleep(2)
        assert taken(line) < length


def test_who_takes_a_long_answer_steadily_gets_all_of_it(port, monkeypatch):
    """Longer than the wait in all, since what there is to say adds to it."""
    monkeypatch.setattr(saying, "WAITS_S", 0.2)
    monkeypatch.setattr(saying, "LEAST_PER_S", 4_000_000)
    with call(port) as line:
        line.sendall(b"GET /%d HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n" % LONGER)
        assert taken(line) > LONGER


def test_who_hangs_up_in_the_middle_of_an_answer_leaves_nothing_behind(server, port):
    for _ in range(20):
        with call(port) as line:
            line.sendall(ASK % LONG)
            line.recv(10)
    time.sleep(0.6)
    assert len(server.callers) == 0
    assert a_page_comes_in_s(port) < 1


def test_the_server_ends_while_somebody_takes_nothing(server, port):
    server.shutdown_timeout = 0.5
    with ExitStack() as lines:
        for length in (LONG, LONGER, LONGER):
            lines.enter_context(call(port)).sendall(ASK % length)
        time.sleep(0.5)
        began = time.monotonic()
        server.stop()
        assert time.monotonic() - began < 5
