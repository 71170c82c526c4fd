// Half an answer outlives a reload: in this tab alone, for one tag and one nose, until it is sent
// or the phone goes on to the names.
const HALF = "half ";
const form = document.querySelector("form[data-entry]");
const mine = form ? `${HALF}${location.pathname} ${form.elements.nose.value}` : "";

if (form) {
  const kept = JSON.parse(sessionStorage.getItem(mine) ?? "{}");
  for (const box of boxes()) if (box.name in kept) put(box, kept[box.name]);
  form.addEventListener("input", keep);
  form.addEventListener("submit", () => {
    form.removeEventListener("input", keep);
    forget(() => true);
  });
}
forget((key) => key !== mine && (form || document.querySelector(".noses__form")));

function boxes() {
  return [...form.elements].filter((box) => box.matches("[type=radio], [type=checkbox], [type=text]"));
}

function put(box, value) {
  if (box.type === "text") box.value = value;
  else box.checked = value === (box.type === "radio" ? box.value : true);
}

function keep() {
  const half = {};
  for (const box of boxes()) {
    if (box.type === "text") half[box.name] = box.value;
    else if (box.type === "checkbox") half[box.name] = box.checked;
    else if (box.checked) half[box.name] = box.value;
  }
  sessionStorage.setItem(mine, JSON.stringify(half));
}

function forget(which) {
  for (const key of Object.keys(sessionStorage)) {
    if (key.startsWith(HALF) && which(key)) sessionStorage.removeItem(key);
  }
}
