// A step typed, the next box is ready: a slip is a few digits in a row.
const boxes = [...document.querySelectorAll("input.step, .slip__word input")];

for (const box of document.querySelectorAll("input.step")) {
  box.addEventListener("input", () => {
    if (box.value === "?" || box.value.length === box.maxLength) {
      boxes[boxes.indexOf(box) + 1]?.focus();
    }
  });
}

boxes[0]?.focus();
