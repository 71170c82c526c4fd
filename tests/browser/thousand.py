"""A thousand looks at lit candles that waited on a phone: the same walk over http and https."""

import json
import random
import time
from collections.abc import Callable, Sequence
from typing import Any

from playwright.sync_api import BrowserContext, Page

from browser import fielding
from browser.fielding import STORE, Workshop, how_many, kept_here, opened, say_of, wait_until_empty

COUNT = 1000
APART_MS = 6100
SENT_AT_MOST_S = 300
"""On a machine with nothing else to do it takes less than 40 s."""
ENTRIES = "select count(*) from house_entry"
NEW = "select id, turn, pressed_at from house_entry where turn is not null order by turn"
CHECKS = (
    "select burn_id, noted_at, at, id from trials_check where id > ? "
    "order by burn_id, at, noted_at, id"
)
"""As every page orders them."""
FIRST_IN_ANY_ORDER = 200
LONG_LIT = "select id from trials_burn where out_at is null order by lit_at, id limit 3"

PUT_IN = """async ([store, burns, count, apart]) => {
  const { keep } = await import(store);
  const key = document.querySelector('meta[name="entry-key"]').content;
  const ends = Date.now() - 60000;
  for (let i = 0; i < count; i++) {
    const fields = [[`b${burns[i % burns.length]}-answer`, "same"]];
    const pressedAt = ends - (count - i) * apart;
    await keep({ key, address: "/round/", fields, pressedAt, words: "Look" });
  }
}"""
SEND_AGAIN = """async (texts) => {
  const { token } = await (await fetch("/entries/")).json();
  const outcomes = {};
  for (const body of texts) {
    const headers = { "X-CSRFToken": token, "X-Sent-At": String(Date.now()) };
    headers["Content-Type"] = "application/json";
    const answer = await fetch("/entries/", { method: "POST", body, headers });
    const { outcome } = await answer.json();
    outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
  }
  return outcomes;
}"""


def a_thousand_entries(
    context: BrowserContext, here: Workshop, *, away: Callable[[Page], Page] = lambda page: page
) -> dict[str, Any]:
    """Keep them without the workshop, lose it again and again, and look what became of them.

    `away` does something with the page while the workshop is out of reach.
    """
    page = context.new_page()
    fielding.let_in(page, here)
    opened(page, "/round/")
    burns = [row[0] for row in here.all(LONG_LIT)]
    entries, last_check = here.one(ENTRIES), here.one("select max(id) from trials_check")
    here.kill()
    page.evaluate(PUT_IN, [STORE, burns, COUNT, APART_MS])
    page = away(page)
    kept = kept_here(page)
    assert len(kept) == COUNT
    here.end_sign_ins()  # before it answers: a page that tries in between would send some
    here.start()
    page.evaluate("window.dispatchEvent(new Event('online'))")
    say_of(page, "Your sign-in has ended. 1,000 entries wait here")
    texts = [one["text"] for one in kept]
    took_s = _send_through_a_power_cut(page, here, texts)
    assert page.evaluate(SEND_AGAIN, _twice_in_any_order(texts)) == {"kept before": 2 * COUNT}
    assert here.one(ENTRIES) == entries + COUNT
    _each_is_there_once(here, kept)
    _looks_stand_in_the_order_of_the_presses(here, last_check)
    return {"took_s": took_s, "isSecureContext": page.evaluate("isSecureContext")}


def _send_through_a_power_cut(page: Page, here: Workshop, texts: Sequence[str]) -> float:
    """Sign in, send, end the server in the middle, start it, send the rest [s of sending].

    Beside the queue, which keeps the order of the presses, some come in any order.
    """
    fielding.let_in(page, here)
    began = time.monotonic()
    some = random.Random(682).sample(texts, FIRST_IN_ANY_ORDER)
    outcomes = page.evaluate(SEND_AGAIN, some)
    assert set(outcomes) <= {"kept", "kept before"}
    assert outcomes["kept"] > FIRST_IN_ANY_ORDER // 2
    while how_many(page) > COUNT // 2:
        page.wait_for_timeout(100)
    here.kill()
    took_s = time.monotonic() - began
    assert 0 < how_many(page) <= COUNT // 2
    here.start()
    page.evaluate("window.dispatchEvent(new Event('online'))")
    began = time.monotonic()
    wait_until_empty(page, within_s=SENT_AT_MOST_S)
    return took_s + time.monotonic() - began


def _twice_in_any_order(texts: Sequence[str]) -> list[str]:
    again = [*texts, *texts]
    random.Random(417).shuffle(again)
    return again


def _each_is_there_once(here: Workshop, kept: Sequence[dict[str, Any]]) -> None:
    rows = here.all(NEW)
    assert [row[0] for row in rows] == [one["id"].replace("-", "") for one in kept]
    assert [row[1] for row in rows] == [json.loads(one["text"])["turn"] for one in kept]
    pressed = [row[2] for row in rows]
    assert len(set(pressed)) == COUNT
    assert pressed == sorted(pressed)


def _looks_stand_in_the_order_of_the_presses(here: Workshop, last: int) -> None:
    """Each look stands at the minute of its press, and in this order within its burn."""
    looks = here.all(CHECKS, last)
    assert len(looks) == COUNT
    for burn in {look[0] for look in looks}:
        arrived = [look[3] for look in looks if look[0] == burn]
        assert arrived != sorted(arrived), "all came in the order of the presses: nothing is proved"
        pressed = [look[1] for look in looks if look[0] == burn]
        assert pressed == sorted(set(pressed))
    assert sorted(look[1] for look in looks) == [row[2] for row in here.all(NEW)]
    assert all(at == f"{pressed[:16]}:00" for _, pressed, at, _ in looks)
