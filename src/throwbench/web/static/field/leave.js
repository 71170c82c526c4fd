/**
 * Before somebody leaves this browser: how many of the own entries have not been sent.
 */
import { element } from "./build.js";
import { onChange, rows } from "./store.js";
import { device, entries, pageKey } from "./words.js";

const form = document.querySelector("[data-leaves]");
const place = element("p.small");
form.before(place);
onChange(tell);
await tell();

async function tell() {
  const own = (await rows()).filter((row) => row.key === pageKey);
  place.hidden = !own.length;
  if (!own.length) return;
  const wait = own.length === 1 ? "waits" : "wait";
  const them = own.length === 1 ? "It stays" : "They stay";
  place.textContent = `${entries(own.length)} of yours ${wait} on this ${device}, not sent yet. ${them} here and can be sent when you are signed in here again.`;
}
