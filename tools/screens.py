"""Make the screenshots of the README: `.venv/bin/python tools/screens.py`, or `./run screens`.

Real Chromium against the real server, on a demo of its own that is built anew. The demo's clock
begins at the same minute each time, and each picture is taken within that minute, so the same code
gives the same pictures.
"""

import re
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from playwright.sync_api import Browser, Page, sync_playwright

IMAGES = Path(__file__).resolve().parents[1] / "docs" / "images"
THROWBENCH = Path(sys.executable).parent / "throwbench"
DAY = "2027-05-24"
MINUTE_S = 50
"""How long after the clock was set a picture may be taken."""
LAPTOP, PHONE = (1280, 1600), (360, 740)
QUIET = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run")


class Demo(NamedTuple):
    """A server, a link into it, and when its clock was set."""

    address: str
    link: str
    since: float


@contextmanager
def demo() -> Iterator[Demo]:
    """The demo, built in a folder that goes with the block, and served."""
    with TemporaryDirectory() as folder:
        place = f"{folder}/demo"
        subprocess.run([THROWBENCH, "demo", place, "--no-serve"], check=True, stdout=sys.stderr)
        since = time.monotonic()
        words = ["demo", place, "--on", DAY, "--no-browser", "--port", str(free_port())]
        with subprocess.Popen([THROWBENCH, *words], stdout=subprocess.PIPE, text=True) as server:
            try:
                assert server.stdout is not None
                link = next(filter(None, map(link_in, server.stdout)))
                yield Demo(link.partition("/sign-in/")[0], link, since)
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


def come_in(browser: Browser, at: Demo) -> str:
    """Spend the link; what lets other pages of the same person in."""
    page = browser.new_page()
    page.goto(at.link)
    page.get_by_role("button", name="Let this browser in").click()
    kept = page.context.cookies()
    page.context.close()
    return next(one["value"] for one in kept if one["name"] == "throwbench")


def window(browser: Browser, at: Demo, size: tuple[int, int], key: str, scale: float) -> Page:
    context = browser.new_context(
        base_url=at.address,
        viewport={"width": size[0], "height": size[1]},
        device_scale_factor=scale,
        color_scheme="light",
        reduced_motion="reduce",
        locale="en-GB",
    )
    context.add_cookies([{"name": "throwbench", "value": key, "url": at.address}])
    return context.new_page()


def take(page: Page, name: str, at: Demo) -> None:
    """Write what the window shows, while the demo's clock is still in its first minute."""
    page.evaluate("document.fonts.ready")
    if time.monotonic() - at.since > MINUTE_S:
        raise SystemExit(
            f"{name} came too late: the demo's clock has gone on. Call this again when the machine "
            "has less to do."
        )
    page.screenshot(path=IMAGES / f"{name}.png")
    print(f"docs/images/{name}.png")


def pictures(browser: Browser, at: Demo) -> None:
    key = come_in(browser, at)
    page = window(browser, at, LAPTOP, key, 1.25)
    page.goto("/trials/")
    page.get_by_role("link", name="Long Light").click()
    page.get_by_role("link", name="Verdict").click()
    take(page, "verdict-laptop", at)
    page = window(browser, at, PHONE, key, 2)
    page.goto("/")
    take(page, "today-phone", at)
    page.get_by_role("link", name="Hand the phone round").click()
    page.get_by_role("button", name="Hand the phone round").click()
    page.get_by_role("link", name="hand the phone round").click()
    page.get_by_role("button", name="Pernille").click()
    page.locator("ol.noses a").first.click()
    take(page, "score-phone", at)


def main() -> None:
    IMAGES.mkdir(parents=True, exist_ok=True)
    chromium = shutil.which("chromium")
    with demo() as at, sync_playwright() as play:
        browser = play.chromium.launch(executable_path=chromium, args=list(QUIET))
        pictures(browser, at)
        browser.close()


if __name__ == "__main__":
    main()
