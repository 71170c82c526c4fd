"""Whether a page can be heard: what its sounds are, and how loud they come out."""

import json
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta

from playwright.sync_api import Browser, Page

from browser.conftest import CHROMIUM, QUIET
from browser.fielding import NAME, Workshop

SOUND_AFTER_A_TOUCH = "--autoplay-policy=document-user-activation-required"
"""The strictest that a browser has for a page of its own, and its default."""
THROTTLED = (
    "--disable-background-timer-throttling",
    "--disable-backgrounding-occluded-windows",
    "--disable-renderer-backgrounding",
)
"""What a driven browser switches off and a maker's has on: hidden pages get little time."""
SELDOM = "--enable-features=IntensiveWakeUpThrottling:grace_period_seconds/3"
"""After 3 s behind another tab, not after five minutes, a page's timers run once a minute."""
EAR = """
(() => {
  const sounding = new Set(), ears = [];
  let highest = 0;
  const { start, stop } = AudioScheduledSourceNode.prototype;
  const connect = AudioNode.prototype.connect;
  AudioScheduledSourceNode.prototype.start = function (...told) {
    sounding.add(this);
    return start.apply(this, told);
  };
  AudioScheduledSourceNode.prototype.stop = function (...told) {
    sounding.delete(this);
    return stop.apply(this, told);
  };
  AudioNode.prototype.connect = function (to, ...told) {
    if (to instanceof AudioDestinationNode) {
      const ear = new AnalyserNode(this.context);
      connect.call(this, ear);
      ears.push(ear);
      setInterval(() => { highest = Math.max(highest, window.loudness()); }, 20);
    }
    return connect.call(this, to, ...told);
  };
  window.contexts = () => ears.map((ear) => ear.context);
  const states = () => [...sounding].map((node) => node.context.state);
  window.isSounding = () => sounding.size > 0 && states().every((state) => state === "running");
  window.highestYet = () => highest;
  window.loudness = () => Math.max(0, ...ears.map((ear) => {
    const heard = new Float32Array(ear.fftSize);
    ear.getFloatTimeDomainData(heard);
    return Math.max(...heard.map(Math.abs));
  }));
})();
"""
"""Listens at the very end of the page's sound, before the loudspeaker."""


@contextmanager
def browser_in_the_wild(browser: Browser) -> Iterator[Browser]:
    """Chromium as makers have it: no sound before a touch, and little time for hidden pages.

    `browser` is a driven one, whose driver starts this one too.
    """
    rule = f"--host-resolver-rules=MAP {NAME} 127.0.0.1"
    chromium = browser.browser_type.launch(
        executable_path=CHROMIUM,
        args=[*QUIET, SOUND_AFTER_A_TOUCH, SELDOM, rule],
        ignore_default_args=list(THROTTLED),
    )
    yield chromium
    chromium.close()


def time_in(here: Workshop) -> datetime:
    """The folder's own time; a demo has another year."""
    offset_s = json.loads((here.folder / "settings.json").read_text())["demo_offset_s"]
    return datetime.now(UTC) + timedelta(seconds=offset_s or 0)


def to_be_out(here: Workshop, code: str, *, in_s: float) -> datetime:
    """Shift the put-out time of one lit candle: nobody waits four hours for a test."""
    due = time_in(here) + timedelta(seconds=in_s)
    here.all(
        "UPDATE trials_burn SET out_by_at = ? WHERE out_at IS NULL AND candle_id = "
        "(SELECT id FROM trials_testcandle WHERE code = ?)",
        f"{due:%Y-%m-%d %H:%M:%S.%f}",
        code,
    )
    return due


def wait_until(page: Page, script: str, *, within_s: float) -> None:
    """Asked from outside: a hidden page gets too little time to look itself."""
    ends = time.monotonic() + within_s
    while not page.evaluate(script):
        assert time.monotonic() < ends, f"not so within {within_s:g} s: {script}"
        time.sleep(0.1)


def wait_for_sound(page: Page, *, within_s: float) -> None:
    wait_until(page, "isSounding()", within_s=within_s)


def wait_for_quiet(page: Page, *, within_s: float) -> None:
    wait_until(page, "!isSounding()", within_s=within_s)


def ask_now(page: Page) -> None:
    """What a page does that is shown again: it asks the workshop what is due."""
    page.evaluate("dispatchEvent(new PageTransitionEvent('pageshow'))")


def wait_for_rows(here: Workshop, query: str, *, count: int = 1) -> list[tuple[object, ...]]:
    """The workshop writes them down a moment after."""
    ends = time.monotonic() + 20
    while len(rows := here.all(query)) < count:
        assert time.monotonic() < ends, f"not there: {query}"
        time.sleep(0.1)
    return rows
