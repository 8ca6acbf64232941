// The mouth as it is typed. What is on the screen is the model below; what is on the disk is the
// same as tooth lines, written by the server after every key.
"use strict";

const OPEN = "?";
const room = document.querySelector("#mouth");
const table = document.querySelector("#teeth");
const entry = document.querySelector("#entry");
const ring = document.querySelector(".entry-ring");
const status = document.querySelector("#status");
const say = document.querySelector("#say");

const QUADRANTS = [1, 2, 3, 4];
const universal = (iso) => {
  const quadrant = Math.floor(iso / 10), position = iso % 10;
  const towards = quadrant === 1 || quadrant === 3;
  return (quadrant - 1) * 8 + (towards ? 9 - position : position);
};
const ALL = QUADRANTS.flatMap((q) => [1, 2, 3, 4, 5, 6, 7, 8].map((p) => q * 10 + p))
  .sort((a, b) => universal(a) - universal(b));
const LETTERS = {
  n: ["deposit", "none"], l: ["deposit", "light"], o: ["deposit", "moderate"], h: ["deposit", "heavy"],
  c: ["feature", "crowded"], t: ["feature", "tight-tissue"], g: ["feature", "calculus-bridge"],
  k: ["feature", "heavy-stain"], s: ["feature", "sensitive"], r: ["feature", "restoration-margin"],
  d: ["feature", "demineralised"], i: ["status", "implant"], x: ["status", "missing"],
  p: ["status", "planned-extraction"],
};
const DEPOSITS = ["none", "light", "moderate", "heavy"];
const FEATURES = Object.values(LETTERS).filter((one) => one[0] === "feature").map((one) => one[1]);
const STATUSES = ["implant", "missing", "planned-extraction"];
const ASPECTS = ["facial", "lingual"];
const SITES = ["distal", "middle", "mesial"];
const FIELDS = ["case", "charted", "age", "weight", "longest", "alerts", "start-with", "wishes-numbness"];

// ---- the model

let teeth = new Map();
let order = [];
let steps = [];
let at = 0;
let last = null;
let mode = "";
let jump = "";
let before = [];
let kept = [];

const site = () => ({ depth: OPEN, bled: false, recession: "" });
const blank = () => ({
  status: "", deposit: OPEN, furcation: 0, mobility: 0, features: [],
  facial: [site(), site(), site()], lingual: [site(), site(), site()],
});
const numbering = () => field("numbering").value;
const field = (name) => document.querySelector(`[name="${name}"]`);
const named = (iso) => String(numbering() === "universal" ? universal(iso) : iso);
const isoOf = (name) => ALL.find((iso) => named(iso) === name);

function written(one) {
  return one.depth + (one.bled ? "b" : "") + (one.recession ? "/" + one.recession : "");
}

function words(iso) {
  const tooth = teeth.get(iso);
  const words = [];
  if (tooth.status) words.push(tooth.status);
  if (tooth.status !== "missing") {
    if (tooth.status !== "planned-extraction" || tooth.deposit !== OPEN) words.push(tooth.deposit);
    if (tooth.furcation) words.push("f" + tooth.furcation);
    if (tooth.mobility) words.push("m" + tooth.mobility);
    words.push(...tooth.features);
  }
  return words.filter((word) => word !== "");
}

function untouched(tooth, aspect) {
  return tooth[aspect].every((one) => one.depth === OPEN && !one.bled && !one.recession);
}

function toothLine(iso) {
  const tooth = teeth.get(iso);
  const start = [named(iso), ...words(iso)].join(" ");
  if (tooth.status === "missing") return start;
  if (tooth.status === "planned-extraction" && ASPECTS.every((aspect) => untouched(tooth, aspect))) {
    return start;
  }
  const groups = ASPECTS.map((aspect) =>
    tooth.status === "planned-extraction" && untouched(tooth, aspect)
      ? "" : tooth[aspect].map(written).join(" "));
  return start + " | " + groups.join(" | ");
}

function lines() {
  const head = ["# of " + room.dataset.of, "# path " + field("path").value + " " + field("start").value,
    "numbering " + numbering()];
  for (const name of FIELDS) {
    const value = field(name).value.trim().replace(/\s+/g, " ");
    if (name === "case") head.push("case " + (value === "" ? OPEN : quotedCase(value)));
    else if (value !== "") head.push(name + " " + value);
  }
  return [...head, ...kept, ...ALL.filter((iso) => teeth.has(iso)).map(toothLine)].join("\n") + "\n";
}

