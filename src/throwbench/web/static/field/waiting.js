/**
 * Fills the page "What waits on this device", entry by entry in the order in which it was pressed.
 */
import { ASKS, CONFLICT, onRows } from "./store.js";
import { element } from "./build.js";
import { clock, device, entries, isHanded } from "./words.js";
import { isOurs } from "./ours.js";
import { labelled } from "./labels.js";

const DRAWS_AFTER_MS = 200;
const SHOWN_AT_MOST = 200;
const said = document.querySelector("[data-waiting-said]");
const part = document.querySelector("[data-waiting-part]");
const list = document.querySelector("[data-waiting-list]");
const STATES = { [ASKS]: "the workshop asks about it: see above", [CONFLICT]: "not noted: see above" };

/** Fill it now and after every change, where the page is that one. */
export function keepListing() {
  if (list) onRows(draw, DRAWS_AFTER_MS);
}

function draw(all) {
  const ours = all.filter(isOurs);
  said.textContent = sentence(ours, all.length - ours.length);
  part.hidden = !ours.length;
  list.replaceChildren(...ours.slice(0, SHOWN_AT_MOST).map(item));
  if (ours.length > SHOWN_AT_MOST) {
    list.append(element("li", "", element("p.second", `and ${entries(ours.length - SHOWN_AT_MOST)} more`)));
  }
}

function sentence(ours, others) {
  const verb = (count) => (count === 1 ? "waits" : "wait");
  const own = ours.length ? `${entries(ours.length)} ${verb(ours.length)} on this ${device}.` : `Nothing of yours waits on this ${device}. All you pressed is in the workshop.`;
  return others ? `${own} ${entries(others)} of somebody else ${verb(others)} here too.` : own;
}

function item(row) {
  const [at, day] = clock(row.pressedAt).split(" on ");
  const when = element("div.ledger__when", at, day ? element("small", day) : "");
  const fields = isHanded(row.key) ? "" : labelled(JSON.parse(row.text).fields);
  const state = STATES[row.state] ?? "waits for the workshop";
  return element("li", when, element("div", element("strong", row.words), element("p.second.small", [state, fields].filter(Boolean).join(" · "))));
}
