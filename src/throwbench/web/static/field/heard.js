/**
 * The step "sound in this page" of the ladder: whether it is on now, and whether it was heard.
 */
const HEARD = "alarm-heard";

/** What was answered last in this browser: `{heard, at}`, by the workshop's clock. */
export function lastHeard() {
  return JSON.parse(localStorage.getItem(HEARD) ?? "null");
}

export function keepHeard(heard, at) {
  localStorage.setItem(HEARD, JSON.stringify({ heard, at }));
}

/**
 * The words of the step.
 * @param sound what the browser says of the sound now
 * @param strip knows the workshop's clock and day
 * @param now the workshop's time [ms]
 */
export function wordsOf(sound, strip, now) {
  if (!sound.isWanted) return "off until you turn it on";
  if (!sound.isOn) return "held back by this browser: touch the page once to turn it on again";
  const last = lastHeard();
  if (last === null) return "on, not heard yet";
  if (!last.heard) return "on, but it was not heard: turn this device up and try it again";
  const isToday = strip.day(last.at) === strip.day(now);
  return isToday ? `on, heard at ${strip.clock(last.at)}` : `on, last heard on ${strip.day(last.at)}: try it`;
}
