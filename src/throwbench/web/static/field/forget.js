/**
 * What this browser knows of lit candles is for who saw it: once a page is somebody else's, or
 * nobody's, it is forgotten. Who comes back is told anew by the workshop.
 */
const OF_THE_ALARM = /^alarm-(deadlines|quiet-until|rang) /;

/** @param {string} key whose the page is; empty where nobody is let in */
export function forgetOthers(key) {
  for (const name of Object.keys(localStorage)) {
    const isOwn = key && name.endsWith(` ${key}`);
    if (OF_THE_ALARM.test(name) && !isOwn) localStorage.removeItem(name);
  }
}
