/**
 * The alarm in the open page: it knows what is due, also when the workshop's machine is dead, and
 * rings, says so in the strip and in the title, until the candle is out.
 */
import { Deadlines, markOf } from "./deadlines.js";
import { Ladder } from "./ladder.js";
import { Marks } from "./marks.js";
import { endedBy } from "./ended.js";
import { giveTurnBack, takeTurn } from "./solo.js";
import { Sound } from "./sound.js";
import { WAITING, onChange, rows } from "./store.js";
import { Strip } from "./strip.js";
import { answerOf, note, send } from "./told.js";
import { pageKey as key } from "./words.js";

const ASK_EVERY_MS = 10_000;
/* Another device may light a candle or set a timer. */
const ASK_WHILE_NOTHING_IS_OPEN_MS = 30_000;
const BUZZ_MS = [400, 200, 400];
const FOR_A_DAY_MS = 24 * 3600 * 1000;

const strip = new Strip(document.querySelector("[data-alarm]"));
const deadlines = new Deadlines(key);
const quiet = new Marks("quiet-until", key);
const rang = new Marks("rang", key);
const sound = new Sound();
const ladder = new Ladder(sound, () => deadlines.now());
let endedHere = new Set();
let askedAt = -Infinity;

/** What is due and may be heard: not ended here, and nobody said "I'm there" a moment ago. */
function ringing() {
  const now = deadlines.now();
  const open = deadlines.due().filter((one) => !endedHere.has(one.id));
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
  ladder.tell();
  const every = deadlines.all.length > 0 ? ASK_EVERY_MS : ASK_WHILE_NOTHING_IS_OPEN_MS;
  if (performance.now() - askedAt >= every) ask();
}

function ring(due) {
  if (sound.isOn && takeTurn()) sound.ring();
  else sound.hush();
  strip.show(due, sound.isOn, deadlines.now());
  buzz(BUZZ_MS);
}

/** Where a device can, and the browser lets a page: after a touch. */
function buzz(pattern) {
  if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.(pattern);
}

function beQuiet() {
  if (sound.isRinging) {
    buzz(0);
    giveTurnBack();
  }
  sound.hush();
  strip.hide();
}

/** What the workshop says is due. Without an answer all that is known stays and rings. */
async function ask() {
  askedAt = performance.now();
  const before = Date.now();
  const told = await answerOf("/alarm/");
  if (told === null) return;
  deadlines.take(told, before, Date.now());
  await readEndedHere();
  tick();
  await tellWhatRang();
}

/** The workshop notes once that an open page sounded for a deadline. */
async function tellWhatRang() {
  if (!sound.isRinging || !sound.isOn) return;
  for (const one of ringing().filter((due) => rang.of(markOf(due)) === undefined)) {
    const noted = await send("/alarm/rang/", { deadline: one.id, due: one.due, rung: "page" });
    if (noted) rang.set([markOf(one)], deadlines.now());
  }
}

/** Entries that wait here and end something: the workshop does not know of them yet. */
async function readEndedHere() {
  const workshopOf = (whose) => whose.split("-")[0];
  const isOurs = (row) => workshopOf(row.key) === workshopOf(key);
  const waiting = (await rows()).filter((row) => row.state === WAITING && isOurs(row));
  endedHere = new Set(waiting.flatMap((row) => endedBy(JSON.parse(row.text))));
}

async function entriesChanged(news) {
  if (news.outcome.startsWith("kept")) await ask();
  else await readEndedHere();
  tick();
}

/** Quiet for a while, in the page as it stands: what is half filled in stays. */
async function imThere(event) {
  event.preventDefault();
  quiet.set(ringing().map(markOf), deadlines.now() + strip.pauseMs);
  tick();
  const address = new URL(event.currentTarget.form.action).pathname;
  await note(address, {}, "I’m there");
}

/** Any touch may give the sound back that a reload or a call took. */
async function touched() {
  if (!sound.isWanted || sound.isOn) return;
  await sound.wake();
  tick();
}

const longAgo = deadlines.now() - FOR_A_DAY_MS;
for (const marks of [quiet, rang]) marks.keep((_, at) => at > longAgo);
for (const event of ["pointerup", "keydown"]) document.addEventListener(event, touched, true);
for (const button of document.querySelectorAll("[data-silence]")) button.addEventListener("click", imThere);
onChange(entriesChanged);
addEventListener("pageshow", ask);
addEventListener("pagehide", giveTurnBack);
document.addEventListener("visibilitychange", tick);
if (sound.isWanted) sound.wake().then(tick);
new Worker(new URL("ticker.js", import.meta.url)).addEventListener("message", tick);
readEndedHere().then(tick);
