/**
 * What is said beside the button that was pressed.
 */
import { onChange } from "./store.js";
import { element, link, mark } from "./build.js";
import { clock, device } from "./words.js";
import { workshop } from "./post.js";

const LATER_MS = 120000;
const NOT_TAKEN = {
  asks: "The workshop asks about it: see above.",
  conflict: "The workshop has another entry in its place: see above.",
};
const said = new Map();

function place(form, submitter) {
  const thanks = document.querySelector("[data-entry-thanks]");
  if (thanks) {
    form.hidden = true;
    thanks.hidden = false;
    thanks.querySelector("[tabindex]")?.focus();
    return thanks.querySelector("[data-entry-note]");
  }
  const before = submitter?.nextElementSibling;
  if (before?.matches(".entry-note")) return before;
  const note = element("p.entry-note");
  note.setAttribute("role", "status");
  submitter ? submitter.after(note) : form.append(note);
  return note;
}

/** @returns {string} why it is not in the workshop yet; `data-later` of a form says what that means */
function whyNot(form, found) {
  if (found?.outcome in NOT_TAKEN) return NOT_TAKEN[found.outcome];
  if (workshop.reached === "sign in") return "Your sign-in has ended. It is sent once you are signed in.";
  if (workshop.reached === "no") return form.dataset.later ?? "It is sent as soon as the workshop is reached.";
  return "It is being sent.";
}

export const notes = {
  /** It is noted here. Set after the place for it is in the page, so that it is read aloud. */
  say(form, submitter, kept, found) {
    const note = place(form, submitter);
    said.set(kept.id, { note, at: clock(kept.pressedAt) });
    const words = `Noted on this ${device} at ${clock(kept.pressedAt)}. ${whyNot(form, found)}`;
    setTimeout(() => note.replaceChildren(mark("due"), element("span", words)));
  },

  /** The workshop has it, and the page stands as it was. */
  has(form, submitter, kept) {
    const note = place(form, submitter);
    const words = `The workshop has it, noted at ${clock(kept.pressedAt)}.`;
    setTimeout(() => note.replaceChildren(mark("done"), element("span", words)));
  },

  /** A form that came back: what is answered now is noted for the time of the first press. */
  answers(form, kept) {
    if (Date.now() - kept.pressedAt < LATER_MS) return;
    const words = `You pressed this at ${clock(kept.pressedAt)}. Your answer is noted for that time.`;
    form.prepend(element("p.entry-note", mark("due"), element("span", words)));
  },
};

onChange(({ id, outcome, then }) => {
  const one = said.get(id);
  if (one && outcome in NOT_TAKEN) {
    one.note.replaceChildren(mark("late"), element("span", `Pressed at ${one.at}. ${NOT_TAKEN[outcome]}`));
  }
  if (!one || !outcome.startsWith("kept")) return;
  said.delete(id);
  const thanks = one.note.closest("[data-entry-thanks]");
  const words = `The workshop has it, noted at ${one.at}. `;
  const more = thanks ? "" : link("Show the page as it is now", then || location.pathname);
  one.note.replaceChildren(mark("done"), element("span", words, more));
  for (const next of thanks?.querySelectorAll("[data-entry-next]") ?? []) next.hidden = false;
});
