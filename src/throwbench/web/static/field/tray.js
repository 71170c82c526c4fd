/**
 * The strip that says what waits here, and what the workshop asks about it.
 */
import { ASKS, CONFLICT, WAITING, onChange, rows } from "./store.js";
import { element, link, mark } from "./build.js";
import { asked, unlike } from "./tray_asks.js";
import { askedHere } from "./forms.js";
import { clock, device, entries, pageKey, pageWho } from "./words.js";
import { workshop } from "./post.js";

const DRAWS_AFTER_MS = 150;
const SAYS_AFTER_MS = 1500;
const SIGN_IN = "/sign-in/";
const place = document.querySelector("[data-tray]");
let since = 0;
let drawn = "";
let timer = 0;

/** Draw now and after every change. */
export function keepTelling() {
  if (!place) return;
  onChange(later);
  later();
}

function later() {
  timer ||= setTimeout(async () => {
    timer = 0;
    draw(await rows());
  }, DRAWS_AFTER_MS);
}

/** Whether who looks at this page may see a row. */
export function isOurs(row) {
  return workshop.reached === "yes" ? workshop.mine.has(row.key) || row.key === workshop.key : row.key === pageKey && pageKey !== "";
}

function draw(all) {
  const here = askedHere();
  const ours = all.filter((one) => isOurs(one) && !here.has(one.id));
  const parts = [
    ...waits(ours.filter((one) => one.state === WAITING)),
    ...ours.filter((one) => one.state === ASKS).map(asked),
    ...ours.filter((one) => one.state === CONFLICT).map(unlike),
    ...others(all.filter((one) => !isOurs(one)).length),
  ];
  const frame = element("section.tray.page", ...parts);
  frame.setAttribute("aria-label", `What waits on this ${device}`);
  const now = parts.length ? frame.innerHTML : "";
  if (now === drawn) return;
  drawn = now;
  place.replaceChildren(...(parts.length ? [frame] : []));
}

function waits(mine) {
  if (!mine.length) {
    since = 0;
    return [];
  }
  since ||= Date.now();
  if (workshop.reached === "sign in") return [signIn(mine.length)];
  if (workshop.reached === "no") return [notReached(mine)];
  if (Date.now() - since > SAYS_AFTER_MS) return [strip("due", "What waited here is being sent.")];
  setTimeout(later, SAYS_AFTER_MS);
  return [];
}

function notReached(mine) {
  const oldest = Math.min(...mine.map((one) => one.pressedAt));
  const wait = mine.length === 1 ? "waits" : "wait";
  const they = mine.length === 1 ? "It is" : "They are";
  const of = mine.length === 1 ? "of" : "the oldest of";
  const words = `${entries(mine.length)} ${wait} on this ${device}, ${of} ${clock(oldest)}. ${they} sent when the workshop is reached.`;
  return strip("due", words, openAgain());
}

function openAgain() {
  return navigator.serviceWorker?.controller
    ? "This page keeps what you press. It can be opened again without the workshop."
    : "This page keeps what you press. Do not close it or load it anew while the workshop is out of reach: over plain http it cannot be opened again until then.";
}

function signIn(count) {
  const wait = count === 1 ? "waits" : "wait";
  const them = count === 1 ? "it" : "them";
  if (!pageWho) return strip("late", `The workshop does not know this ${device} any more. ${entries(count)} ${wait} here. Its maker can send ${them}.`);
  const words = `Your sign-in has ended. ${entries(count)} ${wait} here; sign in as ${pageWho} to send ${them}.`;
  return strip("late", words, link("How to sign in", SIGN_IN));
}

function others(count) {
  if (!count) return [];
  const whose = pageKey ? `${entries(count)} of somebody else` : entries(count);
  return [strip("due", `${whose} ${count === 1 ? "waits" : "wait"} on this ${device}, until who pressed ${count === 1 ? "it" : "them"} is signed in here.`)];
}

function strip(shape, words, more = "") {
  const body = element("div", element("p.finding__what", words));
  if (more) body.append(element("p.finding__why", more));
  return element("div.finding.finding--caution", mark(shape), body);
}
