/**
 * What will be due, kept in this browser: it rings also while the workshop's machine is dead.
 *
 * Times are the workshop's own [ms since 1970 UTC]: a demo has another year, and a phone's clock
 * may be wrong. Everything is kept under the entry key, so nobody hears what is another's.
 */
export class Deadlines {
  #name;
  #open;
  #since = { wall: Date.now(), run: performance.now() };

  constructor(key) {
    this.#name = `alarm-deadlines ${key}`;
    this.#open = JSON.parse(localStorage.getItem(this.#name) ?? "null") ?? { ahead: 0, all: [] };
  }

  get all() {
    return this.#open.all;
  }

  /**
   * What the workshop says now; what it does not name is done.
   * `asked` and `answered` are this device's clock [ms] before and after.
   */
  take(told, asked, answered) {
    const middle = (asked + answered) / 2;
    this.#open = { ahead: told.now - middle, all: told.deadlines };
    this.#since = { wall: answered, run: performance.now() };
    localStorage.setItem(this.#name, JSON.stringify(this.#open));
  }

  /**
   * The workshop's time now. Where the device's clock was set meanwhile, the later of the two
   * reckonings: an alarm may come early, never late.
   */
  now() {
    const run = this.#since.wall + (performance.now() - this.#since.run);
    return Math.max(Date.now(), run) + this.#open.ahead;
  }

  /** What is due, and what no clock can tell of: the workshop's is behind its own notes. */
  due() {
    const now = this.now();
    return this.all.filter((one) => one.behind || one.due <= now);
  }
}

/** One deadline at one time: a candle lit again, or a limit put right, is another one. */
export const markOf = (deadline) => `${deadline.id} ${deadline.due}`;
