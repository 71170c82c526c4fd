/**
 * Notes about deadlines that hold for a while and in every tab: quiet until, rang.
 *
 * Each is `{mark: ms}` in localStorage, where `mark` names one deadline at one time.
 */
export class Marks {
  #name;

  constructor(what, key) {
    this.#name = `alarm-${what} ${key}`;
  }

  #read() {
    return JSON.parse(localStorage.getItem(this.#name) ?? "{}");
  }

  #write(all) {
    localStorage.setItem(this.#name, JSON.stringify(all));
  }

  /** The number kept with a mark; undefined where there is none. */
  of(mark) {
    return this.#read()[mark];
  }

  set(marks, number) {
    this.#write({ ...this.#read(), ...Object.fromEntries(marks.map((mark) => [mark, number])) });
  }

  /** Forget all marks but these. */
  keep(isKept) {
    const kept = Object.entries(this.#read()).filter(([mark, number]) => isKept(mark, number));
    this.#write(Object.fromEntries(kept));
  }
}
