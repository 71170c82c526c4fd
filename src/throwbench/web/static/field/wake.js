/**
 * Keeps the screen on where a candle burns or a pitcher stands open, and says whether it does.
 */
const place = document.querySelector("[data-wake]");
const ON = "The screen stays on while this page is open.";
const OFF = "The screen may go dark by itself: set its time in this device’s own settings.";

await hold();
document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && hold());

async function hold() {
  try {
    const lock = await navigator.wakeLock.request("screen");
    lock.addEventListener("release", () => say(OFF));
    say(ON);
  } catch {
    say(OFF); // there is none over plain http, or the battery is low
  }
}

function say(words) {
  place.textContent = words;
  place.hidden = false;
}
