/**
 * What this browser keeps until the workshop has it: entries, byte for byte as they are sent.
 *
 * A row: `{id, key, turn, text, digest, words, who, address, hash, pressedAt, state, said, first,
 * broke}`. `text` is what is sent and `digest` is its SHA-256; the rest is for the eyes of who
 * pressed it. A row leaves only by `forget` with its own digest, or because the maker lets it go.
 * Runs in a page as in a worker: it touches no document.
 */
import { openDB } from "../vendor/idb-8.0.4/index.js";
import { digestOf } from "./digest.js";
import { newId } from "./ids.js";

/** What can be said of a row. `shown`: its questions were opened as a page of their own. */
export const WAITING = "waiting", ASKS = "asks", CONFLICT = "conflict", SHOWN = "shown";

const CHANGED = new EventTarget();
const OTHER_TABS = new BroadcastChannel("throwbench-entries");
OTHER_TABS.onmessage = (event) => CHANGED.dispatchEvent(new CustomEvent("change", { detail: event.data }));

/** Why a page keeps nothing; its forms are sent as plain ones then. */
const OLDER = "This page is older than what this browser keeps. Load it again; nothing is lost.";
const HELD = "Another tab is older than this page, and holds what this browser keeps. Load that tab again or close it.";
const CLOSED = "This browser closed what it keeps for the workshop. Load this page again.";
let trouble = "";

const database = openDB("throwbench", 1, {
  upgrade(db) {
    db.createObjectStore("entries", { keyPath: "id" }).createIndex("turn", "turn");
    db.createObjectStore("own");
  },
  blocked: () => troubled(HELD),
  blocking(_now, _next, event) {
    event.target.close(); // else the newer page would wait for this one
    troubled(OLDER);
  },
  terminated: () => troubled(CLOSED),
});
database.then(
  () => troubled(""),
  (error) => troubled(error.name === "VersionError" ? OLDER : CLOSED),
);

function troubled(words) {
  trouble = words;
  CHANGED.dispatchEvent(new CustomEvent("trouble", { detail: words }));
}

/**
 * Told why this page keeps nothing, now and whenever that changes; empty where it keeps.
 * @param {(words: string) => void} say
 */
export function onTrouble(say) {
  CHANGED.addEventListener("trouble", (event) => say(event.detail));
  if (trouble) say(trouble);
}

/**
 * Told of every change here or in another tab: `{id, outcome}`.
 * @param {(news: {id: string, outcome: string}) => void} listener
 * @returns {() => void} ends it
 */
export function onChange(listener) {
  const heard = (event) => listener(event.detail);
  CHANGED.addEventListener("change", heard);
  return () => CHANGED.removeEventListener("change", heard);
}

/**
 * Told of all rows now and after changes; of many changes in a row once.
 * @param {(all: object[]) => void} draw
 * @returns {() => void} has it drawn once more
 */
export function onRows(draw, afterMs) {
  let timer = 0;
  const later = () => {
    timer ||= setTimeout(async () => {
      timer = 0;
      draw(await rows());
    }, afterMs);
  };
  onChange(later);
  later();
  return later;
}

/**
 * Keep one entry. It is on the disk when this returns.
 * @param {{key: string, address: string, fields: [string, string][], pressedAt: number,
 *   id?: string, words?: string, who?: string, hash?: string}} pressed with the id of a row that
 *   the workshop asked about, this one stands in its place: its turn and time of press stay
 * @returns {Promise<object>} the row
 */
export async function keep(pressed) {
  const tx = (await database).transaction(["entries", "own"], "readwrite", { durability: "strict" });
  const entries = tx.objectStore("entries");
  const id = pressed.id ?? newId();
  const before = await entries.get(id);
  const { device, turn } = before ? JSON.parse(before.text) : await nextTurn(tx.objectStore("own"));
  const pressedAt = before?.pressedAt ?? pressed.pressedAt;
  const { key, address, fields, words = "", who = "", hash = "" } = pressed;
  const text = JSON.stringify({ id, key, device, turn, address, pressed_at: pressedAt, fields });
  const row = {
    id, key, turn, text, digest: digestOf(text), words, who, address, hash, pressedAt,
    state: WAITING, said: [], first: null, broke: 0,
  };
  await Promise.all([entries.put(row), tx.done]);
  tell(id, "here");
  return row;
}

/** @returns {Promise<object[]>} all rows in the order of their turn */
export async function rows() {
  return (await database).getAllFromIndex("entries", "turn");
}

/** @returns {Promise<number>} how many rows there are */
export async function count() {
  return (await database).count("entries");
}

/** @returns {Promise<object|undefined>} */
export async function row(id) {
  return (await database).get("entries", id);
}

/**
 * Forget a row, if it still is what was sent.
 * @param {string} outcome what other tabs are told
 * @returns {Promise<boolean>} whether it was
 */
export async function forget(id, digest, outcome, more = {}) {
  const tx = (await database).transaction("entries", "readwrite");
  const kept = await tx.store.get(id);
  const same = kept?.digest === digest;
  await Promise.all([same && tx.store.delete(id), tx.done]);
  if (same) tell(id, outcome, more);
  return same;
}

/** Note what the workshop said of a row, if it still is what was sent. */
export async function mark(id, digest, changes) {
  const tx = (await database).transaction("entries", "readwrite");
  const kept = await tx.store.get(id);
  const same = kept?.digest === digest;
  await Promise.all([same && tx.store.put({ ...kept, ...changes }), tx.done]);
  if (same) tell(id, changes.state ?? "noted");
}

/** Rows whose questions were shown on a page that is gone wait again: nothing was kept of them. */
export async function takeBackShown(exceptIds) {
  for (const one of await rows()) {
    if (one.state === SHOWN && !exceptIds.has(one.id)) await mark(one.id, one.digest, { state: WAITING });
  }
}

/** A value of this browser's own (`lease` and the like), read and written in one go. */
export async function own(name, change) {
  const tx = (await database).transaction("own", "readwrite");
  const now = change(await tx.store.get(name));
  await Promise.all([now !== undefined && tx.store.put(now, name), tx.done]);
  return now;
}

async function nextTurn(store) {
  const device = (await store.get("device")) ?? newId();
  const turn = ((await store.get("turn")) ?? 0) + 1;
  store.put(device, "device");
  store.put(turn, "turn");
  return { device, turn };
}

/** Tell this page and the other tabs. */
export function tell(id, outcome, more = {}) {
  const detail = { id, outcome, ...more };
  CHANGED.dispatchEvent(new CustomEvent("change", { detail }));
  OTHER_TABS.postMessage(detail);
}
