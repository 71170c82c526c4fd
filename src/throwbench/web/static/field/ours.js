/**
 * Whose an entry is: what somebody else pressed on this device is counted, and not shown.
 */
import { pageKey } from "./words.js";
import { workshop } from "./post.js";

/**
 * Whether who looks at this page may see a row. A maker may also see that a guest's answers wait
 * on the phone that went round.
 */
export function isOurs(row) {
  if (pageKey === "") return false;
  if (workshop.reached !== "yes") return row.key === pageKey;
  return workshop.mine.has(row.key) || (row.key === pageKey && row.key === workshop.key);
}
