/**
 * Takes over the forms that a page marks with `data-entry`: what is pressed is kept on the device
 * first, and sent then. `data-entry` of a form or of its button is what is said of it later;
 * `data-then` is the page to go to where the workshop names none; a form with `data-stay` lets its
 * page stand, since something else on it may be half done.
 */
import { keep, mark, onChange, row, SHOWN } from "./store.js";
import { newId } from "./ids.js";
import { hidden, openPage } from "./native.js";
import { notes } from "./notes.js";
import { pageKey, pageWho } from "./words.js";
import { sendNow } from "./queue.js";

const SAYS_AFTER_MS = 2000;
const PATIENCE_MS = 8000;
const QUIET_MS = 1500;
const ANSWERED = ["kept", "kept before", "asks", "conflict"];
const busy = new WeakSet();
/** Forms that came back with questions, and the id of the row they answer. */
const answers = new Map();

/** @returns {Set<string>} ids of rows that are asked about on this page */
export const askedHere = () => new Set(answers.values());

/** Every form gets an id of its own, unless it came back with questions about a row. */
export async function takeOver() {
  for (const form of document.querySelectorAll("form[data-entry]")) {
    const kept = await row(form.elements.entry?.value ?? "");
    if (kept) {
      answers.set(form, kept.id);
      await mark(kept.id, kept.digest, { state: SHOWN });
      notes.answers(form, kept);
    } else renew(form);
  }
}

/** A page that was kept whole by the browser and is shown again begins anew. */
export function startAgain() {
  for (const form of document.querySelectorAll("form[data-entry]")) {
    free(form);
    if (!answers.has(form)) renew(form);
  }
}

/** @param {SubmitEvent} event of any form of the page */
export function onSubmit(event) {
  const form = event.target;
  if (!form.matches("form[data-entry]") || event.defaultPrevented) return;
  event.preventDefault();
  if (busy.has(form)) return;
  busy.add(form);
  form.setAttribute("aria-busy", "true");
  press(form, event.submitter, Date.now());
}

async function press(form, submitter, pressedAt) {
  const entry = { ...pressed(form, submitter), pressedAt, id: answers.get(form) };
  let kept;
  try {
    kept = await keep(entry);
  } catch {
    return plainly(form, submitter);
  }
  answers.delete(form);
  const news = answerTo(kept.id);
  window.dispatchEvent(new CustomEvent("entry:kept-here", { detail: JSON.parse(kept.text) }));
  const telling = setTimeout(() => notes.say(form, submitter, kept), SAYS_AFTER_MS);
  const found = await Promise.race([news, stopped(), new Promise((go) => setTimeout(go, PATIENCE_MS))]);
  clearTimeout(telling);
  await follow(form, submitter, kept, found);
}

async function follow(form, submitter, kept, found) {
  const isKept = found?.outcome.startsWith("kept");
  if (isKept && !("stay" in form.dataset)) return location.assign(next(form, found.then));
  if (found?.outcome === "asks") return openPage(kept);
  isKept ? notes.has(form, submitter, kept) : notes.say(form, submitter, kept, found);
  form.reset();
  renew(form);
  setTimeout(() => free(form), QUIET_MS);
}

/** What the plain form would have sent, without its key, its id and its files. */
function pressed(form, submitter) {
  const fields = [...new FormData(form)].filter(([name, value]) => {
    return typeof value === "string" && name !== "csrfmiddlewaretoken" && name !== "entry";
  });
  if (submitter?.name) fields.push([submitter.name, submitter.value]);
  const action = submitter?.getAttribute("formaction") ?? form.getAttribute("action") ?? "";
  const url = new URL(action || location.href, location.href);
  const words = submitter?.dataset.entry || form.dataset.entry;
  const hash = action ? url.hash : "";
  return { key: pageKey, who: pageWho, address: url.pathname + url.search, hash, fields, words };
}

/** The first answer about a row, from whichever tab sends it. */
function answerTo(id) {
  return new Promise((resolve) => {
    onChange((news) => news.id === id && ANSWERED.includes(news.outcome) && resolve(news));
  });
}

/** Settles when this tab had to stop sending; never, if another tab is at it. */
function stopped() {
  return new Promise((resolve) => {
    sendNow().then((how) => how === "elsewhere" || resolve());
  });
}

function next(form, then) {
  return new URL(then || form.dataset.then || location.pathname + location.search, location.href);
}

function renew(form) {
  const field = form.elements.entry ?? form.appendChild(hidden("entry", ""));
  field.value = newId();
}

function free(form) {
  busy.delete(form);
  form.removeAttribute("aria-busy");
}

/** A browser that keeps nothing sends the form as if there were no script. */
function plainly(form, submitter) {
  if (submitter?.name) form.append(hidden(submitter.name, submitter.value));
  HTMLFormElement.prototype.submit.call(form);
}
