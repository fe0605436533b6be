// Digits as large keys under the box that is being filled: no keyboard of the system is needed.
// Without this file the boxes are plain ones, and everything works as before.

const shape = document.querySelector("#pad");
const boxes = [...document.querySelectorAll("input[data-pad]")];
const said = document.querySelector("#said");
let box = boxes[0];

function open(next) {
  box?.classList.remove("filling");
  box = next;
  box.classList.add("filling");
  const kind = box.dataset.pad;
  pad.dataset.kind = kind;
  for (const key of pad.querySelectorAll("[data-for]")) {
    key.hidden = !key.dataset.for.split(" ").includes(kind);
  }
  box.closest("label").after(pad);
}

function press(key) {
  const start = box.selectionStart ?? box.value.length;
  const end = box.selectionEnd ?? start;
  if (key !== "back") {
    box.setRangeText(key, start, end, "end");
  } else if (start < end || start > 0) {
    box.setRangeText("", start < end ? start : start - 1, end, "end");
  }
  box.dispatchEvent(new Event("input", { bubbles: true }));
}

// What the keys say together, as it will be written down.
function tell() {
  const form = new FormData(said.closest("form"));
  const part = document.querySelector('[name="reads.part"]:checked + span')?.textContent;
  const inches = [form.get("reads.whole").trim(), part === "0" ? "" : part, form.get("reads.strength")];
  const sign = form.get("reads.minus") ? "\u2212" : "";
  const read = form.get("reads") || sign + inches.filter(Boolean).join(" ");
  said.textContent = read === sign ? "" : read;
}

const pad = shape.content.firstElementChild.cloneNode(true);
if (box) {
  for (const one of boxes) {
    one.inputMode = "none";
    one.setSelectionRange(one.value.length, one.value.length);
    one.addEventListener("focus", () => open(one));
  }
  // The box keeps its place while a key is pressed.
  pad.addEventListener("pointerdown", (event) => event.preventDefault());
  pad.addEventListener("click", (event) => {
    const key = event.target.closest("[data-key]");
    if (key) press(key.dataset.key);
  });
  open(box);
}
if (said) {
  said.closest("form").addEventListener("input", tell);
  tell();
}
