/**
 * Fields in the words of the page, where it has the form that they are of.
 */

/** @returns {string} "Out at: 11:05; Soot on the vessel: a little", of fields that say something */
export function labelled(fields) {
  const told = fields.filter(([name, value]) => name !== "entry" && value !== "");
  const parts = told.map(([name, value]) => said(name, value)).filter(Boolean);
  return parts.join("; ");
}

function said(name, value) {
  const inputs = [...document.getElementsByName(name)];
  const choice = inputs.find((one) => (one.type === "radio" || one.type === "checkbox") && one.value === value);
  const input = choice ?? inputs.find((one) => one.labels?.length);
  const label = input?.labels?.[0]?.innerText.replace(/\s+/g, " ").trim();
  const head = input?.closest("fieldset")?.querySelector("legend .round__code, legend")?.innerText.trim();
  if (choice && label) return head ? `${head}: ${label}` : label;
  return label ? `${label}: ${value}` : "";
}
