"""Tabs of one real window, one in front of the other: what is behind is hidden, as at a maker's.

The driver keeps every page that it knows visible, so these are told to the browser directly.
"""

import itertools
import json
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Browser

ANSWERS_WITHIN_S = 20


class Tab:
    """One tab. It is clicked with a mouse, as a person does."""

    def __init__(self, window: "Window", address: str = "about:blank", *, first: str = "") -> None:
        self._window = window
        self._target = window.call(
            "Target.createTarget", url="about:blank", browserContextId=window.context
        )["targetId"]
        self._inner = window.call("Target.attachToTarget", targetId=self._target, flatten=False)[
            "sessionId"
        ]
        self.send("Page.enable")
        if first:
            self.send("Page.addScriptToEvaluateOnNewDocument", source=first)
        if address != "about:blank":
            self.goto(address)

    def send(self, method: str, **told: Any) -> dict[str, Any]:
        return self._window.inside(self._inner, method, told)

    def goto(self, address: str) -> None:
        self.evaluate("window.isOld = true")
        self.send("Page.navigate", url=address)
        self.wait_until("!window.isOld && document.readyState === 'complete'")

    def evaluate(self, script: str) -> Any:
        found = self.send("Runtime.evaluate", expression=script, returnByValue=True)
        return found["result"].get("value")

    def wait_until(self, script: str, *, within_s: float = ANSWERS_WITHIN_S) -> None:
        ends = time.monotonic() + within_s
        while not self.evaluate(script):
            assert time.monotonic() < ends, f"not so within {within_s:g} s: {script}"
            time.sleep(0.1)

    def click(self, selector: str) -> None:
        found = f"document.querySelector({json.dumps(selector)})"
        self.wait_until(f"{found}?.checkVisibility()")
        self.evaluate(f"{found}.scrollIntoView({{ block: 'center' }})")
        x, y = self.evaluate(
            f"(box => [box.x + box.width / 2, box.y + box.height / 2])"
            f"({found}.getBoundingClientRect())"
        )
        for kind in ("mousePressed", "mouseReleased"):
            told = {"type": kind, "x": x, "y": y, "button": "left", "clickCount": 1}
            self.send("Input.dispatchMouseEvent", **told)


class Window:
    """A window with a set of cookies of its own."""

    def __init__(self, browser: Browser) -> None:
        self._session = browser.new_browser_cdp_session()
        self._answers: dict[int, dict[str, Any]] = {}
        self._numbers = itertools.count(1)
        self._session.on("Target.receivedMessageFromTarget", self._received)
        self.context = self.call("Target.createBrowserContext")["browserContextId"]

    def call(self, method: str, **told: Any) -> dict[str, Any]:
        answer: dict[str, Any] = self._session.send(method, told)
        return answer

    def inside(self, tab: str, method: str, told: dict[str, Any]) -> dict[str, Any]:
        number = next(self._numbers)
        message = json.dumps({"id": number, "method": method, "params": told})
        self.call("Target.sendMessageToTarget", sessionId=tab, message=message)
        ends = time.monotonic() + ANSWERS_WITHIN_S
        while number not in self._answers:
            assert time.monotonic() < ends, f"no answer to {method}"
            self.call("Target.getTargets")
            time.sleep(0.02)
        answer = self._answers.pop(number)
        assert "error" not in answer, answer
        return dict(answer["result"])

    def _received(self, event: dict[str, Any]) -> None:
        message = json.loads(event["message"])
        if "id" in message:
            self._answers[message["id"]] = message


@contextmanager
def window(browser: Browser) -> Iterator[Window]:
    """Closed with the block, its tabs too."""
    found = Window(browser)
    yield found
    found.call("Target.disposeBrowserContext", browserContextId=found.context)