function quotedCase(value) {
  return /^[^\s"#?][^"#]*$/.test(value) ? value : '"' + value.replace(/[\\"]/g, "\\$&") + '"';
}

function load(text) {
  teeth = new Map();
  kept = [];
  const facts = {};
  const rows = text.split("\n");
  for (const row of rows) {
    const start = row.match(/^numbering (\S+)/);
    if (start) field("numbering").value = start[1];
  }
  for (const row of rows) {
    if (row.startsWith("# path ")) {
      [, , field("path").value, field("start").value] = row.split(" ");
    } else if (/^\d/.test(row)) {
      toothFrom(row);
    } else if (row.startsWith("case ")) {
      const name = row.slice(5).trim();
      facts.case = name === OPEN ? "" : name.startsWith('"')
        ? name.slice(1, -1).replace(/\\(.)/g, "$1") : name;
    } else if (row && !row.startsWith("#") && !row.startsWith("numbering ")) {
      factsFrom(row, facts);
    }
  }
  for (const name of FIELDS) field(name).value = facts[name] ?? "";
}

// Several keys of one value may share a line; alerts, and what is not known here, take theirs.
function factsFrom(row, facts) {
  const parts = row.trim().split(/\s+/);
  if (parts[0] === "alerts") { facts.alerts = parts.slice(1).join(" "); return; }
  if (!FIELDS.includes(parts[0])) { kept.push(row); return; }
  if (parts.length % 2) { facts[parts[0]] = parts.slice(1).join(" "); return; }
  for (let i = 0; i + 1 < parts.length; i += 2) {
    if (!FIELDS.includes(parts[i])) { facts[parts[0]] = parts.slice(1).join(" "); return; }
    facts[parts[i]] = parts[i + 1] === OPEN ? "" : parts[i + 1];
  }
}

function toothFrom(row) {
  const [head, ...groups] = row.split("|");
  const [name, ...said] = head.trim().split(/\s+/);
  const iso = isoOf(name);
  if (!iso) return;
  const tooth = blank();
  for (const word of said) {
    if (STATUSES.includes(word)) tooth.status = word;
    else if (DEPOSITS.includes(word)) tooth.deposit = word;
    else if (FEATURES.includes(word)) tooth.features.push(word);
    else if (/^f\d$/.test(word)) tooth.furcation = Number(word[1]);
    else if (/^m\d$/.test(word)) tooth.mobility = Number(word[1]);
  }
  groups.slice(0, 2).forEach((group, i) => {
    group.trim().split(/\s+/).filter((word) => word).slice(0, 3).forEach((word, j) => {
      const parts = word.match(/^([-?]|\d+)(b?)(?:\/(-?\d+))?$/);
      if (parts) tooth[ASPECTS[i]][j] = { depth: parts[1], bled: parts[2] === "b", recession: parts[3] ?? "" };
    });
  });
  teeth.set(iso, tooth);
}

// ---- the path

function lay() {
  const start = field("start").value;
  const right = start === "UR" || start === "LR";
  const across = (jaw, fromRight) => {
    const row = ALL.filter((iso) => teeth.has(iso) && (jaw === "U") === (iso < 30));
    const rightFirst = row.sort((a, b) => place(a) - place(b));
    return fromRight ? rightFirst : rightFirst.reverse();
  };
  const place = (iso) => (iso < 20 || iso > 40 ? -(iso % 10) : iso % 10);
  const first = start[0], second = first === "U" ? "L" : "U";
  steps = [];
  order = [];
  for (const jaw of [first, second]) {
    const there = jaw === first ? right : !right;
    const row = across(jaw, there);
    order.push(...row);
    if (field("path").value === "tooth") {
      for (const iso of row) for (const aspect of ASPECTS) for (const i of [0, 1, 2]) steps.push([iso, aspect, i]);
    } else {
      const walk = (list, aspect, fromRight) => {
        for (const iso of list) {
          const onRight = iso < 20 || iso > 40;
          const sites = onRight === fromRight ? [0, 1, 2] : [2, 1, 0];
          for (const i of sites) steps.push([iso, aspect, i]);
        }
      };
      walk(row, "facial", there);
      walk([...row].reverse(), "lingual", !there);
    }
  }
}

function worth(step) {
  const tooth = teeth.get(step[0]);
  return tooth.status !== "missing";
}

function skip(from) {
  let to = from;
  while (to < steps.length && !worth(steps[to])) to++;
  return to;
}

// ---- keys

function snapshot() {
  before.push(JSON.stringify([[...teeth], at, last]));
  if (before.length > 2000) before.shift();
}

function undo() {
  const was = before.pop();
  if (!was) { tell("There is nothing to undo."); return; }
  const [all, cursor, typed] = JSON.parse(was);
  teeth = new Map(all);
  at = cursor;
  last = typed;
  mode = "";
  draw();
  keep();
}

function put(depth) {
  if (at >= steps.length) { tell("Every site has been typed."); return; }
  const [iso, aspect, i] = steps[at];
  teeth.get(iso)[aspect][i] = { depth, bled: false, recession: "" };
  last = steps[at];
  at = skip(at + 1);
}

function typed() { return last && teeth.get(last[0])[last[1]][last[2]]; }

function key(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) {
    if ((event.ctrlKey || event.metaKey) && event.key === "z") { event.preventDefault(); undo(); }
    if ((event.ctrlKey || event.metaKey) && event.key === "Enter") { event.preventDefault(); save(); }
    return;
  }
  const stroke = event.key;
  if (stroke === "Tab" || stroke === "Shift") return;
  if (mode === "jump") { event.preventDefault(); jumping(stroke); return; }
  const move = { ArrowRight: 1, ArrowLeft: -1 }[stroke];
  const row = { ArrowDown: 1, ArrowUp: -1 }[stroke];
  if (move || row || stroke === "Home" || stroke === "End") {
    event.preventDefault();
    mode = "";
    if (move) at = Math.min(steps.length - 1, Math.max(0, at + move));
    else if (row) toTooth(row);
    else at = stroke === "Home" ? skip(0) : steps.length - 1;
    draw();
    return;
  }
  if (stroke.length !== 1 && stroke !== "Backspace" && stroke !== "Escape") return;
  event.preventDefault();
  if (stroke === "Escape") { mode = ""; draw(); return; }
  if (stroke === "Backspace" || stroke === "u") { undo(); return; }
  if (stroke === "j") { mode = "jump"; jump = ""; draw(); return; }
  snapshot();
  if (!take(stroke)) { before.pop(); tell(`“${stroke}” says nothing here.`); return; }
  draw();
  keep();
}

