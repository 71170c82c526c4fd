/**
 * When to send: at once, and while something waits again and again, ever more slowly.
 */
import { WAITING, onChange, rows, tell } from "./store.js";
import { sendAll, workshop } from "./post.js";

const PAUSES_MS = [2000, 5000, 15000];
const ELSEWHERE_MS = 2000;
let running = null;
let failed = 0;
let timer = 0;

/**
 * Send now what waits.
 * @returns {Promise<"sent"|"stopped"|"elsewhere">} as `sendAll` does
 */
export function sendNow() {
  clearTimeout(timer);
  running ??= run().finally(() => (running = null));
  return running;
}

async function run() {
  const how = await sendAll();
  failed = how === "stopped" ? failed + 1 : 0;
  if (how !== "elsewhere") tellAll();
  await planNext(how);
  return how;
}

/** Nothing is asked of the workshop while nothing of this browser's waits. */
async function planNext(how) {
  if (workshop.reached === "sign in") return;
  const left = (await rows()).filter((one) => one.state === WAITING);
  const own = how === "sent" ? left.filter((one) => workshop.mine.has(one.key)) : left;
  if (!own.length) return;
  const pause = how === "elsewhere" ? ELSEWHERE_MS : PAUSES_MS[Math.min(failed, PAUSES_MS.length) - 1];
  timer = setTimeout(sendNow, pause ?? PAUSES_MS[0]);
}

/** All tabs learn how the workshop was found. */
function tellAll() {
  const { reached, key, mine } = workshop;
  tell("", "looked", { reached, key, mine: [...mine] });
}

/** Look again whenever there may be a reason to. */
export function keepSending() {
  const again = async () => {
    if (document.visibilityState === "visible" && (await rows()).length) sendNow();
  };
  window.addEventListener("online", again);
  window.addEventListener("pageshow", again);
  document.addEventListener("visibilitychange", again);
  onChange(({ outcome, reached, key, mine }) => {
    if (outcome === "looked") Object.assign(workshop, { reached, key, mine: new Set(mine) });
  });
  again();
}
