/**
 * The digest by which a device knows its own entry again. Over plain http a browser has no
 * `crypto.subtle`, so it is worked out in JavaScript.
 */
import { sha256 } from "../vendor/noble-hashes-2.4.0/sha2.js";
import { bytesToHex } from "../vendor/noble-hashes-2.4.0/utils.js";

/**
 * @param {string} text
 * @returns {string} SHA-256 of its UTF-8 bytes, in hex
 */
export function digestOf(text) {
  return bytesToHex(sha256(new TextEncoder().encode(text)));
}