function take(stroke) {
  const digit = /^\d$/.test(stroke);
  if (mode === "recession") {
    if (stroke === "-" && typed().recession === "") { typed().recession = "-"; return true; }
    if (stroke === "+") { mode = "recession-10"; return true; }
    if (!digit) return false;
    typed().recession = typed().recession + stroke;
    if (Number(typed().recession) === 0) typed().recession = "";
    mode = "";
    return true;
  }
  if (mode === "recession-10") {
    if (!digit) return false;
    typed().recession = typed().recession + "1" + stroke;
    mode = "";
    return true;
  }
  if (mode === "furcation" || mode === "mobility") {
    if (!digit || stroke > "3") return false;
    current()[mode] = Number(stroke);
    mode = "";
    return true;
  }
  if (mode === "ten" || mode === "twenty") {
    if (stroke === "+" && mode === "ten") { mode = "twenty"; return true; }
    if (!digit || (mode === "twenty" && stroke !== "0")) return false;
    put(mode === "ten" ? "1" + stroke : "20");
    mode = "";
    return true;
  }
  if (digit) { put(stroke); return true; }
  if (stroke === "-") { put("-"); return true; }
  if (stroke === "+") { mode = "ten"; return true; }
  if (stroke === "b") { if (!typed()) return false; typed().bled = !typed().bled; return true; }
  if (stroke === "/") { if (!typed()) return false; typed().recession = ""; mode = "recession"; return true; }
  if (stroke === "=") return again();
  if (!current()) return false;
  if (stroke === "f" || stroke === "m") { mode = stroke === "f" ? "furcation" : "mobility"; return true; }
  const letter = LETTERS[stroke];
  if (!letter) return false;
  say_(letter);
  return true;
}

