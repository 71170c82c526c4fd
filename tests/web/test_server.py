"""The real server as a process: one a folder, closed to the network, ended cleanly."""

import re
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from throwbench.web.folder import Folder
from throwbench.web.listening import doors, free_port

THROWBENCH = [sys.executable, "-c", "from throwbench.cli import main; main()"]


class Window:
    """What a server has written into its window until now."""

    def __init__(self, process: subprocess.Popen[str]) -> None:
        self.process = process
        self.text = ""

    def until(self, words: str) -> str:
        assert self.process.stdout is not None
        while words not in self.text:
            line = self.process.stdout.readline()
            assert line, f"the server ended before it said {words!r}: {self.text}"
            self.text += line
        return self.text

    @property
    def address(self) -> str:
        return re.search(r" at (http://\S+)", self.text)[1]

    @property
    def link(self) -> str:
        return re.search(r"http://\S+/sign-in/\S+", self.text)[0]


@contextmanager
def serving(*words: str) -> Iterator[Window]:
    process = subprocess.Popen(
        [*THROWBENCH, *words], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    window = Window(process)
    try:
        window.until("Ctrl-C stops it.")
        yield window
    finally:
        process.kill()
        process.communicate()


def any_port() -> tuple[str, str]:
    return "--port", str(free_port(0))


def called(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([*THROWBENCH, *words], check=False, capture_output=True, text=True)


def answers(address: str, *, host: str | None = None) -> int:
    request = urllib.request.Request(address, headers={"Host": host} if host else {})
    try:
        with urllib.request.urlopen(request, timeout=5) as answer:
            return int(answer.status)
    except urllib.error.HTTPError as error:
        return error.code


def opened(address: str) -> tuple[str, str]:
    """The address and the text that a browser ends at."""
    browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
    with browser.open(address, timeout=5) as page:
        return page.url, page.read().decode()


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "workshop"


@contextmanager
def busy_port() -> Iterator[int]:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield int(other.getsockname()[1])


def test_start_makes_a_workshop_and_lets_its_owner_in(place):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        assert Folder(place).database.is_file()
        url, page = opened(window.link)
        assert url == f"{window.address}/sign-in-now/"
        assert "You come in as <strong>The maker</strong>" in page


def test_start_opens_a_browser_with_the_link(place, tmp_path, monkeypatch):
    seen = tmp_path / "seen"
    browser = tmp_path / "browser"
    browser.write_text(f'#!/bin/sh\nprintf %s "$1" > {seen}.new && mv {seen}.new {seen}\n')
    browser.chmod(0o755)
    monkeypatch.setenv("BROWSER", str(browser))
    with serving("start", str(place), *any_port()) as window:
        for _ in range(100):
            if seen.exists():
                break
            time.sleep(0.1)
        assert seen.read_text() == window.link


@pytest.mark.parametrize("end", [signal.SIGTERM, signal.SIGINT])
def test_it_ends_cleanly_when_it_is_asked_to(place, end):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        window.process.send_signal(end)
        rest, _ = window.process.communicate(timeout=10)
        assert window.process.returncode == 0
        assert rest == "Stopped. Everything noted is in the folder.\n"
    with Folder(place).lock():
        pass


def test_once_it_has_ended_one_file_holds_all(place, tmp_path):
    """A copy of the database alone is a copy of the notes."""
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        window.process.send_signal(signal.SIGTERM)
        window.process.communicate(timeout=10)
    database = Folder(place).database
    beside = database.with_name(f"{database.name}-wal")
    assert not beside.exists() or not beside.stat().st_size
    copy = shutil.copy(database, tmp_path / "alone.sqlite3")
    with closing(sqlite3.connect(copy)) as alone:
        assert alone.execute("select count(*) from house_person").fetchone() == (1,)


@pytest.mark.parametrize("end", [signal.SIGINT, signal.SIGTERM])
def test_who_asks_it_to_end_again_and_again_does_not_break_that_off(place, end):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        process = window.process
        for _ in range(20):
            process.send_signal(end)
            time.sleep(0.02)
            if process.poll() is not None:
                break
        assert process.wait(15) in (0, -end)


def test_a_second_server_on_a_folder_gets_one_sentence_and_exit_2(place):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        second = called("serve", str(place))
        assert second.returncode == 2
        assert second.stdout == ""
        assert (
            f"is open already (process {window.process.pid} at {window.address})" in second.stderr
        )
        assert len(second.stderr.splitlines()) == 1


def test_serve_opens_what_is_there_and_makes_nothing(place):
    done = called("serve", str(place))
    assert done.returncode == 2
    assert "Call `throwbench start FOLDER` first" in done.stderr
    assert not place.exists()


def test_a_port_asked_for_is_taken_or_refused(place):
    Folder(place).make()
    with busy_port() as port:
        done = called("serve", str(place), "--port", str(port))
    assert done.returncode == 2
    assert f"Port {port} is in use" in done.stderr


def test_a_busy_port_that_nobody_asked_for_gives_way(monkeypatch):
    with busy_port() as port:
        assert free_port(port) != port
    assert free_port(port) == port


def test_a_server_says_that_its_usual_port_was_in_use(place):
    with socket.socket() as other:
        try:
            other.bind(("127.0.0.1", 8650))
            other.listen()
        except OSError:
            pass  # somebody holds it already, which is what this needs
        with serving("start", str(place), "--no-browser") as window:
            assert "Port 8650 is in use, so this server took" in window.text
            assert answers(f"{window.address}/sign-in/") == 200


def test_closed_it_listens_on_this_machine_only(place):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        assert "Only this machine can reach it" in window.text
        assert answers(f"{window.address}/sign-in/") == 200
        assert answers(f"{window.address}/sign-in/", host="boat-shed.example") == 400


def test_open_it_says_what_it_exposes_and_where(place):
    with serving(
        "start", str(place), "--no-browser", "--lan", "--port", str(free_port(0))
    ) as window:
        assert "Every device on this network can now reach" in window.text
        assert "not encrypted" in window.text
        assert f"http://{socket.gethostname()}:" in window.text
        host = f"{socket.gethostname()}.local"
        assert answers(f"{window.address}/sign-in/", host=host) == 200
        assert answers(f"{window.address}/sign-in/", host="elsewhere.example") == 400


def test_the_doors_are_closed_unless_they_are_opened():
    assert doors(port=8650, lan=False).from_the_network == ()
    assert doors(port=8650, lan=False).host == "127.0.0.1"
    open_doors = doors(port=8650, lan=True)
    assert open_doors.host == "0.0.0.0"
    assert all(address.endswith(":8650") for address in open_doors.from_the_network)
    assert not any("127.0.0.1" in address for address in open_doors.from_the_network)


def test_more_than_a_photo_is_not_received(place):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        window.until("/sign-in/")
        host, port = re.search(r"http://([\d.]+):(\d+)", window.text).groups()
        with socket.create_connection((host, int(port)), timeout=10) as line:
            head = f"POST /sign-in/ HTTP/1.1\r\nHost: {host}:{port}\r\n"
            line.sendall(f"{head}Content-Length: {25 * 1024 * 1024}\r\n\r\n".encode())
            assert b" 413 " in line.recv(200)


def test_a_made_up_name_is_refused_and_leaves_no_word_in_the_window(place):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        assert answers(window.address, host="elsewhere.example") == 400
        window.process.terminate()
        assert "elsewhere" not in window.process.stdout.read()


def test_sign_in_prints_a_link_to_the_open_server(place):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        done = called("sign-in", str(place))
        assert done.returncode == 0
        link = done.stdout.splitlines()[0]
        assert link.startswith(f"{window.address}/sign-in/")
        assert link != window.link
        assert "You come in as" in opened(link)[1]


def test_sign_in_for_nobody_names_who_is_there(place):
    with serving("start", str(place), "--no-browser", *any_port()):
        done = called("sign-in", str(place), "Åse")
    assert done.returncode == 2
    assert "Nobody named “Åse” is in this workshop. There are: The maker." in done.stderr


def test_sign_in_without_a_server_says_how_to_open_one(place):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        window.process.send_signal(signal.SIGTERM)
        window.process.wait(10)
    done = called("sign-in", str(place))
    assert "No server is open" in done.stdout


def test_sign_in_into_nothing_is_refused(tmp_path):
    done = called("sign-in", str(tmp_path))
    assert done.returncode == 2
    assert "There is no workshop in" in done.stderr


def test_the_token_is_not_in_the_servers_window(place):
    with serving("start", str(place), "--no-browser", *any_port()) as window:
        link = called("sign-in", str(place)).stdout.splitlines()[0]
        token = link.rstrip("/").rpartition("/")[2]
        assert token not in "".join(opened(link))
        window.process.send_signal(signal.SIGTERM)
        rest, _ = window.process.communicate(timeout=10)
    assert token not in window.text + rest
