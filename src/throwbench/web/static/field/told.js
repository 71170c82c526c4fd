/**
 * What the alarm asks of the workshop and tells it. No answer is an answer: the alarm goes on.
 */
import { newId } from "./ids.js";
import { sendNow } from "./queue.js";
import { keep } from "./store.js";
import { pageKey, pageWho } from "./words.js";

const GIVES_UP_MS = 8_000;

/** What an address says; null where nobody answers, or not as a maker's page is answered. */
export async function answerOf(address, options = {}) {
  try {
    const signal = AbortSignal.timeout(GIVES_UP_MS);
    const answer = await fetch(address, { cache: "no-store", redirect: "error", signal, ...options });
    return answer.ok ? await answer.json() : null;
  } catch {
    // The machine is off, or the network away.
    return null;
  }
}

/** What somebody pressed: kept here first, as a form is that the queue takes over. */
export async function note(address, fields, words) {
  const told = { key: pageKey, who: pageWho, address, fields: Object.entries(fields), words };
  try {
    await keep({ ...told, pressedAt: Date.now() });
  } catch {
    // A browser that keeps nothing sends it now or never.
    await send(address, fields);
    return;
  }
  await sendNow();
}

/** What this page did, of which nobody is asked to keep account; whether it was noted. */
export async function send(address, fields) {
  const hello = await answerOf("/entries/");
  if (hello === null) return false;
  const body = new URLSearchParams({ ...fields, entry: newId() });
  const headers = { "X-CSRFToken": hello.token };
  return (await answerOf(address, { method: "POST", body, headers })) !== null;
}