function current() {
  return at < steps.length ? teeth.get(steps[at][0]) : null;
}

function say_([kind, word]) {
  const tooth = current();
  if (kind === "deposit") tooth.deposit = word;
  if (kind === "feature") {
    tooth.features = tooth.features.includes(word)
      ? tooth.features.filter((one) => one !== word)
      : FEATURES.filter((one) => one === word || tooth.features.includes(one));
  }
  if (kind === "status") {
    tooth.status = tooth.status === word ? "" : word;
    if (word !== "missing" || tooth.status === "") return;
    const iso = steps[at][0];
    teeth.set(iso, { ...blank(), status: "missing" });
    at = skip(at);
  }
}

// The three sites before these once more, bleeding and recession too.
function again() {
  if (at < 3 || at >= steps.length) return false;
  const [iso, aspect, i] = steps[at];
  const [otherIso, otherAspect, j] = steps[at - 3];
  const from = teeth.get(otherIso)[otherAspect];
  if (from.some((one) => one.depth === OPEN)) return false;
  for (let n = 0; n < 3 && at < steps.length && steps[at][0] === iso && steps[at][1] === aspect; n++) {
    const [, , k] = steps[at];
    teeth.get(iso)[aspect][k] = { ...from[i === j ? k : 2 - k] };
    last = steps[at];
    at++;
  }
  at = skip(at);
  return true;
}

function toTooth(by) {
  const here = at < steps.length ? order.indexOf(steps[at][0]) : order.length;
  const to = order[Math.min(order.length - 1, Math.max(0, here + by))];
  at = steps.findIndex((step) => step[0] === to);
}

function jumping(stroke) {
  if (/^\d$/.test(stroke) && jump.length < 2) {
    jump += stroke;
    if (numbering() === "iso3950" && jump.length === 2) jumpNow();
  } else if (stroke === "Enter" || stroke === " ") {
    jumpNow();
    return;
  } else if (stroke === "Backspace") {
    jump = jump.slice(0, -1);
  } else {
    mode = "";
  }
  draw();
}

function jumpNow() {
  const iso = isoOf(jump);
  mode = "";
  if (iso && teeth.has(iso)) at = steps.findIndex((step) => step[0] === iso);
  else tell(`There is no tooth ${jump} in this mouth.`);
  draw();
}

// ---- the screen

function build() {
  table.replaceChildren();
  let jaw = "";
  for (const iso of order) {
    const row = table.insertRow();
    row.id = "t" + iso;
    const here = iso < 30 ? "upper" : "lower";
    if (jaw && jaw !== here) row.className = "next-jaw";
    jaw = here;
    const head = document.createElement("th");
    head.scope = "row";
    head.textContent = named(iso);
    row.append(head);
    row.insertCell().className = "words";
    for (const aspect of ASPECTS) for (const i of [0, 1, 2]) {
      const cell = row.insertCell();
      cell.className = "site" + (i === 0 ? " first" : "");
      cell.dataset.step = steps.findIndex((step) => step[0] === iso && step[1] === aspect && step[2] === i);
    }
  }
  for (const piece of ring.querySelectorAll("[data-tooth]")) {
    piece.dataset.state = teeth.has(Number(piece.dataset.tooth)) ? "none" : "gone";
  }
  for (const label of ring.querySelectorAll("[data-label]")) label.textContent = named(Number(label.dataset.label));
}

function extent(iso) {
  const tooth = teeth.get(iso);
  if (!tooth) return "none";
  if (tooth.status === "missing") return "gone";
  const filled = ASPECTS.flatMap((aspect) => tooth[aspect]).filter((one) => one.depth !== OPEN).length;
  const deposit = tooth.deposit !== OPEN;
  if (tooth.status === "planned-extraction" && filled === 0) return "full";
  return filled === 6 && deposit ? "full" : filled || deposit ? "part" : "none";
}

