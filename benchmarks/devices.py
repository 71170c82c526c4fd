"""Devices that send entries and forget one only when the workshop has said that it is kept.

A device here does what the page's own script does: it makes an entry, keeps its bytes, sends the
very same bytes until they are answered with their own id and digest, and then makes the next.
"""

import hashlib
import http.client
import json
import re
import time
import urllib.parse
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from html.parser import HTMLParser
from threading import Event, Thread
from typing import Any

PAUSE_S = 0.01
"""Between two attempts while nobody answers."""
HEAT_C, STEP_C = 20.0, 0.001
"""Each entry notes another temperature of its vessel, so that its check is known again."""
UNANSWERED = (OSError, http.client.HTTPException)


@dataclass(frozen=True, slots=True)
class Kept:
    """One entry as a device keeps it."""

    id: str
    body: bytes
    vessel_c: float

    @property
    def digest(self) -> str:
        return hashlib.sha256(self.body).hexdigest()


@dataclass(slots=True)
class Seen:
    """What the devices lived through. Lists and sets grow under Python's own lock."""

    made: list[Kept] = field(default_factory=list)
    acknowledged: dict[str, Kept] = field(default_factory=dict)
    kept_before: int = 0
    """Kept although the first answer was lost on its way."""
    broken_off: int = 0
    """Sent without an answer: nobody was there, or no longer."""
    other: list[str] = field(default_factory=list)
    """Answers that are none of these, whole."""


class Browser:
    """One connection with the cookies of a maker who is signed in."""

    def __init__(self, port: int, cookies: dict[str, str] | None = None) -> None:
        self.port, self.cookies = port, dict(cookies or {})
        self.line: http.client.HTTPConnection | None = None

    def ask(self, method: str, path: str, body: bytes = b"", **headers: str) -> tuple[int, bytes]:
        """Status and body. Raises one of `UNANSWERED` where no whole answer comes."""
        if self.line is None:
            self.line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
        told = {"Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items())}
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        try:
            self.line.request(method, path, body, {**told, **named})
            answer = self.line.getresponse()
            whole = answer.read()
        except UNANSWERED:
            self.close()
            raise
        for cookie in answer.headers.get_all("Set-Cookie", []):
            name, value = re.match(r"([^=]+)=([^;]*)", cookie).groups()  # type: ignore[union-attr]
            self.cookies[name] = value
        return answer.status, whole

    def close(self) -> None:
        if self.line is not None:
            self.line.close()
            self.line = None

    def sign_in(self, token: str) -> None:
        """Open a one-time link and press its button."""
        self.ask("GET", f"/sign-in/{token}/")
        _, page = self.ask("GET", "/sign-in-now/")
        form = _Hidden()
        form.feed(page.decode())
        data = urllib.parse.urlencode(form.found).encode()
        kind = "application/x-www-form-urlencoded"
        origin = f"http://127.0.0.1:{self.port}"
        status, _ = self.ask("POST", "/sign-in-now/", data, Content_Type=kind, Origin=origin)
        if status != 302:
            raise SystemExit(f"the link let nobody in: {status}")

    def hello(self) -> dict[str, Any]:
        status, body = self.ask("GET", "/entries/")
        told: dict[str, Any] = json.loads(body)
        if status != 200:
            raise SystemExit(f"the workshop does not know this browser: {told}")
        return told


class _Hidden(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: dict[str, str] = {}

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        if tag == "input" and told.get("name"):
            self.found[told["name"] or ""] = told.get("value") or ""


class Device(Thread):
    """Goes round until its `end`: one entry after the other, each until it is kept."""

    def __init__(
        self, browser: Browser, burns: list[int], number: Callable[[], int], seen: Seen, end: Event
    ) -> None:
        super().__init__(daemon=True)
        self.browser, self.burns, self.number = browser, burns, number
        self.seen, self.end = seen, end
        self.name, self.turn = str(uuid.uuid4()), 0
        self.gives_up = False
        """Once nobody will answer any more; until then an entry is sent again and again."""
        self.told = browser.hello()

    def run(self) -> None:
        while not self.end.is_set():
            entry = self._press()
            self.seen.made.append(entry)
            while not self._is_kept(entry) and not self.gives_up:
                time.sleep(PAUSE_S)
        self.browser.close()

    def _press(self) -> Kept:
        number = self.number()
        self.turn += 1
        heat = round(HEAT_C + STEP_C * number, 3)
        burn = self.burns[number % len(self.burns)]
        told = {
            "id": str(uuid.uuid4()),
            "key": self.told["key"],
            "device": self.name,
            "turn": self.turn,
            "address": "/round/",
            "pressed_at": now_ms(),
            "fields": [[f"b{burn}-answer", "same"], [f"b{burn}-vessel_c", f"{heat:.3f}"]],
        }
        return Kept(id=told["id"], body=json.dumps(told).encode(), vessel_c=heat)

    def _is_kept(self, entry: Kept) -> bool:
        try:
            _, body = self.browser.ask(
                "POST", "/entries/", entry.body, Content_Type="application/json",
                X_CSRFToken=self.told["token"], X_Sent_At=str(now_ms()),
            )  # fmt: skip
        except UNANSWERED:
            self.seen.broken_off += 1
            return False
        return self._echoed(entry, body)

    def _echoed(self, entry: Kept, body: bytes) -> bool:
        said = json.loads(body)
        if (said.get("id"), said.get("digest")) != (entry.id, entry.digest) or said[
            "outcome"
        ] not in ("kept", "kept before"):
            self.seen.other.append(body.decode())
            return False
        self.seen.kept_before += said["outcome"] == "kept before"
        self.seen.acknowledged[entry.id] = entry
        return True


def now_ms() -> int:
    return round(time.time() * 1000)
