/**
 * The sound of the alarm: two tones in turn, made here, so that no file has to be fetched.
 *
 * A browser lets a page sound only after it was touched, and may take it back later (a call, a
 * locked screen, a reload). `isOn` is therefore what the browser says now, never what was pressed.
 */
const WANTED = "alarm-sound";
/* Middle and swing of the two tones [Hz]: 520 and 980, which small speakers and old ears have. */
const MIDDLE_HZ = 750;
const SWING_HZ = 230;
const TURNS_HZ = 2;
const BEATS_HZ = 0.7;
const LOUDEST = 0.9;
const TRIAL_MS = 1000;

export class Sound {
  #context = null;
  #voice = null;

  /** Whether somebody switched it on in this browser, today or earlier. */
  get isWanted() {
    return localStorage.getItem(WANTED) === "on";
  }

  /** Whether the browser would let it be heard now. */
  get isOn() {
    return this.#context?.state === "running";
  }

  get isRinging() {
    return this.#voice !== null;
  }

  /** Ask the browser; it may say no until the page is touched. */
  wake() {
    this.#context ??= new AudioContext();
    if (this.#context.state === "running") return Promise.resolve();
    return this.#context.resume();
  }

  /** In a touch: switch it on and sound for a second, as a trial. */
  async switchOn() {
    localStorage.setItem(WANTED, "on");
    await this.wake();
    if (this.isRinging) return;
    const trial = this.#begin();
    await new Promise((passed) => setTimeout(passed, TRIAL_MS));
    trial.stop();
  }

  /** Sound until `hush`. It goes on by itself, however seldom the page gets its turn. */
  ring() {
    if (this.#voice === null && this.isOn) this.#voice = this.#begin();
  }

  hush() {
    this.#voice?.stop();
    this.#voice = null;
  }

  #begin() {
    const context = this.#context;
    const loudness = new GainNode(context, { gain: LOUDEST / 2 });
    const tone = new OscillatorNode(context, { type: "square", frequency: MIDDLE_HZ });
    const turns = new OscillatorNode(context, { type: "square", frequency: TURNS_HZ });
    const beats = new OscillatorNode(context, { type: "square", frequency: BEATS_HZ });
    const all = [tone, turns, beats];
    turns.connect(new GainNode(context, { gain: SWING_HZ })).connect(tone.frequency);
    beats.connect(new GainNode(context, { gain: LOUDEST / 2 })).connect(loudness.gain);
    tone.connect(loudness).connect(context.destination);
    for (const one of all) one.start();
    return {
      stop() {
        for (const one of all) one.stop();
        loudness.disconnect();
      },
    };
  }
}