function draw() {
  const step = at < steps.length ? steps[at] : null;
  let open = 0;
  let whole = 0;
  for (const iso of order) {
    const row = document.getElementById("t" + iso);
    const tooth = teeth.get(iso);
    const state = extent(iso);
    row.dataset.state = state;
    row.toggleAttribute("data-here", Boolean(step && step[0] === iso));
    set(row.cells[0], named(iso));
    set(row.cells[1], words(iso).map((word) => (word === OPEN ? "deposit?" : word)).join(" "));
    let cell = 2;
    for (const aspect of ASPECTS) for (const i of [0, 1, 2]) {
      const one = tooth[aspect][i];
      const box = row.cells[cell++];
      set(box, tooth.status === "missing" ? "" : one.depth === OPEN ? "·" : written(one));
      box.toggleAttribute("data-bled", one.bled);
      box.toggleAttribute("data-deep", Number(one.depth) >= 5);
      box.toggleAttribute("data-cursor", Boolean(step && step[0] === iso && step[1] === aspect && step[2] === i));
      if (tooth.status !== "missing" && one.depth === OPEN) open++;
    }
    if (state === "full" || state === "gone") whole++;
    const piece = ring.querySelector(`[data-tooth="${iso}"]`);
    piece.dataset.state = state;
    piece.toggleAttribute("data-here", Boolean(step && step[0] === iso));
  }
  const where = step ? `Tooth ${named(step[0])}, ${step[1]}, ${SITES[step[2]]}` : "End of the path";
  const waits = { jump: `Jump to tooth ${jump}_`, recession: "Recession: a digit, or - first",
    "recession-10": "Recession 10 and …", furcation: "Furcation 0 to 3", mobility: "Mobility 0 to 3",
    ten: "10 and …", twenty: "20: 0" }[mode];
  set(say, waits ?? where);
  set(document.querySelector("#open"), open === 0 ? "every site typed" : `${open} sites open`);
  set(document.querySelector("#whole"), `${whole} of ${order.length} teeth whole`);
  const cursor = table.querySelector("[data-cursor]");
  if (cursor) cursor.scrollIntoView({ block: "nearest" });
}

function set(node, text) { if (node.textContent !== text) node.textContent = text; }

let told = 0;
function tell(text) {
  status.textContent = text;
  clearTimeout(told);
  told = setTimeout(() => { status.textContent = ""; }, 6000);
}

// ---- the draft on the disk: never two requests at once, and the last state always goes out

let revision = room.dataset.draft;
let sending = false;
let changed = false;
let stopped = false;

function keep() {
  changed = true;
  document.querySelector("#kept").textContent = "writing …";
  if (!sending && !stopped) send();
}

async function send() {
  sending = true;
  while (changed && !stopped) {
    changed = false;
    try {
      const answer = await fetch(room.dataset.url + "/draft",
        { method: "PUT", headers: { "If-Match": revision, "Content-Type": "text/plain" }, body: lines() });
      if (answer.status === 412) { stale(); break; }
      if (!answer.ok) throw new Error(String(answer.status));
      const read = await answer.json();
      revision = read.revision;
      show(read);
      if (!changed) document.querySelector("#kept").textContent = "kept as a draft";
    } catch {
      document.querySelector("#kept").textContent = "not kept: the program does not answer";
      changed = true;
      await new Promise((done) => setTimeout(done, 1000));
    }
  }
  sending = false;
}

// What the server says of the mouth as it was opened; nothing is written for that.
async function look() {
  const answer = await fetch(room.dataset.url + "/look", { method: "POST", body: lines() });
  if (answer.ok) show(await answer.json());
}

async function settled() {
  while (sending || changed) await new Promise((done) => setTimeout(done, 10));
}

function stale() {
  stopped = true;
  document.querySelector("#kept").textContent = "not kept";
  const box = document.querySelector("#stale");
  box.hidden = false;
  box.querySelector("pre").textContent = lines();
  box.querySelector("button").focus();
}

function show(read) {
  for (const area of read.areas) {
    const label = ring.querySelector(`[data-minutes="${area.area}"]`);
    if (label) set(label, area.minutes ? `${area.minutes} min` : "");
  }
  set(document.querySelector("#minutes"), read.minutes ? `${read.minutes} min of work so far` : "");
  for (const box of table.querySelectorAll("[data-unlikely]")) {
    box.removeAttribute("data-unlikely");
    box.removeAttribute("title");
  }
  const list = document.querySelector("#unlikely");
  list.replaceChildren();
  for (const one of read.unlikely) {
    const row = document.getElementById("t" + one.tooth);
    if (row) {
      const box = row.cells[2 + one.site];
      box.setAttribute("data-unlikely", "");
      box.title = one.text;
    }
    list.append(item(one.text));
  }
  const open = [...teeth.keys()].some((iso) => extent(iso) === "none" || extent(iso) === "part");
  faults(open ? read.faults.filter((one) => !one.open) : read.faults);
  document.querySelector("#look").hidden = read.unlikely.length === 0;
}

