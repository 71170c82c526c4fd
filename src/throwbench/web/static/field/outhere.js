/**
 * Which candles an entry puts out: it may wait on this device for hours until it is sent.
 *
 * The names of the fields are those of the burn round and of "I'm going out".
 */
const ENDS = /^b(\d+)-(?:answer=out|(?:crack|itself|end|out_now)=on)$/;

/** Deadlines' ids, as in "burn 12", of what an entry `{address, fields}` puts out. */
export function putOutBy(entry) {
  const path = new URL(entry.address, location.href).pathname;
  if (path === "/round/all-out/") {
    return entry.fields.filter(([name]) => name === "burns").map(([, burn]) => `burn ${burn}`);
  }
  if (path !== "/round/") return [];
  const ends = entry.fields.map(([name, value]) => ENDS.exec(`${name}=${value}`));
  return ends.filter(Boolean).map((found) => `burn ${found[1]}`);
}
