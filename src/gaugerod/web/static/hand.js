/* A layout under the finger: the pattern follows at once, the figures as fast as they come.
   Nothing is worked out here: all lengths, limits and pictures are the server's. */

const hand = document.getElementById("by-hand");
const { step, least, most, pitch } = Object.fromEntries(
  ["step", "least", "most", "pitch"].map((name) => [name, Number(hand.dataset[name])]),
);
const wraps = "wraps" in hand.dataset;
const form = hand.querySelector("form");
const all = (what) => [...hand.querySelectorAll(what)];
const field = (name) => form.elements[name];
const walls = all("[data-wall]").map((one) => one.dataset.wall);
const AXIS = 8; // px before a drag is up and down, or left and right
const MAGNET = 7; // px from which a place worth a stop takes hold
const LONGEST = 250; // ms that others are left to be served in between two questions
const REST = 150; // ms from which a finger is at rest, and all figures are worth waiting for
const SOON = 1000; // ms until what is being planned is asked for again

const exact = (name) => Number.parseFloat(field(`exact.${name}`).value);
const now = {
  first: exact("first"),
  phases: Object.fromEntries(walls.map((wall) => [wall, exact(`phase.${wall}`)])),
};
const answered = { first: now.first, line: lineShown() };
let dragging = false;

function lineShown() {
  const [, y] = hand.querySelector("[data-line]").getAttribute("transform").match(/[-\d.e]+/g);
  return Number(y);
}

/* The picture that moves. */

const same = (a, b) =>
  a.first === b.first && walls.every((wall) => a.phases[wall] === b.phases[wall]);

function follow() {
  const line = answered.line + now.first - answered.first;
  for (const one of all("[data-cells]")) {
    const phase = now.phases[one.dataset.cells];
    one.setAttribute("patternTransform", `translate(${phase} ${line})`);
  }
  for (const one of all("[data-line]")) one.setAttribute("transform", `translate(0 ${line})`);
  for (const one of all("[data-plumb]")) {
    one.setAttribute("transform", `translate(${now.phases[one.dataset.plumb]} 0)`);
  }
}

function still(yes) {
  for (const one of all("[data-still]")) one.toggleAttribute("hidden", !yes);
  for (const one of all("[data-moving]")) one.toggleAttribute("hidden", yes);
}

function move(first, phases, said) {
  now.first = first;
  now.phases = phases;
  hand.querySelector("[data-snap]").textContent = said;
  still(false);
  follow();
  ask();
}

/* One question at a time; of those that wait only the newest is put. A finger that moves asks for
   what is known at once (""), one at rest for all figures ("whole"), one that lifted for the fewest
   modules too ("proven"). The last two may wait for their turn: whoever asks anew gives them up. */

let waiting = null;
let asking = false;
let later = 0;
let patient = null;

function ask(how = "") {
  clearTimeout(later);
  patient?.abort();
  waiting = { ...now, phases: { ...now.phases }, how };
  if (!asking) put();
}

function askAfter(ms, how) {
  later = setTimeout(() => ask(how), ms);
}

async function put() {
  asking = true;
  while (waiting) {
    const question = waiting;
    waiting = null;
    const began = performance.now();
    await hear(question);
    // Who asked for what waits has waited already, and who lifted is not to wait longer.
    if (waiting && !question.how && !waiting.how) await pause(Math.min(performance.now() - began, LONGEST));
  }
  asking = false;
}

const pause = (ms) => new Promise((done) => setTimeout(done, ms));

async function hear(question) {
  const address = new URL(hand.dataset.try, location.href);
  address.searchParams.set("first", `${question.first} mm`);
  for (const wall of walls) address.searchParams.set(`phase.${wall}`, `${question.phases[wall]} mm`);
  if (question.how) address.searchParams.set(question.how, "");
  patient = question.how ? new AbortController() : null;
  const signal = patient?.signal;
  try {
    const reply = await fetch(address, { signal });
    const answer = await reply.json();
    patient = null;
    if (signal?.aborted) return;
    if (reply.status === 202) putOff(answer.said, question);
    else if (reply.ok) show(answer, question);
    else refuse(answer.said);
  } catch {
    if (!signal?.aborted) refuse("");
  }
}

function putOff(said, question) {
  // Only the fewest modules are missing: what stands there is right, and may be pinned.
  if (question.how !== "proven") refuse(said);
  if (!waiting) askAfter(SOON, question.how);
}

function refuse(said) {
  list("broken", said ? [said] : []);
  hand.querySelector("[data-pin]").disabled = true;
}

function show(answer, question) {
  answered.first = answer.first;
  answered.line = answer.line;
  for (const one of all("[data-text]")) {
    const text = answer.texts[one.dataset.text];
    one.toggleAttribute("data-behind", text === undefined);
    if (text !== undefined) one.textContent = text;
  }
  list("broken", answer.broken, "wrong");
  hand.querySelector('[data-list="findings"]').toggleAttribute("data-behind", !answer.whole);
  hand.querySelector("[data-pin]").disabled = !answer.whole || !answer.may;
  if (answer.whole) showRest(answer);
  if (same(question, now)) {
    fill(answer);
    still(answer.whole);
    if (!waiting) askOn(answer, question);
  }
  follow();
}

