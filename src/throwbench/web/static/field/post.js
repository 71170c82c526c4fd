/**
 * Sends what waits, one by one in the order in which it was pressed, and forgets a row only when
 * the workshop has said its id and its digest back. Runs in a page as in a worker.
 */
import { ASKS, CONFLICT, WAITING, forget, mark, rows } from "./store.js";
import { inTurn } from "./turn.js";

const DOOR = "/entries/";
const GIVES_UP_MS = 20000;
const BROKE_OFTEN = 3;

/** How the workshop was found last: `reached` is "not asked", "yes", "no" or "sign in". */
export const workshop = { reached: "not asked", key: "", mine: new Set(), token: "" };

/**
 * Ask the workshop whose browser this is and what it may send.
 * @returns {Promise<boolean>} whether it let this browser in
 */
export async function hello(keys) {
  const query = new URLSearchParams([...new Set(keys)].map((key) => ["key", key]));
  const answer = await ask(`${DOOR}?${query}`, {});
  if (answer?.status === 200) {
    const { key, mine, token } = answer.told;
    Object.assign(workshop, { reached: "yes", key, mine: new Set(mine), token });
    return true;
  }
  workshop.reached = answer?.told.outcome === "sign in" ? "sign in" : "no";
  return false;
}

/**
 * Send all that waits and is this browser's to send.
 * @returns {Promise<"sent"|"stopped"|"elsewhere">} stopped: the workshop did not answer, or wants a
 *   sign-in; elsewhere: another tab is at it
 */
export async function sendAll() {
  let through = true;
  const here = await inTurn(async () => {
    const done = new Set();
    for (let next = await waiting(done); through && next.length; next = await waiting(done)) {
      through = await hello(next.map((one) => one.key));
      for (const one of through ? next : []) {
        done.add(one.id + one.digest);
        if (!workshop.mine.has(one.key)) continue;
        through = await send(one);
        if (!through) break;
      }
    }
  });
  return here ? (through ? "sent" : "stopped") : "elsewhere";
}

/** Rows to be sent; one that broke the workshop again and again goes last. */
async function waiting(done) {
  const all = (await rows()).filter((one) => one.state === WAITING && !done.has(one.id + one.digest));
  const isBad = (one) => one.broke >= BROKE_OFTEN;
  return [...all.filter((one) => !isBad(one)), ...all.filter(isBad)];
}

/** @returns {Promise<boolean>} whether to go on with the next one */
async function send(one) {
  let answer = await post(one);
  if (isAboutTheForm(answer)) {
    if (!(await hello([one.key]))) return false;
    if (!workshop.mine.has(one.key)) return true;
    answer = await post(one);
  }
  return answer === null ? unreached() : settle(one, answer);
}

function post(one) {
  return ask(DOOR, {
    method: "POST",
    body: one.text,
    headers: {
      "Content-Type": "application/json",
      "X-CSRFToken": workshop.token,
      "X-Sent-At": String(Date.now()),
    },
  });
}

/** The form's key is an old one, or the browser changed hands since it was asked. */
function isAboutTheForm(answer) {
  return answer !== null && (answer.status === 403 || ["not yours", "new key"].includes(answer.told.outcome));
}

async function settle(one, { status, told }) {
  const { id, digest } = one;
  if (status === 200 && told.id === id && told.digest === digest) {
    await forget(id, digest, told.outcome, { then: told.then });
    globalThis.dispatchEvent(new CustomEvent("entry:noted", { detail: JSON.parse(one.text) }));
    return true;
  }
  if (told.outcome === "conflict") {
    await mark(id, digest, { state: CONFLICT, said: told.said, first: told.first });
    return true;
  }
  if (told.outcome === "asks" || told.outcome === "unclear") {
    await mark(id, digest, { state: ASKS, said: told.said });
    return true;
  }
  if (told.outcome === "sign in") {
    workshop.reached = "sign in";
    return false;
  }
  if (told.outcome === "broke") await mark(id, digest, { broke: one.broke + 1, said: told.said });
  return unreached();
}

function unreached() {
  workshop.reached = "no";
  return false;
}

/** @returns {Promise<{status: number, told: object} | null>} null: no answer of the workshop */
async function ask(address, options) {
  const gaveUp = new AbortController();
  const timer = setTimeout(() => gaveUp.abort(), GIVES_UP_MS);
  try {
    const answer = await fetch(address, {
      credentials: "same-origin", cache: "no-store", redirect: "error", signal: gaveUp.signal, ...options,
    });
    const isJson = answer.headers.get("Content-Type")?.startsWith("application/json");
    return { status: answer.status, told: isJson ? await answer.json() : {} };
  } catch {
    return null;
  } finally {
    clearTimeout(timer);
  }
}
