"""Who only connects keeps nobody out, and fills no disk with what is said of it."""

import resource
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from types import SimpleNamespace

import pytest

from throwbench.web import callers
from throwbench.web.callers import EACH, Callers, most_callers
from throwbench.web.listening import free_port

FEW_FILES = "import resource; resource.setrlimit(resource.RLIMIT_NOFILE, ({n}, {n})); "
THROWBENCH = FEW_FILES.format(n=256) + "from throwbench.cli import main; main()"
WITHOUT_A_CAP = FEW_FILES.format(n=64) + (
    "import sys; from throwbench.web.callers import Callers;"
    "from throwbench.web.patience import PatientServer\n"
    "def hello(environ, start):\n"
    "    start('200 OK', [('Content-Length', '2')]); return [b'hi']\n"
    "at = ('127.0.0.1', int(sys.argv[1]))\n"
    "one = PatientServer(at, hello, numthreads=2, request_queue_size=128, "
    "callers=Callers(most=1000))\n"
    "one.prepare(); print('Ctrl-C stops it.', flush=True); one.serve()"
)


@contextmanager
def running(code: str, *words: str) -> Iterator[subprocess.Popen[str]]:
    process = subprocess.Popen(
        [sys.executable, "-c", code, *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    try:
        while "Ctrl-C stops it." not in process.stdout.readline():
            assert process.poll() is None
        yield process
    finally:
        process.kill()
        process.communicate()


def page_in_s(port: int) -> float:
    """How long a page takes for who calls now."""
    began = time.monotonic()
    with socket.create_connection(("127.0.0.1", port), timeout=10) as line:
        line.sendall(b"GET /sign-in/ HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
        assert line.recv(200).startswith(b"HTTP/1.1 200")
    return time.monotonic() - began


def words_at_the_end(process: subprocess.Popen[str]) -> str:
    process.terminate()
    return process.communicate(timeout=20)[0]


def stay_silent(lines: ExitStack, port: int, *, times: int) -> None:
    for _ in range(times):
        lines.enter_context(socket.create_connection(("127.0.0.1", port), timeout=10))


def test_more_silent_callers_than_files_keep_nobody_out(tmp_path: Path):
    port = free_port(0)
    words = ("start", str(tmp_path / "own"), "--no-browser", "--port", str(port))
    with running(THROWBENCH, *words) as process, ExitStack() as lines:
        stay_silent(lines, port, times=400)
        assert page_in_s(port) < 5
        stay_silent(lines, port, times=100)
        assert page_in_s(port) < 5
        said = words_at_the_end(process)
    assert said.count("Many callers at once") == 1
    assert "Traceback" not in said
    assert len(said.splitlines()) < 5


def test_where_the_system_has_no_file_left_silent_callers_go(tmp_path: Path):
    port = free_port(0)
    with running(WITHOUT_A_CAP, str(port)) as process, ExitStack() as lines:
        stay_silent(lines, port, times=120)
        assert page_in_s(port) < 10
        said = words_at_the_end(process)
    assert said.count("No more callers can come in: Too many open files.") == 1
    assert len(said.splitlines()) == 1


class Caller(SimpleNamespace):
    __hash__ = object.__hash__

    def __init__(self, address: str) -> None:
        self.socket, self.other = socket.socketpair()
        super().__init__(remote_addr=address, is_known=False)

    def is_gone(self) -> bool:
        self.other.settimeout(0)
        try:
            return self.other.recv(1) == b""
        except BlockingIOError:
            return False


@pytest.fixture
def comes() -> Iterator[object]:
    """Somebody comes to a door and says nothing."""
    there: list[Caller] = []

    def one(door: Callers, address: str) -> Caller:
        there.append(Caller(address))
        if door.takes(there[-1]):
            door.wait_for(there[-1])
        return there[-1]

    yield one
    for caller in there:
        caller.socket.close()
        caller.other.close()


def test_who_was_answered_least_lately_goes_first(comes):
    door = Callers(most=3)
    first, second, third = (comes(door, "10.0.0.1") for _ in range(3))
    door.answered(first)
    assert not door.is_full
    comes(door, "10.0.0.1")
    assert door.is_full
    assert [one.is_gone() for one in (first, second, third)] == [False, True, False]


def test_an_address_that_has_its_share_makes_room_for_itself(comes):
    door = Callers()
    other = comes(door, "10.0.0.2")
    many = [comes(door, "10.0.0.1") for _ in range(EACH + 1)]
    assert [one.is_gone() for one in many] == [True] + [False] * EACH
    assert not other.is_gone()


def test_at_a_full_door_the_address_with_most_callers_makes_room(comes):
    door = Callers(most=10)
    maker = comes(door, "127.0.0.1")
    many = [comes(door, "10.0.0.1") for _ in range(9)]
    comes(door, "10.0.0.2")
    assert many[0].is_gone()
    assert not maker.is_gone()


def test_this_machine_has_no_share_of_its_own(comes):
    door = Callers()
    assert not any(one.is_gone() for one in [comes(door, "127.0.0.1") for _ in range(EACH + 5)])


def test_who_is_worked_for_is_never_let_go(comes):
    door = Callers(most=2)
    busy = [comes(door, "10.0.0.1") for _ in range(2)]
    assert all(door.takes(one) for one in busy)
    late = comes(door, "10.0.0.3")
    assert not door.takes(late)
    assert not any(one.is_gone() for one in busy)


def test_who_was_let_go_is_not_taken_again(comes):
    door = Callers(most=1)
    first = comes(door, "10.0.0.1")
    comes(door, "10.0.0.1")
    assert not door.takes(first)


def test_a_low_limit_leaves_files_for_the_rest():
    assert most_callers(4096, doors=2) == callers.MOST
    assert most_callers(256, doors=1) == 156
    assert most_callers(256, doors=2) == 78


def test_the_limit_is_raised_as_far_as_the_system_allows():
    code = (
        "import resource; resource.setrlimit(resource.RLIMIT_NOFILE, (256, 900));"
        "from throwbench.web.callers import room_for_files;"
        "print(room_for_files(), resource.getrlimit(resource.RLIMIT_NOFILE))"
    )
    if resource.getrlimit(resource.RLIMIT_NOFILE)[1] < 900:
        raise AssertionError("this machine allows too few files for this test")
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "900 (900, 900)"
