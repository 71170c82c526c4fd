/**
 * The laptop as a bench: the space bar, or a pedal, presses the ember button of `[data-bench]`.
 *
 * It presses nothing where a key has a meaning of its own (a box, a list, another button), and
 * nothing while a question with two answers (`[data-asks]`) stands open: a foot cannot tell them
 * apart.
 */
import { isPedal, pedal } from "./pedal.js";

const OWN_MEANING = "input, select, textarea, summary, button, [contenteditable]";
/* A box that a hand ticked a moment ago still has the focus; the foot does not mean it. */
const TICKS = 'input[type="radio"], input[type="checkbox"]';
const LAST = "bench-pressed-at";
/* A switch that bounces, or a foot that slips, is one press. */
const ONE_PRESS_MS = 700;

const bench = document.querySelector("[data-bench]");
const says = document.createElement("p");
let byHand = false;

const isShown = (element) => (element.checkVisibility ? element.checkVisibility() : element.getClientRects().length > 0);
const ember = () => [...bench.querySelectorAll(".act--do")].find(isShown);
const question = () => [...document.querySelectorAll("[data-asks]")].find(isShown);

function isFree(target) {
  if (target.matches(TICKS)) return byHand;
  return !target.matches(OWN_MEANING);
}

function isPress(event) {
  const joined = event.ctrlKey || event.altKey || event.metaKey || event.shiftKey;
  return !joined && !event.isComposing && (event.key === " " || isPedal(event));
}

function isTooSoon() {
  const since = Date.now() - Number(sessionStorage.getItem(LAST) ?? 0);
  sessionStorage.setItem(LAST, String(Date.now()));
  return since >= 0 && since < ONE_PRESS_MS;
}

function press(event) {
  if (event.key === "Tab" && !isPedal(event)) byHand = false;
  if (event.defaultPrevented || !isPress(event) || !isFree(event.target)) return;
  const button = ember();
  const asked = question();
  if (!button && !asked) return;
  event.preventDefault();
  if (event.repeat || isTooSoon()) return;
  says.textContent = "";
  if (asked) {
    says.textContent = "Nothing was pressed: a question with two answers stands open. Press one of them.";
    asked.scrollIntoView({ block: "nearest" });
  } else {
    button.click();
  }
}

/** The buttons say which key presses them; what a button is called stays as it is. */
function tell() {
  for (const button of bench.querySelectorAll(".act--do")) {
    const key = document.createElement("kbd");
    key.textContent = pedal() === null ? "space bar" : "space bar or pedal";
    key.ariaHidden = "true";
    button.append(key);
    button.setAttribute("aria-keyshortcuts", "Space");
  }
  says.className = "bench__says";
  says.role = "status";
  bench.append(says);
}

if (bench !== null) {
  tell();
  document.addEventListener("keydown", press);
  document.addEventListener("pointerdown", () => { byHand = true; }, true);
}
