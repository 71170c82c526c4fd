/**
 * The strip that says what waits here, and what the workshop asks about it.
 */
import { ASKS, CONFLICT, WAITING, onRows, onTrouble } from "./store.js";
import { element, link, mark } from "./build.js";
import { asked, unlike } from "./tray_asks.js";
import { askedHere } from "./forms.js";
import { isOurs } from "./ours.js";
import { clock, device, entries, isHanded, pageKey, pageWho } from "./words.js";
import { workshop } from "./post.js";

const DRAWS_AFTER_MS = 300;
const SAYS_AFTER_MS = 1500;
const SIGN_IN = "/sign-in/";
const place = document.querySelector("[data-tray]");
let since = 0;
let drawn = "";
let drawAgain = () => {};

/** Draw now and after every change. */
export function keepTelling() {
  if (!place) return;
  onTrouble(sayTrouble);
  drawAgain = onRows(draw, DRAWS_AFTER_MS);
}

function draw(all) {
  const here = askedHere();
  const ours = all.filter((one) => isOurs(one) && !here.has(one.id));
  const parts = [
    ...waits(ours.filter((one) => one.state === WAITING)),
    ...(isHanded(pageKey) ? heldForTheMaker(ours) : ours.map(notTaken)),
    ...others(all.filter((one) => !isOurs(one)).length),
  ].filter(Boolean);
  const frame = element("section.tray.page", ...parts);
  frame.setAttribute("aria-label", `What waits on this ${device}`);
  const now = parts.length ? frame.innerHTML : "";
  if (now === drawn) return;
  drawn = now;
  place.replaceChildren(...(parts.length ? [frame] : []));
}

/** What this page cannot keep stands above all else; rows cannot be read then. */
function sayTrouble(words) {
  drawn = "";
  place.replaceChildren(...(words ? [element("section.tray.page", strip("late", words))] : []));
  if (!words) drawAgain();
}

function notTaken(one) {
  return one.state === ASKS ? asked(one) : one.state === CONFLICT ? unlike(one) : "";
}

/** The next nose does not see what was given. */
function heldForTheMaker(ours) {
  const count = ours.filter((one) => one.state === ASKS || one.state === CONFLICT).length;
  if (!count) return [];
  const [were, they] = count === 1 ? ["was", "It stays"] : ["were", "They stay"];
  return [strip("due", `${entries(count)} ${were} not taken as given. ${they} here for the maker.`)];
}

function waits(mine) {
  if (!mine.length) {
    since = 0;
    return [];
  }
  since ||= Date.now();
  if (workshop.reached === "sign in") return [signIn(mine.length)];
  if (workshop.reached === "no") return [notReached(mine)];
  if (Date.now() - since > SAYS_AFTER_MS) return [quiet("What waited here is being sent.")];
  setTimeout(drawAgain, SAYS_AFTER_MS);
  return [];
}

function notReached(mine) {
  const oldest = Math.min(...mine.map((one) => one.pressedAt));
  const wait = mine.length === 1 ? "waits" : "wait";
  const they = mine.length === 1 ? "It is" : "They are";
  const of = mine.length === 1 ? "of" : "the oldest of";
  const words = `${entries(mine.length)} ${wait} on this ${device}, ${of} ${clock(oldest)}. ${they} sent when the workshop is reached.`;
  return strip("due", words, openAgain(), onMakersPage() ? link("See what waits", "/waiting/") : "");
}

function openAgain() {
  return navigator.serviceWorker?.controller
    ? "This page keeps what you press. It can be opened again without the workshop."
    : "This page keeps what you press. Do not close it or load it anew while the workshop is out of reach: it cannot be opened again until then.";
}

function signIn(count) {
  const wait = count === 1 ? "waits" : "wait";
  const them = count === 1 ? "it" : "them";
  if (!pageWho) return strip("late", `The workshop does not know this ${device} any more. ${entries(count)} ${wait} here. ${guestsWay(them)}`);
  const words = `Your sign-in has ended. ${entries(count)} ${wait} here; sign in as ${pageWho} to send ${them}.`;
  return strip("late", words, link("How to sign in", SIGN_IN));
}

function guestsWay(them) {
  return isHanded(pageKey)
    ? `The maker can send ${them} from this ${device}.`
    : `Open your personal link once more to send ${them}.`;
}

function others(count) {
  if (!count) return [];
  const whose = pageKey ? `${entries(count)} of somebody else` : entries(count);
  return [quiet(`${whose} ${count === 1 ? "waits" : "wait"} on this ${device}, until whoever pressed ${count === 1 ? "it" : "them"} is signed in here.`)];
}

/** The list can be opened where the workshop is reached, or where the device keeps the page. */
function onMakersPage() {
  const canOpen = workshop.reached !== "no" || navigator.serviceWorker?.controller;
  return pageKey.includes("-person-") && canOpen && location.pathname !== "/waiting/";
}

/** Nothing for a hand to do. */
function quiet(words) {
  const frame = strip("due", words);
  frame.classList.remove("finding--caution");
  return frame;
}

function strip(shape, words, ...more) {
  const body = element("div", element("p.finding__what", words));
  for (const one of more.filter(Boolean)) body.append(element("p.finding__why", one));
  return element("div.finding.finding--caution", mark(shape), body);
}