function faults(all) {
  const list = document.querySelector("#faults");
  list.replaceChildren(...all.slice(0, 12).map((one) => item(one.text)));
  if (all.length > 12) list.append(item(`and ${all.length - 12} more`));
  document.querySelector("#wrong").hidden = all.length === 0;
}

function item(text) {
  const item = document.createElement("li");
  item.textContent = text;
  return item;
}

// ---- saving, pasting, dropping

async function save() {
  if (stopped) return;
  keep();
  await settled();
  const answer = await fetch(room.dataset.url + "/save", { method: "POST", headers: { "If-Match": revision } });
  const read = await answer.json();
  if (answer.ok) { location.assign(read.to); return; }
  if (answer.status === 422) {
    faults(read.faults);
    tell("Not saved yet: something is open or wrong. It is listed beside the ring.");
  } else if (read.theirs !== undefined) {
    const box = document.querySelector("#both");
    box.hidden = false;
    set(box.querySelector("p"), read.text);
    set(box.querySelector(".mine"), read.mine);
    set(box.querySelector(".theirs"), read.theirs);
    box.querySelector("[data-keep]").hidden = !read.revision;
    box.querySelector("[data-keep]").onclick = () => { room.dataset.of = read.revision; box.hidden = true; save(); };
    box.querySelector("[data-leave]").onclick = () => { box.hidden = true; entry.focus(); };
    box.querySelector("[data-leave]").focus();
  } else {
    tell(read.text);
  }
}

async function take_in(text) {
  const answer = await fetch("/read", { method: "POST", headers: { "Content-Type": "text/plain" }, body: text });
  const read = await answer.json();
  if (!answer.ok) { faults(read.faults); tell("That is no chart; what is wrong is listed beside the ring."); return; }
  snapshot();
  load(read.lines);
  lay();
  build();
  at = skip(0);
  draw();
  keep();
  tell("Taken in. The keys edit it; u undoes.");
}

document.addEventListener("paste", (event) => {
  const text = event.clipboardData.getData("text/plain");
  if (/^(INPUT|SELECT)$/.test(document.activeElement.tagName) && !text.includes("\n")) return;
  event.preventDefault();
  take_in(text);
});
document.addEventListener("dragover", (event) => event.preventDefault());
document.addEventListener("drop", async (event) => {
  event.preventDefault();
  const file = event.dataTransfer.files[0];
  take_in(file ? await file.text() : event.dataTransfer.getData("text/plain"));
});

entry.addEventListener("keydown", key);
table.addEventListener("click", (event) => {
  const cell = event.target.closest("[data-step]");
  if (cell) { at = Number(cell.dataset.step); mode = ""; draw(); }
  entry.focus();
});
for (const name of FIELDS) field(name).addEventListener("input", keep);
for (const name of ["path", "start", "numbering"]) {
  field(name).addEventListener("change", () => {
    const step = steps[at];
    lay();
    build();
    at = step ? Math.max(0, steps.findIndex((one) => one.join() === step.join())) : 0;
    draw();
    keep();
  });
}
document.querySelector("#patient").addEventListener("keydown", (event) => {
  if (event.key === "Enter" && event.target.tagName === "INPUT") {
    event.preventDefault();
    if (event.ctrlKey || event.metaKey) { save(); return; }
    const inputs = [...document.querySelectorAll("#patient input")];
    (inputs[inputs.indexOf(event.target) + 1] ?? entry).focus();
  }
});
document.querySelector("#save").addEventListener("click", save);
document.querySelector("#reload").addEventListener("click", () => location.reload());

load(document.querySelector("#lines").value);
lay();
build();
const first = steps.findIndex(([iso, aspect, i]) =>
  teeth.get(iso).status !== "missing" && teeth.get(iso)[aspect][i].depth === OPEN);
at = first < 0 ? skip(0) : first;
draw();
if (!("whole" in room.dataset)) (field("case").value ? entry : field("case")).focus();
look();
