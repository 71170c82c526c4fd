/**
 * A photo of a candle: made smaller in the browser, so that neither its place nor its camera leaves
 * the phone, and small enough to wait there as an entry until the workshop is reached.
 *
 * A form with `data-photo` has a file box (elsewhere on the page, by its `form`) and a hidden text
 * field `photo_data`. The file never leaves; the field carries the smaller picture.
 */
const SIDES_PX = [1600, 1200, 800];
const QUALITIES = [0.85, 0.7, 0.5];
/** Of the text that carries it: with what stands around it, a form takes 2 MiB. */
const MOST_CHARACTERS = 1_800_000;

for (const form of document.querySelectorAll("form[data-photo]")) {
  if ("createImageBitmap" in window) watch(form);
  else form.removeAttribute("data-entry"); // it goes as a plain form, with its file
}

function watch(form) {
  const box = [...form.elements].find((one) => one.type === "file");
  const { photo_data: data } = form.elements;
  const status = document.getElementById(box.getAttribute("aria-describedby"));
  const first = status.textContent;
  const button = [...form.elements].find((one) => one.type === "submit");
  let inTurn = Promise.resolve();
  box.required = false;
  button.hidden = true;
  data.value = "";
  openAtOnce(box);
  box.addEventListener("change", () => {
    for (const file of box.files) inTurn = inTurn.then(() => take(file));
    box.value = "";
  });
  form.addEventListener("reset", () => {
    data.value = "";
    status.textContent = first;
  });

  async function take(file) {
    status.textContent = "The photo is made smaller.";
    const made = await smaller(file).catch(() => null);
    await free(form);
    if (!made) {
      status.textContent = `This browser cannot read “${file.name}”. A JPEG, PNG or WebP picture is kept. Take the photo anew; where the phone makes HEIC, set its camera to JPEG (“most compatible”).`;
      return;
    }
    data.value = made.text;
    status.textContent = `The photo has ${made.width} × ${made.height} pixels now; it says no place and no camera.`;
    form.requestSubmit(button);
  }
}

/** The press that opens the fold opens the camera, too; who leaves it finds the box below. */
function openAtOnce(box) {
  const fold = box.closest("details");
  fold?.querySelector("summary").addEventListener("click", () => fold.open || box.click());
}

/** Until the photo before has gone its way: a form that is busy takes nothing. */
async function free(form) {
  while (form.hasAttribute("aria-busy")) await new Promise((go) => setTimeout(go, 100));
}

/** @returns {Promise<{text: string, width: number, height: number}>} a JPEG as a data URL */
async function smaller(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  for (const side of SIDES_PX) {
    const canvas = drawn(picture, side);
    for (const quality of QUALITIES) {
      const text = canvas.toDataURL("image/jpeg", quality);
      if (text.startsWith("data:image/jpeg") && text.length <= MOST_CHARACTERS) {
        return { text, width: canvas.width, height: canvas.height };
      }
    }
  }
  throw new Error("no size is small enough");
}

/** On white, the right way up, its longest side at most `side` pixels. */
function drawn(picture, side) {
  const scale = Math.min(1, side / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  const pen = canvas.getContext("2d");
  pen.fillStyle = "#fff";
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.imageSmoothingQuality = "high";
  pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return canvas;
}
