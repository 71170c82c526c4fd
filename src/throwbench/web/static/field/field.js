/**
 * Begins the queue on a page: forms are taken over, what waits is sent, and the tray says so.
 */
import { takeBackShown } from "./store.js";
import { askedHere, onSubmit, startAgain, takeOver } from "./forms.js";
import { keepSending } from "./queue.js";
import { keepTelling } from "./tray.js";
import { keepListing } from "./waiting.js";
import { forgetOthers } from "./forget.js";
import { pageKey } from "./words.js";

document.addEventListener("submit", onSubmit);
window.addEventListener("pageshow", (event) => event.persisted && startAgain());

forgetOthers(pageKey);
keepTelling();
keepListing();
await takeOver();
await takeBackShown(askedHere());
keepSending();
document.documentElement.dataset.queue = "ready";
