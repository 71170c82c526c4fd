/**
 * Over https: has a worker keep this page and those it names, and says of a kept copy that it is
 * one. On this machine's own address the pages and the workshop stop together, and over plain http
 * there is no worker.
 */
import { element, link, mark } from "./build.js";
import { onChange } from "./store.js";
import { clock } from "./words.js";

const LOOKS_EVERY_MS = 10_000;
const keptAt = Number(document.documentElement.dataset.keptAt ?? 0);
const WORKER = location.protocol === "https:" && isSecureContext ? navigator.serviceWorker : undefined;
const passedBy = !WORKER?.controller; // this page came before the worker could keep it

if (keptAt) {
  say("Not connected.");
  lookAgain();
}
if (WORKER) {
  await WORKER.register("/worker.js", { scope: "/" });
  WORKER.addEventListener("message", (event) => event.data.answers && answers());
  const { active } = await WORKER.ready;
  const isSomebodys = document.querySelector('meta[name="entry-key"]')?.content;
  active.postMessage({ keep: isSomebodys && !keptAt ? ahead() : [] });
}
onChange(({ outcome, reached }) => outcome === "looked" && reached === "yes" && answers());
if (document.querySelector("[data-wake]")) await import("./wake.js");
if (document.querySelector("[data-leaves]")) await import("./leave.js");

/** Addresses that are worth having offline. */
function ahead() {
  const named = document.querySelector('meta[name="keep"]')?.content.split(" ") ?? [];
  const linked = [...document.querySelectorAll("a[data-keep]")].map((one) => one.href);
  return [...new Set([...(passedBy ? [location.href] : []), ...linked, ...named])];
}

/** Until the workshop answers; whatever it answers. */
function lookAgain() {
  setTimeout(() => fetch("/entries/").then(answers, lookAgain), LOOKS_EVERY_MS);
}

function answers() {
  if (keptAt) say("The workshop answers again.", link("Load it anew", location.href));
}

/** Above the page, in place of what was said before. */
function say(how, ...more) {
  document.querySelector("[data-kept]")?.remove();
  const body = element("p.finding__what", `As it was at ${clock(keptAt)}. ${how} `, ...more);
  const frame = element("div.kept.page", element("div.finding.finding--caution", mark("due"), body));
  frame.dataset.kept = "";
  frame.setAttribute("role", "status");
  document.querySelector("main").before(frame);
}
