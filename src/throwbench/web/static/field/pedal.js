/**
 * A pedal that types a key: which key it is, kept in this browser, and the block that teaches it.
 */
const KEPT = "pedal-key";
const HURTS = {
  Tab: "It moves from box to box",
  Escape: "It leaves what is open",
  Backspace: "It deletes what is typed",
  Delete: "It deletes what is typed",
  ContextMenu: "It opens a menu of the browser",
};
const NO_KEY = /^(Shift|Control|Alt|AltGraph|Meta|CapsLock|NumLock|Fn|Dead|Process|Unidentified|)$/;
/* F1 to F12 reload, search, close or fill the screen in one browser or another. */
const OF_THE_BROWSER = /^(F([1-9]|1[0-2])|Browser.*|Launch.*|Power|Sleep|WakeUp|PrintScreen)$/;

/** The key of the pedal, `{key, code}`; null where none was taught. */
export function pedal() {
  return JSON.parse(localStorage.getItem(KEPT) ?? "null");
}

/** Whether this press is the pedal's. Some devices send no code; then the key has to do. */
export function isPedal(event) {
  const known = pedal();
  if (known === null) return false;
  return known.code ? known.code === event.code : known.key === event.key;
}

/** What the key is called: "space bar", "Page Down", "b". */
export function nameOf({ key }) {
  return key === " " ? "space bar" : key.replace(/([a-z])([A-Z])/g, "$1 $2");
}

/** Why a key cannot be the pedal's; empty if it can. */
export function refusal(event) {
  if (event.ctrlKey || event.altKey || event.metaKey) return "Keys pressed together belong to the browser";
  if (HURTS[event.key]) return HURTS[event.key];
  if (NO_KEY.test(event.key)) return "Alone it types nothing";
  return OF_THE_BROWSER.test(event.key) ? "Browsers use it themselves" : "";
}

function teach(block) {
  const says = block.querySelector("[data-pedal-says]");
  const forget = block.querySelector("[data-pedal-forget]");
  let isListening = false;

  const show = (said) => {
    const known = pedal();
    const state = known === null ? "No pedal is taught in this browser. The space bar works." : `The pedal is ${nameOf(known)}, in this browser.`;
    says.textContent = said ?? state;
    forget.hidden = known === null;
  };
  const take = (event) => {
    if (!isListening || event.repeat) return;
    const why = refusal(event);
    if (why && NO_KEY.test(event.key)) return;
    isListening = false;
    if (why) {
      show(`${nameOf(event)} was pressed. ${why}, so it cannot be the pedal. Set the pedal to the space bar, Enter, Page Down or a letter, and teach it again.`);
      return;
    }
    event.preventDefault();
    localStorage.setItem(KEPT, JSON.stringify({ key: event.key, code: event.code }));
    show();
  };
  block.querySelector("[data-pedal-teach]").addEventListener("click", () => {
    isListening = true;
    show("Press the pedal now.");
    // A key that lands on the button would press it again.
    says.focus();
  });
  forget.addEventListener("click", () => {
    localStorage.removeItem(KEPT);
    show();
  });
  document.addEventListener("keydown", take, true);
  block.hidden = false;
  show();
}

for (const block of document.querySelectorAll("[data-pedal]")) teach(block);
