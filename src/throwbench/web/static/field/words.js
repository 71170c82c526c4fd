/**
 * How the queue speaks: times as the page's own (the workshop's zone, the demo's day), and the
 * thing it stands on.
 */
const tray = document.querySelector("[data-tray]");
const zone = tray?.dataset.zone || undefined;
const offsetMs = Number(tray?.dataset.offset || 0);

/** Whose the entries of this page are: a key, and the name for "sign in as …". */
export const pageKey = document.querySelector('meta[name="entry-key"]')?.content ?? "";
export const pageWho = tray?.dataset.who ?? "";

/** Whether the page is one of an assessor's road, which is handed on. */
export const isHanded = (key) => key.includes("-panel-");

/** "phone" or "computer". */
export const device = matchMedia("(pointer: coarse), (max-width: 40rem)").matches ? "phone" : "computer";

/**
 * @param {number} ms by this device's clock
 * @returns {string} "11:05", and the day where it is not today's
 */
export function clock(ms) {
  const at = format(ms, { hour: "2-digit", minute: "2-digit" });
  const day = format(ms, { day: "numeric", month: "long" });
  return day === format(Date.now(), { day: "numeric", month: "long" }) ? at : `${at} on ${day}`;
}

/**
 * @param {string} iso a time as the workshop tells it: in a demo by the demo's day already
 * @returns {string} as `clock`
 */
export function workshopsClock(iso) {
  return clock(Date.parse(iso) - offsetMs);
}

/**
 * The alarm reckons in the workshop's own time [ms], also where a demo has another day.
 * @returns {string} "13:05"
 */
export const workshopsTime = (ms) => format(ms - offsetMs, { hour: "2-digit", minute: "2-digit" });

/** @returns {string} "24 May", of the workshop's own time [ms] */
export const workshopsDay = (ms) => format(ms - offsetMs, { day: "numeric", month: "long" });

/** @returns {string} "1 entry", "2 entries" */
export function entries(count) {
  return `${count.toLocaleString("en-GB")} ${count === 1 ? "entry" : "entries"}`;
}

function format(ms, parts) {
  return new Intl.DateTimeFormat("en-GB", { ...parts, timeZone: zone }).format(ms + offsetMs);
}
