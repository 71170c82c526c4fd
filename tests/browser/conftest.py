"""Real Chromium against the real server process, each on a folder of its own."""

import fcntl
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

CHROMIUM = shutil.which("chromium") or "/usr/bin/chromium"
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)
THROWBENCH = (sys.executable, "-c", "from throwbench.cli import main; main()")
PHONE, LAPTOP = {"width": 360, "height": 740}, {"width": 1280, "height": 860}
WAIT_S = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """A server process, its folder, and a one-time link for its owner."""

    folder: Path
    address: str
    process: subprocess.Popen[str]
    window: Path
    """What the server said in its window."""
    shown: list[str]
    """The links that were handed out already."""

    def link(self, *name: str) -> str:
        """A one-time link: first the one in the server's window, then as the command prints it."""
        return self.address + one_time_link(self.folder, self.window, self.shown, *name)


def one_time_link(folder: Path, window: Path, shown: list[str], *name: str) -> str:
    """Its path. The owner's stands in the window of the server: no second program has to run."""
    said = "" if name else window.read_text()
    fresh = [one for one in re.findall(r"/sign-in/\S+", said) if one not in shown]
    if not fresh:
        said = called("sign-in", str(folder), *name).stdout
        fresh = re.findall(r"/sign-in/\S+", said)
    assert fresh, said
    shown.append(fresh[-1])
    return fresh[-1]


def called(*words: str) -> subprocess.CompletedProcess[str]:
    """Run the command line as a maker would."""
    return subprocess.run([*THROWBENCH, *words], capture_output=True, text=True, check=True)


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def serving(*words: str, folder: Path) -> Iterator[Served]:
    """A server of its own, ended with the block."""
    port, window = free_port(), folder.with_name(f"{folder.name}.window")
    with window.open("w") as out:
        process = subprocess.Popen(
            [*THROWBENCH, *words, "--port", str(port)],
            stdout=out,
            stderr=subprocess.STDOUT,
            text=True,
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
        )
    address = f"http://127.0.0.1:{port}"
    try:
        _wait_for(address, process, window)
        yield Served(folder=folder, address=address, process=process, window=window, shown=[])
    finally:
        process.send_signal(signal.SIGTERM)
        try:
            process.wait(20)
        finally:
            process.kill()
            process.wait()


def _wait_for(address: str, process: subprocess.Popen[str], window: Path) -> None:
    ends = time.monotonic() + WAIT_S
    while time.monotonic() < ends:
        if process.poll() is not None:
            pytest.fail(f"the server ended: {window.read_text()}")
        try:
            urllib.request.urlopen(f"{address}/sign-in/", timeout=2).close()
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            time.sleep(0.1)
        else:
            return
    pytest.fail("the server did not answer")


@pytest.fixture(scope="session")
def demo_made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo, built once through the command; tests work on copies.

    Of tests that run side by side the first builds it, and the others wait.
    """
    place = tmp_path_factory.getbasetemp()
    place = place.parent if "PYTEST_XDIST_WORKER" in os.environ else place
    folder, done = place / "made" / "demo", place / "made" / "done"
    done.parent.mkdir(exist_ok=True)
    with (place / "made" / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not done.exists():
            called("demo", str(folder), "--no-serve")
            done.touch()
    return folder


@pytest.fixture
def demo(demo_made: Path, tmp_path: Path) -> Iterator[Served]:
    """A demo to write in."""
    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)
    with serving("demo", str(folder), "--no-browser", folder=folder) as served:
        yield served


@pytest.fixture(scope="module")
def demo_to_read(demo_made: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """A demo that a module of tests only looks at."""
    folder = tmp_path_factory.mktemp("read") / "demo"
    shutil.copytree(demo_made, folder)
    with serving("demo", str(folder), "--no-browser", folder=folder) as served:
        yield served


@pytest.fixture
def empty(tmp_path: Path) -> Iterator[Served]:
    """A workshop that begins now."""
    folder = tmp_path / "workshop"
    with serving("start", str(folder), "--no-browser", folder=folder) as served:
        yield served


@pytest.fixture
def empty_and_open(tmp_path: Path) -> Iterator[Served]:
    """A workshop that begins now and that the network may reach."""
    folder = tmp_path / "workshop"
    with serving("start", str(folder), "--lan", "--no-browser", folder=folder) as served:
        yield served


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as play:
        chromium = play.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        yield chromium
        chromium.close()


@pytest.fixture
def on_plain_http(demo_made: Path, tmp_path: Path) -> Iterator[object]:
    """A demo that answers under a name of the network, where a browser allows itself little."""
    from browser import fielding  # noqa: PLC0415 (it begins with what stands above)

    folder = tmp_path / "demo"
    shutil.copytree(demo_made, folder)
    with fielding.plain_workshop(folder) as workshop:
        yield workshop


@pytest.fixture(scope="module")
def phones(browser: Browser) -> Iterator[Browser]:
    """A browser that finds that name."""
    rule = "--host-resolver-rules=MAP workshop.test 127.0.0.1"
    chromium = browser.browser_type.launch(executable_path=CHROMIUM, args=[*QUIET, rule])
    yield chromium
    chromium.close()


Opened = Callable[..., Page]


@pytest.fixture
def open_page(browser: Browser) -> Iterator[Opened]:
    """Open a browser of its own: `open_page(served, PHONE, scripts=False)`, owner signed in."""
    contexts = []

    def opened(
        served: Served,
        size: dict[str, int] = LAPTOP,
        *,
        scripts: bool = True,
        dark: bool = False,
        signed_in: bool = True,
    ) -> Page:
        context = browser.new_context(
            viewport=size,
            java_script_enabled=scripts,
            color_scheme="dark" if dark else "light",
            base_url=served.address,
            locale="en-GB",
        )
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(15_000)
        if signed_in:
            page.goto(served.link())
            page.get_by_role("button", name="Let this browser in").click()
        return page

    yield opened
    for context in contexts:
        context.close()
