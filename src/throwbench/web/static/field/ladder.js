/**
 * The step "sound in this page" of the ladder: turn it on, try it, and what can be said of it now.
 */
import { note } from "./told.js";
import { workshopsDay, workshopsTime } from "./words.js";

const HEARD = "alarm-heard";
const all = (which) => document.querySelectorAll(which);

export class Ladder {
  #sound;
  #now;

  /**
   * @param sound what the browser says of the sound now
   * @param now the workshop's time [ms]
   */
  constructor(sound, now) {
    this.#sound = sound;
    this.#now = now;
    for (const button of all("[data-sound-on]")) {
      button.hidden = false;
      button.addEventListener("click", () => this.#turnOn());
    }
    for (const button of all("[data-heard] button")) {
      button.addEventListener("click", () => this.#answer(button.value));
    }
  }

  /** Say how it stands; what stands there already is left. */
  tell() {
    put('[data-rung="page"] [data-words]', this.#words());
    put("[data-page-state]", this.#sound.isOn ? "on" : "off");
  }

  #words() {
    if (!this.#sound.isWanted) return "off until you turn it on";
    if (!this.#sound.isOn) return "held back by this browser: touch the page once to turn it on again";
    const last = JSON.parse(localStorage.getItem(HEARD) ?? "null");
    if (last === null) return "on, not heard yet";
    if (!last.heard) return "on, but it was not heard: turn this device up and try it again";
    const [heardOn, today] = [last.at, this.#now()].map(workshopsDay);
    return heardOn === today ? `on, heard at ${workshopsTime(last.at)}` : `on, last heard on ${heardOn}: try it`;
  }

  async #turnOn() {
    await this.#sound.switchOn();
    this.#ask(this.#sound.isOn);
    this.tell();
  }

  async #answer(heard) {
    localStorage.setItem(HEARD, JSON.stringify({ heard: heard === "yes", at: this.#now() }));
    this.#ask(false);
    this.tell();
    const words = heard === "yes" ? "The alarm was heard" : "The alarm was not heard";
    await note("/alarm/heard/", { rung: "page", heard }, words);
  }

  #ask(isAsked) {
    for (const question of all("[data-heard]")) question.hidden = !isAsked;
  }
}

function put(which, words) {
  for (const place of all(which)) {
    if (place.textContent !== words) place.textContent = words;
  }
}
