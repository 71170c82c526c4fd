/**
 * What the strip of the alarm says, in every page of a maker: which candle, since when.
 */
const TITLE = document.title;
const PAUSE_S = 120;

export class Strip {
  #element;
  #says;
  #mute;
  #zone;

  constructor(element) {
    this.#element = element;
    this.#says = element.querySelector("[data-alarm-words]");
    this.#mute = element.querySelector("[data-alarm-mute]");
    this.#zone = element.dataset.zone || undefined;
  }

  /** How long "I'm there" keeps it quiet [ms]. */
  get pauseMs() {
    return Number(this.#element.dataset.pauseS ?? PAUSE_S) * 1000;
  }

  /** Say it; what stands there already is not said again to a screen reader. */
  show(due, isHeard) {
    const said = due.map((one) => this.sentence(one)).join(" ");
    if (this.#says.textContent !== said) this.#says.textContent = said;
    this.#mute.hidden = isHeard;
    this.#element.hidden = false;
    document.title = `${callOf(due[0])} · ${TITLE}`;
  }

  hide() {
    if (this.#element.hidden) return;
    this.#element.hidden = true;
    this.#says.textContent = "";
    document.title = TITLE;
  }

  sentence(one) {
    const was = isBurn(one) ? "it was to be out by" : "it was set for";
    const held = one.with ? `with ${one.with}` : "";
    const more = [one.where, held].filter(Boolean).join(", ");
    return `${callOf(one)}: ${was} ${this.clock(one.due)}.${more && ` ${more}.`}`;
  }

  /** The workshop's clock, as in "13:05". */
  clock(ms) {
    return new Date(ms).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: this.#zone });
  }

  /** The workshop's day, as in "24 May". */
  day(ms) {
    return new Date(ms).toLocaleDateString("en-GB", { day: "numeric", month: "long", timeZone: this.#zone });
  }
}

const isBurn = (one) => one.id.startsWith("burn ");
const callOf = (one) => (isBurn(one) ? `${one.what} now` : `“${one.what}” is due`);
