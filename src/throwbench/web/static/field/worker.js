/**
 * Keeps pages of a trusted workshop for when nobody answers.
 *
 * The server puts `BUILD = {digest, files}` in front. Files are kept for all, by their digest.
 * Pages are kept by whose they are: the server names the key in each page's headers, and pages of
 * any other key go at once. What is pressed is no business of this worker: it lets every POST pass.
 */
const FILES = `throwbench-files-${BUILD.digest}`;
const PAGES = "throwbench-pages-";
const WHOSE = "throwbench-whose";
const AWAY = "/static/field/away.html";
const CHANGES_HANDS = /^\/(sign-in|sign-out\/|way-back\/|nose\/(by|is|not-me|someone-else)\/)|\/hand-round\/$/;
const NEVER = ["/entries/", "/alarm/", "/trust/", "/worker.js"];
const ANSWERS_WITHIN_MS = 3000;
const NEWS_FOR_MS = 20_000;
const FRESH_FOR_MS = 60_000;

let asked = 0;
let changed = 0;
let pressed = 0;
let last = Promise.resolve();

addEventListener("install", (event) => {
  event.waitUntil(keepFiles().then(() => skipWaiting()));
});
addEventListener("activate", (event) => {
  event.waitUntil(dropOldFiles().then(() => clients.claim()));
});
// A page that was on its way while this worker began is not looked after until it is claimed again.
addEventListener("message", (event) => {
  event.waitUntil(clients.claim().then(() => keepAhead(event.data.keep)));
});
addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (origin !== location.origin) return;
  if (CHANGES_HANDS.test(pathname)) event.waitUntil(forget());
  if (request.method === "POST") pressed = Date.now();
  if (request.method !== "GET" || NEVER.some((start) => pathname.startsWith(start))) return;
  if (pathname.startsWith("/static/")) event.respondWith(file(request));
  else if (request.mode === "navigate") event.respondWith(page(event));
});

async function keepFiles() {
  const files = await caches.open(FILES);
  await files.addAll(BUILD.files.map((address) => new Request(address, { cache: "reload" })));
}

async function dropOldFiles() {
  const old = (name) => name.startsWith("throwbench-files-") && name !== FILES;
  await Promise.all((await caches.keys()).filter(old).map((name) => caches.delete(name)));
}

async function file(request) {
  const files = await caches.open(FILES);
  return (await files.match(request, { ignoreSearch: true })) ?? fetch(request);
}

/**
 * The workshop's own answer; where none comes in time, the page as it was. Just after a press the
 * page as it was would be news of yesterday: then only a workshop that cannot be reached is passed.
 */
async function page(event) {
  const { request } = event;
  const answer = reach(request);
  event.waitUntil(answer.catch(() => {}));
  const kept = await inTurn(() => keptCopy(request.url));
  if (!kept) return answer.catch(away);
  const isNews = Date.now() - pressed < NEWS_FOR_MS;
  const first = await Promise.race([answer.catch(() => null), ...(isNews ? [] : [pause()])]);
  if (first) return first;
  event.waitUntil(answer.then(() => tellOf(event.resultingClientId), () => {}));
  const still = await inTurn(() => keptCopy(request.url)); // hands may have changed meanwhile
  return still ? marked(still) : answer.catch(away);
}

/**
 * Ask the workshop, and keep what may be kept of its answer. The whole of it is read before its
 * turn: an answer that stops in the middle must not hold up what is kept already.
 */
async function reach(request) {
  const turn = ++asked;
  const answer = await fetch(request);
  const whole = await answer.clone().blob();
  await inTurn(() => note(request.url, answer.headers, whole, turn)).catch(noRoom);
  return answer;
}

/** A device that is full keeps no pages; those that the workshop sends are shown all the same. */
function noRoom(error) {
  console.warn(`A page is not kept on this device: ${error}`);
}

async function note(address, headers, whole, turn) {
  const key = headers.get("X-Entry-Key");
  if (key === null || turn < changed) return; // no page; or asked before this browser changed hands
  if (key !== (await whose())) await become(key, turn);
  if (key && headers.has("X-Keep")) await put(key, address, headers, whole);
}

async function put(key, address, told, whole) {
  const headers = new Headers(told);
  headers.set("X-Kept-At", String(Date.now()));
  const pages = await caches.open(PAGES + key);
  await pages.put(address, new Response(whole, { headers }));
}

/** Whoever is let in next, pages asked for until now are not theirs. */
function forget() {
  const turn = ++asked;
  return inTurn(() => become("", turn));
}

/**
 * From the answer to this question on, the browser is somebody's, or nobody's: pages of all others
 * go, and what was asked before and is answered later is not kept.
 */
async function become(key, turn) {
  changed = turn;
  const others = (name) => name.startsWith(PAGES) && name !== PAGES + key;
  await Promise.all((await caches.keys()).filter(others).map((name) => caches.delete(name)));
  const kept = await caches.open(WHOSE);
  await kept.put("/whose", new Response(key));
}

async function whose() {
  const kept = await (await caches.open(WHOSE)).match("/whose");
  return kept ? kept.text() : "";
}

async function keptCopy(address) {
  const key = await whose();
  if (!key) return undefined;
  const pages = await caches.open(PAGES + key);
  return (await pages.match(address)) ?? pages.match(address, { ignoreSearch: true });
}

/** The page script reads from the page itself that it is a copy, and of when. */
async function marked(kept) {
  const at = kept.headers.get("X-Kept-At");
  const text = (await kept.text()).replace("<html ", `<html data-kept-at="${at}" `);
  return new Response(text, { headers: kept.headers });
}

async function away() {
  return (await (await caches.open(FILES)).match(AWAY)) ?? Response.error();
}

/** Fetch pages before anybody opens them; those kept a moment ago stay as they are. */
async function keepAhead(addresses) {
  for (const address of addresses) {
    const full = new URL(address, location.origin);
    const kept = full.origin === location.origin && (await keptCopy(full.href));
    if (kept && Date.now() - Number(kept.headers.get("X-Kept-At")) < FRESH_FOR_MS) continue;
    await reach(new Request(full.href, { redirect: "manual", credentials: "same-origin" })).catch(() => {});
  }
}

async function tellOf(id) {
  (await clients.get(id))?.postMessage({ answers: true });
}

/** One change of what is kept after the other. */
function inTurn(change) {
  last = last.then(change, change);
  return last;
}

function pause() {
  return new Promise((resolve) => setTimeout(resolve, ANSWERS_WITHIN_MS, null));
}
