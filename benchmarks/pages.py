"""Every page at ten years' size: the slowest in twenty, start-up to the first page, and memory.

    ./run bench pages [--requests 60] [--json] [--keep]

Targets: each page's 95th percentile under 100 ms on two cores, start-up to the first page under
2 s, memory under 300 MB. The peer of the same run is the plainest page, "how to sign in".
"""

import argparse
import http.cookiejar
import json
import os
import re
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.parse
import urllib.request
from dataclasses import asdict, dataclass
from html.parser import HTMLParser
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

from kept import keep

RESULTS = Path(__file__).parent / "results" / "pages.json"
THROWBENCH = (sys.executable, "-c", "from throwbench.cli import main; main()")
PEER = "/sign-in/"
TARGET_MS, TARGET_START_S, TARGET_MB = 100.0, 2.0, 300.0
WARM_UP = 3
NOT_YET = 409
"""A sheet with a square code is refused until the workshop's address is set."""


@dataclass(frozen=True)
class Page:
    """One named page: middle and 95th percentile [ms], and its size [kB]."""

    name: str
    path: str
    middle_ms: float
    p95_ms: float
    size_kb: float


class _Links(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.fields: dict[str, str] = {}

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        if tag == "a" and told.get("href"):
            self.found.append(told["href"] or "")
        if tag == "input" and told.get("name") and told.get("value"):
            self.fields[told["name"] or ""] = told["value"] or ""


class Visitor:
    """A browser without a window: cookies, links, and the time an answer takes."""

    def __init__(self, address: str) -> None:
        self.address = address
        jar = urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar())
        self.opener = urllib.request.build_opener(jar)

    def get(self, path: str) -> tuple[bytes, float, str]:
        begins = time.perf_counter()
        with self.opener.open(self.address + path, timeout=30) as answer:
            body = answer.read()
            kind = answer.headers.get_content_type()
        return body, (time.perf_counter() - begins) * 1000, kind

    def sign_in(self, link: str) -> None:
        body, _, _ = self.get(link)
        fields = _read(body).fields
        data = urllib.parse.urlencode(fields).encode()
        request = urllib.request.Request(
            f"{self.address}/sign-in-now/", data, {"Origin": self.address}
        )
        self.opener.open(request, timeout=30).close()


def _read(body: bytes) -> _Links:
    links = _Links()
    links.feed(body.decode())
    return links


def fill(folder: Path) -> dict[str, int]:
    """The demo, and ten years beside it."""
    subprocess.run(
        [*THROWBENCH, "demo", str(folder), "--no-serve"], check=True, stdout=subprocess.DEVNULL
    )
    code = (
        "import json, sys; from dataclasses import asdict; from pathlib import Path;"
        "from throwbench.web.folder import Folder; from throwbench.web.server import open_folder;"
        f"open_folder(Folder(Path({str(folder)!r})));"
        "from ten_years import ten_years; print(json.dumps(asdict(ten_years())))"
    )
    said = subprocess.run(
        [sys.executable, "-c", code],
        check=True,
        capture_output=True,
        text=True,
        cwd=Path(__file__).parent,
    ).stdout
    counts: dict[str, int] = json.loads(said.splitlines()[-1])
    return counts


def start(folder: Path) -> tuple["subprocess.Popen[bytes]", str, float]:
    """A server on the folder, its address, and the seconds to its first page."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    address = f"http://127.0.0.1:{port}"
    begins = time.perf_counter()
    process = subprocess.Popen(
        [*THROWBENCH, "demo", str(folder), "--no-browser", "--port", str(port)],
        stdout=subprocess.DEVNULL,
    )
    while process.poll() is None:
        try:
            urllib.request.urlopen(address + PEER, timeout=5).close()
        except OSError:
            time.sleep(0.01)
        else:
            return process, address, time.perf_counter() - begins
    raise SystemExit("the server ended before its first page")


def link_for(folder: Path) -> str:
    said = subprocess.run(
        [*THROWBENCH, "sign-in", str(folder)], check=True, capture_output=True, text=True
    ).stdout
    found = re.search(r"/sign-in/\S+", said)
    assert found, said
    return found[0]


def named_pages(visitor: Visitor) -> dict[str, str]:
    """One address per named page, by following links from the first."""
    import django  # noqa: PLC0415

    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "throwbench.web.settings")
    django.setup()
    from django.urls import Resolver404, resolve  # noqa: PLC0415 (needs the settings)

    found: dict[str, str] = {}
    seen: set[str] = set()
    waiting = ["/", PEER]
    while waiting:
        path = urllib.parse.urlsplit(waiting.pop(0)).path
        try:
            name = resolve(path).view_name
        except Resolver404:
            continue
        if name in seen:
            continue
        seen.add(name)
        try:
            body, _, kind = visitor.get(path)
        except urllib.error.HTTPError as error:
            if error.code != NOT_YET:
                raise
            continue
        if kind == "text/html":
            found[name] = path
            waiting += [
                urllib.parse.urljoin(path, link)
                for link in _read(body).found
                if not link.startswith(("http", "#", "mailto"))
            ]
    return found


def timed(visitor: Visitor, name: str, path: str, requests: int) -> Page:
    for _ in range(WARM_UP):
        body, _, _ = visitor.get(path)
    times = [visitor.get(path)[1] for _ in range(requests)]
    return Page(
        name=name,
        path=path,
        middle_ms=round(median(times), 1),
        p95_ms=round(quantiles(times, n=20)[-1], 1),
        size_kb=round(len(body) / 1000, 1),
    )


def memory_mb(pid: int) -> float:
    status = Path(f"/proc/{pid}/status").read_text()
    found = re.search(r"VmHWM:\s+(\d+) kB", status)
    assert found, status
    return int(found[1]) / 1000


def measure(requests: int) -> dict[str, object]:
    with TemporaryDirectory() as place:
        folder = Path(place) / "demo"
        counts = fill(folder)
        process, address, start_s = start(folder)
        try:
            visitor = Visitor(address)
            visitor.sign_in(link_for(folder))
            pages = [timed(visitor, *page, requests) for page in named_pages(visitor).items()]
            peak_mb = memory_mb(process.pid)
        finally:
            process.terminate()
            process.wait(20)
    peer = next(page for page in pages if page.path == PEER)
    return {
        "rows": counts,
        "requests": requests,
        "start_s": round(start_s, 2),
        "peak_mb": round(peak_mb),
        "pages": [
            {**asdict(page), "to_peer": round(page.middle_ms / peer.middle_ms, 1)}
            for page in sorted(pages, key=lambda page: -page.p95_ms)
        ],
    }


def say(result: dict[str, object]) -> None:
    print(f"rows: {result['rows']}")
    print(f"start-up to the first page: {result['start_s']} s (target {TARGET_START_S:g} s)")
    print(f"memory at most: {result['peak_mb']} MB (target {TARGET_MB:g} MB)")
    print(f"each page, {result['requests']} requests; target p95 under {TARGET_MS:g} ms:")
    for page in result["pages"]:  # type: ignore[attr-defined]
        late = "" if page["p95_ms"] < TARGET_MS else "  OVER THE TARGET"
        print(
            f"  {page['name']:<28} p95 {page['p95_ms']:6.1f} ms  middle {page['middle_ms']:6.1f} ms"
            f"  {page['to_peer']:4.1f} x the plainest page{late}"
        )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--requests", type=int, default=60)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--keep", action="store_true")
    told = parser.parse_args()
    result = measure(told.requests)
    if told.keep:
        keep(RESULTS, result)
    if told.json:
        print(json.dumps(result, indent=1))
    else:
        say(result)


if __name__ == "__main__":
    main()
