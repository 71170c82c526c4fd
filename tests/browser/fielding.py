"""A workshop on the home network, as a phone sees it: by name, over plain http, there or not.

On 127.0.0.1 a browser allows itself everything, so the plain world is met under a name.
"""

import json
import os
import signal
import sqlite3
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.conftest import PHONE, THROWBENCH, WAIT_S, free_port, one_time_link

NAME = "workshop.test"
STORE = "/static/field/store.js"
READY = "html[data-queue='ready']"
expect.set_options(timeout=30_000)


@dataclass(slots=True, kw_only=True)
class Workshop:
    """A server that can be ended and started again at the same address."""

    folder: Path
    port: int
    scheme: str = "http"
    words: Sequence[str] = ("--no-browser",)
    process: subprocess.Popen[str] | None = field(default=None)
    shown: list[str] = field(default_factory=list)
    """The one-time links that were handed out already."""

    @property
    def address(self) -> str:
        return f"{self.scheme}://{NAME}:{self.port}"

    @property
    def window(self) -> Path:
        """What the server said in its window."""
        return self.folder.with_name(f"{self.folder.name}.window")

    def start(self) -> None:
        with self.window.open("w") as out:
            self.process = subprocess.Popen(
                [*THROWBENCH, "demo", str(self.folder), *self.words, "--port", str(self.port)],
                stdout=out,
                stderr=subprocess.DEVNULL,
                text=True,
                env={**os.environ, "PYTHONUNBUFFERED": "1"},
            )
        ends = time.monotonic() + WAIT_S
        while not self._answers():
            assert self.process.poll() is None, "the server ended"
            assert time.monotonic() < ends, "the server did not answer"
            time.sleep(0.1)

    def kill(self) -> None:
        """As if the power were cut."""
        if self.process is not None:
            self.process.send_signal(signal.SIGKILL)
            self.process.wait(10)
            self.process = None

    def link(self, *name: str) -> str:
        """A new one-time link, on the network's name."""
        return self.address + one_time_link(self.folder, self.window, self.shown, *name)

    def all(self, query: str, *values: object) -> list[tuple[Any, ...]]:
        """Rows as they stand in the database."""
        with closing(sqlite3.connect(self.folder / "workshop.sqlite3", timeout=20)) as base, base:
            return base.execute(query, values).fetchall()

    def one(self, query: str, *values: object) -> Any:
        return self.all(query, *values)[0][0]

    def end_sign_ins(self) -> None:
        self.all("delete from django_session")

    def _answers(self) -> bool:
        try:
            urllib.request.urlopen(f"http://127.0.0.1:{self.port}/sign-in/", timeout=2).close()
        except urllib.error.HTTPError:
            return True
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            return False
        return True


@contextmanager
def plain_workshop(folder: Path) -> Iterator[Workshop]:
    """A demo that answers under a name of the network, over plain http."""
    here = Workshop(folder=folder, port=free_port())
    here.all("update house_workshop set address = ?", here.address)
    here.start()
    try:
        yield here
    finally:
        here.kill()


def phone(browser: Browser, here: Workshop) -> BrowserContext:
    """A browser of its own, that touches."""
    context = browser.new_context(
        viewport=PHONE, has_touch=True, is_mobile=True, base_url=here.address, locale="en-GB"
    )
    context.set_default_timeout(60_000)
    return context


def let_in(page: Page, here: Workshop, *name: str) -> None:
    page.goto(here.link(*name))
    page.get_by_role("button", name="Let this browser in").click()
    # The page with the button has a queue at work, too: wait for the one behind it.
    page.wait_for_url(lambda url: "/sign-in/" not in url)
    page.wait_for_selector(READY)


def opened(page: Page, path: str) -> None:
    """A page with its queue at work."""
    page.goto(path)
    page.wait_for_selector(READY)


def kept_here(page: Page) -> list[dict[str, Any]]:
    """The rows of the browser's own store, by turn."""
    rows = page.evaluate(f"import('{STORE}').then(async (store) => await store.rows())")
    return [{**row, "told": json.loads(row["text"])} for row in rows]


def how_many(page: Page) -> int:
    """How many rows the browser's own store has."""
    count: int = page.evaluate(f"import('{STORE}').then(async (store) => await store.count())")
    return count


def wait_until_empty(page: Page, *, within_s: float = 60) -> None:
    """Until the workshop has all that this browser kept."""
    ends = time.monotonic() + within_s
    while how_many(page):
        assert time.monotonic() < ends, f"these wait still: {kept_here(page)[:3]}"
        page.wait_for_timeout(100)


def press(page: Page) -> None:
    """The one big button of the burn round."""
    page.get_by_role("button", name="Seen, no change").click()


def note_of(page: Page) -> str:
    """What is said beside the button, once it is said."""
    note = page.locator(".entry-note", has_text="Noted on this")
    note.wait_for()
    return note.inner_text()


def say_of(page: Page, words: str) -> None:
    """The tray says these words."""
    page.locator("[data-tray]", has_text=words).wait_for()
