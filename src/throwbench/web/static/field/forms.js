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
/** Of a form whose press is on its way: what another press must differ from to be one of its own. */
const busy = new WeakMap();
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
  const saying = whatIsSaid(form, event.submitter);
  if (busy.get(form)?.has(saying)) return;
  const turn = new Set([saying]);
  busy.set(form, turn);
  form.setAttribute("aria-busy", "true");
  press(form, event.submitter, turn, Date.now());
}

async function press(form, submitter, turn, pressedAt) {
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
  await follow(form, submitter, turn, kept, found);
}

async function follow(form, submitter, turn, kept, found) {
  const isKept = found?.outcome.startsWith("kept");
  const isLast = busy.get(form) === turn; // else the press after it says what comes next
  // What was ticked since the press stays; of a guest, who hands the phone on, nothing does.
  const stands = isHandedOn() || turn.has(whatIsSaid(form, submitter));
  const goesOn = isLast && stands;
  if (goesOn && isKept && !("stay" in form.dataset)) return location.assign(next(form, found.then));
  if (goesOn && found?.outcome === "asks") return openPage(kept);
  isKept ? notes.has(form, submitter, kept) : notes.say(form, submitter, kept, found);
  if (!isLast) return;
  if (stands) form.reset();
  if (stands) turn.add(whatIsSaid(form, submitter));
  renew(form);
  setTimeout(() => busy.get(form) === turn && free(form), QUIET_MS);
}

const isHandedOn = () => document.querySelector("[data-entry-thanks]") !== null;

/** Two presses that say the same within a moment are one. */
function whatIsSaid(form, submitter) {
  const { address, fields } = pressed(form, submitter);
  return JSON.stringify([address, fields]);
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
    const end = onChange((news) => {
      if (news.id !== id || !ANSWERED.includes(news.outcome)) return;
      end();
      resolve(news);
    });
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
