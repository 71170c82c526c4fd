/**
 * What an entry ends, a candle or a timer: it may wait on this device for hours until it is sent.
 *
 * The names of the fields are those of the burn round and of "I'm going out".
 */
const ENDS = /^b(\d+)-(?:answer=out|(?:crack|itself|end|out_now)=on)$/;

const TIMER_DONE = /^\/timers\/(\d+)\/done\/$/;

/** Deadlines' ids, as in "burn 12" or "timer 3", of what an entry `{address, fields}` ends. */
export function endedBy(entry) {
  const path = new URL(entry.address, location.href).pathname;
  const done = TIMER_DONE.exec(path);
  if (done) return [`timer ${done[1]}`];
  if (path === "/round/all-out/") {
    return entry.fields.filter(([name]) => name === "burns").map(([, burn]) => `burn ${burn}`);
  }
  if (path !== "/round/") return [];
  const ends = entry.fields.map(([name, value]) => ENDS.exec(`${name}=${value}`));
  return ends.filter(Boolean).map((found) => `burn ${found[1]}`);
}
