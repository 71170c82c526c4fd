/**
 * What the workshop did not take as it was: what it asks, and how the maker answers.
 */
import { ASKS, WAITING, forget, mark as note, row } from "./store.js";
import { button, element, mark } from "./build.js";
import { clock, isHanded, workshopsClock } from "./words.js";
import { labelled } from "./labels.js";
import { openPage } from "./native.js";
import { sendNow } from "./queue.js";

/** The workshop refuses a row or asks about it. */
export function asked(one) {
  const what = `The workshop asks about “${one.words}” of ${clock(one.pressedAt)}:`;
  const acts = element("div.acts");
  acts.append(isHanded(one.key) ? again(one) : open(one), leaveOut(one, acts));
  const sentences = one.said.length ? one.said : ["It says no more. Open it to see its page."];
  return finding("late", what, ...sentences.map((said) => element("p.finding__why", said)), acts);
}

/** The id of a row was used for something else, which is kept. */
export function unlike(one) {
  const what = `“${one.words}” of ${clock(one.pressedAt)} was not noted: the workshop has another entry in its place.`;
  const { what: kept, at } = one.first ?? {};
  const first = kept ? `Kept first: ${kept}, ${workshopsClock(at)}.` : one.said.join(" ");
  const typed = isHanded(one.key) ? "" : labelled(JSON.parse(one.text).fields);
  const lines = [first, typed && `Pressed here: ${typed}.`].filter(Boolean);
  const acts = element("div.acts", button("Let it go", () => forget(one.id, one.digest, "let go")));
  return finding("late", what, ...lines.map((line) => element("p.finding__why", line)), acts);
}

/** Asked once more first: it may have become clear meanwhile. Then its own page says what is wrong. */
function open(one) {
  return button("Open it", async () => {
    await sendAgain(one);
    const now = await row(one.id);
    if (now?.state === ASKS) await openPage(now);
  });
}

function again(one) {
  return button("Send it again", () => sendAgain(one));
}

async function sendAgain(one) {
  await note(one.id, one.digest, { state: WAITING });
  await sendNow();
}

/** Asked about in place, once. */
function leaveOut(one, acts) {
  const before = () => acts.replaceChildren(isHanded(one.key) ? again(one) : open(one), leaveOut(one, acts));
  return button("Leave it out", () => {
    const really = button("Leave it out for good", () => forget(one.id, one.digest, "left out"));
    acts.replaceChildren(element("p.tray__sure", "Then nobody can bring it back."), really, button("Keep it", before));
    really.focus();
  });
}

function finding(shape, what, ...more) {
  const body = element("div", element("p.finding__what", what), ...more);
  return element("div.finding.finding--caution", mark(shape), body);
}