function showRest(answer) {
  for (const one of all("[data-path]")) {
    const [wall, what] = one.dataset.path.split(".");
    one.setAttribute("d", answer.paths[wall][what]);
  }
  list("findings", answer.findings);
  for (const wall of walls) offer(wall, answer.marks[wall]);
}

function askOn(answer, question) {
  if (!answer.whole) askAfter(REST, "whole");
  else if (!dragging && !answer.proven && question.how !== "proven" && answer.may) ask("proven");
}

function list(name, said, kind = "") {
  const items = said.map((text) => Object.assign(document.createElement("li"), { textContent: text, className: kind }));
  hand.querySelector(`[data-list="${name}"]`).replaceChildren(...items);
}

function offer(wall, marks) {
  const items = marks.map(({ text, at }) => {
    const link = Object.assign(document.createElement("a"), { className: "button plain", textContent: text, href: "#by-hand" });
    link.dataset.at = at;
    const item = document.createElement("li");
    item.append(link);
    return item;
  });
  hand.querySelector(`[data-marks="${wall}"]`).replaceChildren(...items);
}

function fill(answer) {
  set("first", answer.texts.first, answer.first);
  for (const wall of walls) set(`phase.${wall}`, answer.texts[`phase.${wall}`], answer.phases[wall]);
}

function set(name, text, mm) {
  field(name).value = text;
  field(`exact.${name}`).value = `${mm} mm`;
}

/* Where a finger or a key leads. */

const marks = (name) =>
  [...hand.querySelectorAll(`[data-marks="${name}"] a`)].map((one) => ({
    at: Number(one.dataset.at),
    text: one.textContent,
  }));
const rounded = (mm) => Math.round(mm / step) * step;
const within = (mm, low, high) => Math.min(Math.max(mm, low), high);
const around = (mm) => ((mm % pitch) + pitch) % pitch;

function taken(places, off, reach) {
  const [near] = places.sort((a, b) => Math.abs(off(a.at)) - Math.abs(off(b.at)));
  return near && Math.abs(off(near.at)) < reach ? near : null;
}

function up(mm, reach) {
  const near = taken(marks("first"), (at) => at - mm, reach);
  move(near ? near.at : within(rounded(mm), least, most), now.phases, near ? near.text : "");
}

function along(wall, from, mm, reach) {
  const apart = (at) => around(at - mm + pitch / 2) - pitch / 2;
  const near = taken(marks(wall), apart, reach);
  const to = near ? mm + apart(near.at) : rounded(mm);
  const phases = { ...now.phases, [wall]: around(to) };
  // Courses that run on through the corners move on all walls together.
  if (wraps) for (const one of walls) phases[one] = from[one] + to - from[wall];
  move(now.first, phases, near ? near.text : "");
}

function settle() {
  dragging = false;
  ask("whole");
}

for (const picture of all("[data-wall] svg")) {
  const { wall } = picture.closest("[data-wall]").dataset;
  let grip = null;
  picture.toggleAttribute("data-drag", true);
  picture.tabIndex = 0;
  picture.addEventListener("pointerdown", (event) => {
    if (grip || !event.isPrimary) return;
    picture.setPointerCapture(event.pointerId);
    const scale = picture.getScreenCTM().a;
    grip = { id: event.pointerId, x: event.clientX, y: event.clientY, scale, axis: "", first: now.first, phases: now.phases };
    dragging = true;
  });
  picture.addEventListener("pointermove", (event) => {
    if (grip?.id !== event.pointerId) return;
    const [x, y] = [event.clientX - grip.x, event.clientY - grip.y];
    if (!grip.axis && Math.hypot(x, y) > AXIS) grip.axis = Math.abs(x) > Math.abs(y) ? "x" : "y";
    const reach = MAGNET / grip.scale;
    if (grip.axis === "y") up(grip.first - y / grip.scale, reach);
    if (grip.axis === "x") along(wall, grip.phases, grip.phases[wall] + x / grip.scale, reach);
  });
  for (const end of ["pointerup", "pointercancel"]) {
    picture.addEventListener(end, (event) => {
      if (grip?.id !== event.pointerId) return;
      const moved = grip.axis;
      grip = null;
      dragging = false;
      if (moved) settle();
    });
  }
  picture.addEventListener("keydown", (event) => {
    const by = { ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] }[event.key];
    if (!by) return;
    event.preventDefault();
    // From between two steps a key leads to the next one.
    const next = (mm, way) => (way > 0 ? Math.floor(mm / step + 1e-6) + 1 : Math.ceil(mm / step - 1e-6) - 1) * step;
    if (by[1]) up(next(now.first, by[1]), 0);
    else along(wall, now.phases, next(now.phases[wall], by[0]), 0);
  });
}

hand.addEventListener("click", (event) => {
  const link = event.target.closest("[data-at]");
  if (!link) return;
  event.preventDefault();
  const name = link.closest("[data-marks]").dataset.marks;
  if (name === "first") up(Number(link.dataset.at), step);
  else along(name, now.phases, Number(link.dataset.at), step);
});

/* A narrow window shows one wall at a time. */

for (const one of all("[data-script]")) one.hidden = false;
function choose() {
  const wanted = hand.querySelector("[name=hand-wall]:checked").value;
  for (const one of all("figure[data-wall]")) one.hidden = one.dataset.wall !== wanted;
}
hand.querySelector("[data-walls]").addEventListener("change", choose);
choose();
