/**
 * What the strip of the alarm says, in every page of a maker: which candle, since when.
 */
import { workshopsDay, workshopsTime } from "./words.js";

const TITLE = document.title;
const PAUSE_S = 120;

export class Strip {
  #element;
  #says;
  #mute;
  #handOver;

  constructor(element) {
    this.#element = element;
    this.#says = element.querySelector("[data-alarm-words]");
    this.#mute = element.querySelector("[data-alarm-mute]");
    this.#handOver = element.querySelector("[data-alarm-hand]");
  }

  /** How long "I'm there" keeps it quiet [ms]. */
  get pauseMs() {
    return Number(this.#element.dataset.pauseS ?? PAUSE_S) * 1000;
  }

  /** Say it; what stands there already is not said again to a screen reader. `now` [ms] is the workshop's. */
  show(due, isHeard, now) {
    const groups = together(due);
    const said = groups.map((group) => sentence(group, now)).join(" ");
    if (this.#says.textContent !== said) this.#says.textContent = said;
    this.#mute.hidden = isHeard;
    this.#handOver.hidden = !due.some(isBurn);
    this.#element.hidden = false;
    document.title = `${callOf(groups[0])} · ${TITLE}`;
  }

  hide() {
    if (this.#element.hidden) return;
    this.#element.hidden = true;
    this.#says.textContent = "";
    document.title = TITLE;
  }
}

const isBurn = (one) => one.id.startsWith("burn ");
const WORDS = new Intl.ListFormat("en-GB");
/* The page says above since when. */
const BEHIND = "The workshop’s clock is behind: go by your own timer.";
const PUT_OUT = /^Put out /;

/** Candles of one place, one time and one watcher are one sentence; a timer is one of its own. */
function together(due) {
  const groups = new Map();
  for (const one of due) {
    const same = one.behind ? "behind" : isBurn(one) ? [workshopsTime(one.due), one.where, one.with].join("|") : one.id;
    groups.set(same, [...(groups.get(same) ?? []), one]);
  }
  return [...groups.values()];
}

function sentence(group, now) {
  const [one] = group;
  if (one.behind) return `${callOf(group)}. ${BEHIND}`;
  const was = group.length > 1 ? "they were" : "it was";
  const held = one.with ? `with ${one.with}` : "";
  const more = [one.where, held].filter(Boolean).join(", ");
  const due = `${was} ${isBurn(one) ? "to be out by" : "set for"} ${timeOf(one.due, now)}.`;
  return `${callOf(group)}: ${due}${more && ` ${more}.`}`;
}

/** "13:05"; "24 May, 13:05" where that is another day than `now`. */
function timeOf(ms, now) {
  const day = workshopsDay(ms);
  return day === workshopsDay(now) ? workshopsTime(ms) : `${day}, ${workshopsTime(ms)}`;
}

function callOf(group) {
  const names = WORDS.format(group.map((one) => one.what.replace(PUT_OUT, "")));
  if (group[0].behind) return `Look at ${names} now`;
  return isBurn(group[0]) ? `Put out ${names} now` : `“${group[0].what}” is due`;
}
