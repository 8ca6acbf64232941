// A visit moved in the week, by keys or by pointer: what stands in its way shows before it is let go.
"use strict";

const bar = document.querySelector("#moving");
const form = bar.querySelector("form");
const grid = Number(bar.dataset.grid);
const strips = [...document.querySelectorAll(".week-strip[data-who]")];
let moving = null;
let asked = 0;

// Asks what a form's move would break, and says it.
async function stands(of, then) {
  const mine = ++asked;
  const fields = new URLSearchParams(new FormData(of));
  fields.set("do", "move");
  let answer = { right: false, lines: ["The server does not answer."] };
  try {
    const reply = await fetch("/diary/try", { method: "POST", body: fields });
    if (reply.ok) answer = await reply.json();
  } catch {
    // Said already.
  }
  if (mine !== asked) return;
  const says = of.querySelector(".stands");
  says.replaceChildren(...answer.lines.map((line) => {
    const words = document.createElement("p");
    words.textContent = line;
    return words;
  }));
  says.dataset.right = answer.right;
  if (then) then(answer.right);
}

function pad(number) { return String(number).padStart(2, "0"); }

function wall(strip, minute) {
  const hours = strip.dataset.hours.split(",");
  return `${pad(hours[Math.min(hours.length - 1, Math.floor(minute / 60))])}:${pad(minute % 60)}`;
}

function ghost() {
  document.querySelectorAll(".week-ghost").forEach((one) => one.remove());
  if (!moving) return;
  const rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  rect.setAttribute("class", "week-ghost");
  rect.setAttribute("x", moving.minute);
  rect.setAttribute("y", 1);
  rect.setAttribute("width", moving.length);
  rect.setAttribute("height", 32);
  moving.strip.querySelector(".week-parts").append(rect);
}

let soon = 0;

function show() {
  const strip = moving.strip;
  const chair = strip.dataset.chair === "yes";
  const time = wall(strip, moving.minute);
  form.booking.value = moving.block.dataset.booking;
  form.day.value = strip.dataset.day;
  form.time.value = time;
  form.clinician.value = chair ? "" : strip.dataset.who;
  form.chair.value = chair ? strip.dataset.who : "";
  document.querySelector("#where").textContent = `${moving.block.dataset.label.slice(5)} to ${strip.dataset.title}, ${time}, ${strip.dataset.name}`;
  bar.hidden = false;
  form.querySelector("[value=move]").disabled = true;
  ghost();
  clearTimeout(soon);
  soon = setTimeout(() => stands(form, (right) => { form.querySelector("[value=move]").disabled = !right; }), 60);
}

function pick(block) {
  moving = {
    block,
    strip: block.closest(".week-strip"),
    minute: Number(block.dataset.from),
    length: Number(block.dataset.length),
  };
}

function leave() {
  const block = moving?.block;
  moving = null;
  asked++;
  clearTimeout(soon);
  bar.hidden = true;
  ghost();
  block?.focus();
}

function put(strip, minute) {
  const last = Number(strip.dataset.minutes) - moving.length;
  moving.strip = strip;
  moving.minute = Math.max(0, Math.min(last - (last % grid), Math.round(minute / grid) * grid));
  show();
}

// The next row of the same kind, or the same row of another day.
function other(steps, day) {
  const here = moving.strip.dataset;
  const rows = strips.filter((one) =>
    one.dataset.chair === here.chair && (day ? one.dataset.who === here.who : one.dataset.day === here.day));
  return rows[rows.indexOf(moving.strip) + steps] || moving.strip;
}

function key(event) {
  const block = event.currentTarget;
  const steps = { ArrowLeft: -grid, ArrowRight: grid };
  const rows = { ArrowUp: -1, ArrowDown: 1 };
  const days = { PageUp: -1, PageDown: 1 };
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  if (event.key === "Escape" && moving) {
    leave();
  } else if (event.key === "Enter" || event.key === " ") {
    if (!moving || moving.block !== block) {
      pick(block);
      show();
    } else {
      (form.by.value ? form.querySelector("[value=move]") : form.by).focus();
    }
  } else if (event.key in steps || event.key in rows || event.key in days) {
    if (!moving || moving.block !== block) pick(block);
    put(event.key in rows ? other(rows[event.key], false) : event.key in days ? other(days[event.key], true) : moving.strip,
      moving.minute + (steps[event.key] || 0));
    moving.strip.scrollIntoView({ block: "nearest" });
  } else {
    return;
  }
  event.preventDefault();
}

function drag(event) {
  if (event.button !== 0) return;
  const block = event.currentTarget;
  const from = event.clientX;
  const top = event.clientY;
  const begin = block.closest(".week-strip").getBoundingClientRect();
  const scale = Number(block.closest(".week-strip").dataset.minutes) / begin.width;
  const grip = (from - begin.left) * scale - Number(block.dataset.from);
  let moved = false;
  const over = (now) => {
    if (!moved && Math.hypot(now.clientX - from, now.clientY - top) < 5) return;
    if (!moved) pick(block);
    moved = true;
    const strip = document.elementFromPoint(now.clientX, now.clientY)?.closest?.(".week-strip[data-who]") || moving.strip;
    const box = strip.getBoundingClientRect();
    put(strip, ((now.clientX - box.left) / box.width) * Number(strip.dataset.minutes) - grip);
  };
  const end = (last) => {
    document.removeEventListener("pointermove", over);
    document.removeEventListener("pointerup", end);
    document.removeEventListener("pointercancel", end);
    if (moved && last.type === "pointercancel") leave();
    else if (moved && !form.by.value) form.by.focus();
  };
  document.addEventListener("pointermove", over);
  document.addEventListener("pointerup", end);
  document.addEventListener("pointercancel", end);
}

for (const block of document.querySelectorAll(".week-block")) {
  if (!block.dataset.booking) continue;
  block.removeAttribute("aria-hidden");
  block.setAttribute("tabindex", "0");
  block.setAttribute("role", "button");
  block.setAttribute("aria-label", block.dataset.label);
  block.addEventListener("keydown", key);
  block.addEventListener("pointerdown", drag);
}
document.querySelector("#how").hidden = false;
document.querySelector("#leave").addEventListener("click", leave);
bar.addEventListener("keydown", (event) => { if (event.key === "Escape") leave(); });
for (const to of document.querySelectorAll("fieldset.to")) {
  to.addEventListener("change", () => stands(to.form));
}
