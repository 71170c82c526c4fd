/**
 * The alarm in the open page: it knows what is due, also when the workshop's machine is dead, and
 * rings, says so in the strip and in the title, until the candle is out.
 */
import { Deadlines, markOf } from "./deadlines.js";
import { keepHeard, wordsOf } from "./heard.js";
import { newId } from "./ids.js";
import { Marks } from "./marks.js";
import { putOutBy } from "./outhere.js";
import { sendNow } from "./queue.js";
import { Sound } from "./sound.js";
import { WAITING, keep, onChange, own, rows } from "./store.js";
import { Strip } from "./strip.js";
import { pageKey as key, pageWho } from "./words.js";

const ASK_EVERY_MS = 10_000;
const GIVES_UP_MS = 8_000;
const BUZZ_MS = [400, 200, 400];
const FOR_A_DAY_MS = 24 * 3600 * 1000;

const strip = new Strip(document.querySelector("[data-alarm]"));
const deadlines = new Deadlines(key);
const quiet = new Marks("quiet-until", key);
const rang = new Marks("rang", key);
const sound = new Sound();
let outHere = new Set();
let askedAt = -Infinity;

/** What is due and may be heard: not put out here, and nobody said "I'm there" a moment ago. */
function ringing() {
  const now = deadlines.now();
  const open = deadlines.due().filter((one) => !outHere.has(one.id));
  return open.filter((one) => ringsFrom(one) <= now);
}

/** Where "I'm there" was pressed here, it asks again soon; pressed elsewhere, as the workshop says. */
function ringsFrom(one) {
  return quiet.of(markOf(one)) ?? one.rings_from;
}

function tick() {
  const due = ringing();
  if (due.length > 0) ring(due);
  else beQuiet();
  tellLadder();
  if (performance.now() - askedAt >= ASK_EVERY_MS) ask();
}

function ring(due) {
  sound.ring();
  strip.show(due, sound.isOn);
  navigator.vibrate?.(BUZZ_MS);
}

function beQuiet() {
  if (sound.isRinging) navigator.vibrate?.(0);
  sound.hush();
  strip.hide();
}

/** What the workshop says is due. Without an answer all that is known stays and rings. */
async function ask() {
  askedAt = performance.now();
  const before = Date.now();
  const told = await answerOf("/alarm/", {});
  if (told === null) return;
  deadlines.take(told, before, Date.now());
  await readOutHere();
  tick();
  await tellWhatRang();
}

async function answerOf(address, options) {
  try {
    const signal = AbortSignal.timeout(GIVES_UP_MS);
    const answer = await fetch(address, { cache: "no-store", redirect: "error", signal, ...options });
    return answer.ok ? await answer.json() : null;
  } catch {
    // Nobody answers: the machine is off, or the network away. The alarm goes on without it.
    return null;
  }
}

/** Send a form of the alarm's own; whether it was noted. */
async function send(address, fields) {
  const hello = await answerOf("/entries/", {});
  if (hello === null) return false;
  const body = new URLSearchParams({ ...fields, entry: newId() });
  const headers = { "X-CSRFToken": hello.token };
  return (await answerOf(address, { method: "POST", body, headers })) !== null;
}

/** The workshop notes once that an open page sounded for a deadline. */
async function tellWhatRang() {
  if (!sound.isRinging) return;
  for (const one of ringing().filter((due) => rang.of(markOf(due)) === undefined)) {
    const noted = await send("/alarm/rang/", { deadline: one.id, due: one.due, rung: "page" });
    if (noted) rang.set([markOf(one)], deadlines.now());
  }
}

/** Entries that wait here and put candles out: the workshop does not know of them yet. */
async function readOutHere() {
  const workshopOf = (whose) => whose.split("-")[0];
  const isOurs = (row) => workshopOf(row.key) === workshopOf(key);
  const waiting = (await rows()).filter((row) => row.state === WAITING && isOurs(row));
  outHere = new Set(waiting.flatMap((row) => putOutBy(JSON.parse(row.text))));
}

async function entriesChanged(news) {
  if (news.outcome.startsWith("kept")) await ask();
  else await readOutHere();
  tick();
}

/** Quiet for a while, in the page as it stands: what is half filled in stays. */
async function imThere(event) {
  event.preventDefault();
  quiet.set(ringing().map(markOf), deadlines.now() + strip.pauseMs);
  tick();
  const address = new URL(event.currentTarget.form.action).pathname;
  await keep({ key, who: pageWho, address, fields: [], pressedAt: Date.now(), words: "I’m there" });
  await sendNow();
}

function tellLadder() {
  const words = wordsOf(sound, strip, deadlines.now());
  const state = sound.isOn ? "on" : "off";
  for (const [which, said] of [['[data-rung="page"] [data-words]', words], ["[data-page-state]", state]]) {
    for (const place of document.querySelectorAll(which)) {
      if (place.textContent !== said) place.textContent = said;
    }
  }
}

/** Show or hide what asks whether the sound was heard. */
function askHeard(isAsked) {
  for (const question of document.querySelectorAll("[data-heard]")) question.hidden = !isAsked;
}

async function switchOn() {
  await sound.switchOn();
  askHeard(sound.isOn);
  tick();
}

async function answer(event) {
  const heard = event.currentTarget.value;
  keepHeard(heard === "yes", deadlines.now());
  askHeard(false);
  tellLadder();
  const device = await own("device", (kept) => kept ?? newId());
  await send("/alarm/heard/", { rung: "page", device, heard });
}

/** Any touch may give the sound back that a reload or a call took. */
async function touched() {
  if (!sound.isWanted || sound.isOn) return;
  await sound.wake();
  tick();
}

function begin() {
  const longAgo = deadlines.now() - FOR_A_DAY_MS;
  for (const marks of [quiet, rang]) marks.keep((_, at) => at > longAgo);
  for (const event of ["pointerup", "keydown"]) document.addEventListener(event, touched, true);
  const pressed = [["[data-sound-on]", switchOn], ["[data-heard] button", answer], ["[data-silence]", imThere]];
  for (const [which, does] of pressed) {
    for (const button of document.querySelectorAll(which)) button.addEventListener("click", does);
  }
  for (const button of document.querySelectorAll("[data-sound-on]")) button.hidden = false;
  onChange(entriesChanged);
  addEventListener("pageshow", ask);
  document.addEventListener("visibilitychange", tick);
  if (sound.isWanted) sound.wake().then(tick);
  new Worker(new URL("ticker.js", import.meta.url)).addEventListener("message", tick);
  readOutHere().then(tick);
}

begin();
