/**
 * Putting elements together without a framework: text is always text, marks come from the page.
 */

/**
 * @param {string} name of the element, with classes: "p.small.second"
 * @param {...(Node|string)} children
 */
export function element(name, ...children) {
  const [tag, ...classes] = name.split(".");
  const made = document.createElement(tag);
  made.className = classes.join(" ");
  made.append(...children);
  return made;
}

/** A shape of the sprite, as the page's own template has it. */
export function mark(name) {
  const found = document.querySelector(`template[data-mark="${name}"]`);
  return found ? found.content.cloneNode(true) : "";
}

/** A button that does something here. */
export function button(words, press) {
  const made = element("button.act", words);
  made.type = "button";
  made.addEventListener("click", press);
  return made;
}

/** A link. */
export function link(words, address) {
  const made = element("a", words);
  made.href = address;
  return made;
}
