/**
 * One sender per browser at a time. Two would do no harm, since the workshop notes an entry once;
 * it would only be work for nothing. Locks of the browser do not exist over plain http, so there
 * a row that runs out by itself says whose turn it is.
 */
import { newId } from "./ids.js";
import { own } from "./store.js";

const LASTS_MS = 5000;
const RENEWED_MS = 1500;
const ME = me();

/**
 * Do the work if nobody else is at it.
 * @param {() => Promise<void>} work
 * @returns {Promise<boolean>} whether it was done here
 */
export async function inTurn(work) {
  if (navigator.locks) {
    return navigator.locks.request("throwbench-sender", { ifAvailable: true }, async (lock) => {
      if (lock) await work();
      return lock !== null;
    });
  }
  if ((await claim()) !== ME) return false;
  const renewing = setInterval(claim, RENEWED_MS);
  try {
    await work();
  } finally {
    clearInterval(renewing);
    await own("lease", (held) => (held?.by === ME ? { by: "", until: 0 } : undefined));
  }
  return true;
}

/** @returns {Promise<string>} whose turn it is now */
async function claim() {
  const now = Date.now();
  let holder = "";
  await own("lease", (held) => {
    const free = !held || held.by === ME || held.until < now || held.until > now + LASTS_MS;
    holder = free ? ME : held.by;
    return free ? { by: ME, until: now + LASTS_MS } : undefined;
  });
  return holder;
}

/** A tab keeps its name from page to page: the page that it left need not be waited for. */
function me() {
  try {
    const name = sessionStorage.getItem("throwbench-tab") ?? newId();
    sessionStorage.setItem("throwbench-tab", name);
    return name;
  } catch {
    return newId();
  }
}
