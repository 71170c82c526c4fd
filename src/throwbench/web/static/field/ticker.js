/**
 * A worker that says "a second has passed", over and over.
 *
 * Browsers let a timer of a hidden page run once a minute only; those of a worker go on.
 */
const EVERY_MS = 1000;

setInterval(() => postMessage("tick"), EVERY_MS);
