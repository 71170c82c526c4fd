/**
 * Sends a row as the plain form it stands for, so that its own page comes back and can ask.
 */
import { SHOWN, mark } from "./store.js";
import { workshop } from "./post.js";

/** The row stays kept until its page was answered. */
export async function openPage(row) {
  await mark(row.id, row.digest, { state: SHOWN });
  const form = document.createElement("form");
  form.method = "post";
  form.action = row.address + row.hash;
  form.hidden = true;
  const { fields } = JSON.parse(row.text);
  const told = fields.filter(([name]) => name !== "entry");
  const more = [["entry", row.id], ["csrfmiddlewaretoken", workshop.token]];
  for (const [name, value] of [...told, ...more]) form.append(hidden(name, value));
  document.body.append(form);
  HTMLFormElement.prototype.submit.call(form);
}

/** A field that nobody sees. */
export function hidden(name, value) {
  // A line break is kept in a text area only.
  const field = document.createElement(value.includes("\n") ? "textarea" : "input");
  if (field.type !== "textarea") field.type = "hidden";
  field.name = name;
  field.value = value;
  return field;
}
