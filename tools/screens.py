"""Make the screenshots of the README: `.venv/bin/python tools/screens.py`, or `./run screens`.

Real Chromium against the real server, on a demo of its own that is built anew. The server's clock
stands still at the demo's morning, so the same code gives the same pictures.
"""

import re
import shutil
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from playwright.sync_api import Browser, Page, StorageState, sync_playwright

from throwbench.demo.workshop.times import MORNING
from throwbench.web.folder import Folder

IMAGES = Path(__file__).resolve().parents[1] / "docs" / "images"
THROWBENCH = Path(sys.executable).parent / "throwbench"
SERVER = f"""
from datetime import datetime
from django.utils import timezone
timezone.now = lambda: datetime.fromisoformat("{MORNING.isoformat()}")
from throwbench.cli import main
main()
"""
"""The command line, with a clock that stands still."""
LAPTOP, PHONE = (1280, 1600), (360, 740)
QUIET = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run")


class Demo(NamedTuple):
    """A server, and a link into it."""

    address: str
    link: str


@contextmanager
def demo() -> Iterator[Demo]:
    """The demo, built in a folder that goes with the block, and served."""
    with TemporaryDirectory() as folder:
        place = f"{folder}/demo"
        subprocess.run([THROWBENCH, "demo", place, "--no-serve"], check=True, stdout=sys.stderr)
        Folder(Path(place)).set_demo_time(MORNING, now=MORNING)
        call = [sys.executable, "-c", SERVER, "serve", place, "--port", str(free_port())]
        with subprocess.Popen(call, stdout=subprocess.PIPE, text=True) as server:
            try:
                assert server.stdout is not None
                link = next(filter(None, map(link_in, server.stdout)))
                yield Demo(link.partition("/sign-in/")[0], link)
            finally:
                server.terminate()


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def link_in(line: str) -> str:
    """The one-time link in a line of the server's; empty where there is none."""
    found = re.search(r"http\S+/sign-in/\S+", line)
    return found[0] if found else ""


def come_in(browser: Browser, at: Demo) -> StorageState:
    """Spend the link; what lets other pages of the same person in."""
    page = browser.new_page()
    page.goto(at.link)
    page.get_by_role("button", name="Let this browser in").click()
    kept = page.context.storage_state()
    page.context.close()
    return kept


def window(
    browser: Browser, at: Demo, size: tuple[int, int], key: StorageState, scale: float
) -> Page:
    context = browser.new_context(
        base_url=at.address,
        viewport={"width": size[0], "height": size[1]},
        device_scale_factor=scale,
        color_scheme="light",
        reduced_motion="reduce",
        locale="en-GB",
        storage_state=key,
    )
    return context.new_page()


def take(page: Page, name: str) -> None:
    """Write what the window shows."""
    page.evaluate("document.fonts.ready")
    page.screenshot(path=IMAGES / f"{name}.png")
    print(f"docs/images/{name}.png")


def pictures(browser: Browser, at: Demo) -> None:
    key = come_in(browser, at)
    page = window(browser, at, LAPTOP, key, 1.25)
    page.goto("/trials/")
    page.get_by_role("link", name="Long Light").click()
    page.get_by_role("link", name="Verdict").click()
    take(page, "verdict-laptop")
    page = window(browser, at, PHONE, key, 2)
    page.goto("/")
    take(page, "today-phone")
    page.get_by_role("link", name="Hand the phone round").click()
    page.get_by_role("button", name="Hand the phone round").click()
    page.locator("main a").click()
    page.get_by_role("button", name="Pernille").click()
    page.locator("ol.noses a").first.click()
    take(page, "score-phone")


def main() -> None:
    IMAGES.mkdir(parents=True, exist_ok=True)
    chromium = shutil.which("chromium")
    with demo() as at, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=chromium, args=list(QUIET))
        pictures(browser, at)
        browser.close()


if __name__ == "__main__":
    main()
