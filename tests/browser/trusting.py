"""A workshop over https, and a browser that trusts it: by a real store of trust, as a phone has.

Nothing is told to overlook a certificate: what is not in the store is refused.
"""

import os
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Browser, BrowserContext, Page

from browser.conftest import CHROMIUM, PHONE, QUIET, free_port
from browser.fielding import NAME, Workshop, let_in

CONTROLLED = "() => navigator.serviceWorker.controller !== null"


@dataclass(slots=True, kw_only=True)
class Trusted(Workshop):
    """A server with both doors."""

    https_port: int

    @property
    def address(self) -> str:
        return f"https://{NAME}:{self.https_port}"

    @property
    def plain(self) -> str:
        return f"http://{NAME}:{self.port}"

    @property
    def authority(self) -> Path:
        return self.folder / "tls" / "authority.crt"


@contextmanager
def https_workshop(folder: Path) -> Iterator[Trusted]:
    """A demo that answers under a name of the network, over https and plain http."""
    port, https_port = free_port(), free_port()
    words = ("--no-browser", "--https", "--https-port", str(https_port))
    here = Trusted(folder=folder, port=port, https_port=https_port, words=words)
    here.all("update house_workshop set address = ?", here.plain)
    here.start()
    try:
        yield here
    finally:
        here.kill()


def trust(home: Path, *certificates: Path) -> Path:
    """A store of trust as Chromium reads it, under a home of its own."""
    store = home / ".pki" / "nssdb"
    store.mkdir(parents=True)
    database = f"sql:{store}"
    _certutil("-d", database, "-N", "--empty-password")
    for number, one in enumerate(certificates):
        _certutil("-d", database, "-A", "-t", "C,,", "-n", f"own {number}", "-i", str(one))
    return home


def _certutil(*words: str) -> None:
    subprocess.run(["certutil", *words], check=True, capture_output=True)


@contextmanager
def browser_of(
    driven: Browser, home: Path, *names: str, at: str | None = None
) -> Iterator[BrowserContext]:
    """A phone's browser with a profile that stays, whose store of trust is that of `home`.

    `driven` is any browser, whose driver starts this one too: a process has one driver.
    """
    rules = ", ".join(f"MAP {name} 127.0.0.1" for name in (NAME, *names))
    context = driven.browser_type.launch_persistent_context(
        home / "profile",
        executable_path=CHROMIUM,
        args=[*QUIET, f"--host-resolver-rules={rules}"],
        env={**os.environ, "HOME": str(home)},
        base_url=at,
        viewport=PHONE,
        has_touch=True,
        locale="en-GB",
    )
    context.set_default_timeout(60_000)
    yield context
    context.close()


def looked_after(phone: BrowserContext, here: Trusted, *name: str) -> Page:
    """A page of a phone that is let in, its worker at work."""
    page = phone.new_page()
    let_in(page, here, *name)
    page.wait_for_function(CONTROLLED, timeout=60_000)
    return page


def kept_pages(page: Page) -> dict[str, list[str]]:
    """Paths of the pages that the worker keeps, by whose they are."""
    found: dict[str, list[str]] = page.evaluate(
        """async () => {
            const kept = {};
            for (const name of await caches.keys()) {
                if (!name.startsWith("throwbench-pages-")) continue;
                const pages = await (await caches.open(name)).keys();
                kept[name] = pages.map((one) => new URL(one.url).pathname).sort();
            }
            return kept;
        }"""
    )
    return found


def wait_until_kept(page: Page, *paths: str, within_s: float = 30) -> None:
    ends = time.monotonic() + within_s
    while missing := set(paths) - {path for kept in kept_pages(page).values() for path in kept}:
        assert time.monotonic() < ends, f"not kept: {missing}"
        page.wait_for_timeout(100)
