/**
 * Ids that a device makes itself. Over plain http a browser has no `crypto.randomUUID`, but it
 * has random numbers.
 */

/** @returns {string} a random UUID, version 4 (RFC 9562) */
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [8, 12, 16, 20].reduceRight((id, at) => `${id.slice(0, at)}-${id.slice(at)}`, hex);
}
