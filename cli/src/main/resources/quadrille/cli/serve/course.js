// One to six visits, each shown as soon as it is found.
"use strict";

const room = document.querySelector("#course");
let query = location.search;
let chosen = 0;
// What each costs, of those that were found.
const costs = {};
// What each number of visits was planned from, which may have changed from one to the next.
const seen = {};
let waiting = 6;
// What is to be told once all are found.
let news = "";

async function card(visits) {
  const place = document.querySelector("#choice-" + visits);
  try {
    const answer = await fetch(`${room.dataset.url}/${visits}${query}`);
    if (!answer.ok) throw new Error(String(answer.status));
    const read = await answer.json();
    place.innerHTML = read.html;
    seen[visits] = read.seen;
    place.classList.toggle("none", !read.found);
    markWished(visits);
    if (read.found) costs[visits] = read.seconds;
    else delete costs[visits];
  } catch {
    place.querySelector(".waiting").textContent = "The program does not answer.";
  }
  place.setAttribute("aria-busy", "false");
  waiting--;
  if (waiting === 0) {
    const best = Number(Object.keys(costs).sort((a, b) => costs[a] - costs[b] || a - b)[0] || 0);
    if (best) mark(best);
    const none = "No number of visits keeps every rule; each says what stands in the way.";
    told(best ? news || "All are found." : none);
    news = "";
    if (best && !chosen) choose(best);
  }
}

async function help(button) {
  button.disabled = true;
  button.textContent = "Trying changes …";
  const list = document.createElement("ul");
  list.className = "obstacles";
  list.tabIndex = -1;
  try {
    const answer = await fetch(`${room.dataset.url}/${button.dataset.help}/help${query}`);
    for (const line of (await answer.json()).lines) {
      const item = document.createElement("li");
      item.textContent = line;
      list.append(item);
    }
  } catch {
    list.textContent = "The program does not answer.";
  }
  const heading = document.createElement("h3");
  heading.textContent = "What would help, each tried";
  button.replaceWith(heading, list);
  list.focus();
}

function told(text) { document.querySelector("#told").textContent = text; }

function mark(visits) {
  for (const old of document.querySelectorAll(".mark-word")) old.remove();
  const heading = document.querySelector(`#choice-${visits} h2`);
  const word = document.createElement("span");
  word.className = "mark-word";
  word.textContent = "costs least";
  heading.append(" ", word);
}

async function choose(visits) {
  chosen = visits;
  for (const button of document.querySelectorAll("[data-choose]")) {
    const here = Number(button.dataset.choose) === visits;
    button.setAttribute("aria-pressed", String(here));
    button.closest(".choice").classList.toggle("chosen", here);
  }
  document.querySelector("#accepted").textContent = "";
  document.querySelector("#print").href = `${room.dataset.url}/${visits}/print${query}`;
  document.querySelector("#accept").textContent = `Accept the course of ${visits} ${visits === 1 ? "visit" : "visits"}`;
  const answer = await fetch(`${room.dataset.url}/${visits}/ring${query}`);
  if (answer.ok && chosen === visits) {
    document.querySelector("#ring").innerHTML = await answer.text();
    document.querySelector("#shown").hidden = false;
  }
}

// ---- wishes: an area moved to another visit

const wishes = document.querySelector("input[name=wishes]");
const wished = document.querySelector("#wished");
let moving = null;

// The query with what is wished now; the address says it too, so that a reload keeps it.
function wish(text) {
  const asked = new URLSearchParams(query);
  if (text) asked.set("wishes", text);
  else asked.delete("wishes");
  query = asked.size ? "?" + asked : "";
  history.replaceState(null, "", location.pathname + query);
  wishes.value = text;
  document.querySelector("#compare").href = `${room.dataset.url}/compare/print${query}`;
}

function markWished(visits) {
  for (const item of wished.querySelectorAll(`[data-wish][data-visits="${visits}"]`)) {
    for (const chip of document.querySelectorAll(`#choice-${visits} .chip`)) {
      if (item.dataset.wish.startsWith(`must ${chip.dataset.area} in `)) chip.dataset.wished = "";
    }
  }
}

function list(text) {
  for (const item of wished.querySelectorAll("[data-wish]")) item.remove();
  for (const words of text.split("; ").filter(Boolean)) {
    const item = document.createElement("li");
    const said = document.createElement("bdi");
    const button = document.createElement("button");
    const unseen = document.createElement("span");
    item.dataset.wish = said.textContent = words;
    item.dataset.visits = words.match(/of ([0-9]+)$/)[1];
    unseen.className = "unseen";
    unseen.textContent = " " + words;
    button.type = "button";
    button.className = "small";
    button.append("Take back", unseen);
    item.append(said, " ", button);
    wished.querySelector("ul").append(item);
  }
  wished.hidden = !wished.querySelector("li");
}

async function again(visits, text, focus) {
  wish(text);
  list(text);
  const place = document.querySelector("#choice-" + visits);
  place.setAttribute("aria-busy", "true");
  waiting++;
  await card(visits);
  if (chosen === visits) await choose(visits);
  (place.querySelector(`[data-area="${focus}"]`) || place.querySelector("button") || place).focus();
}

function pick(chip) {
  leave();
  const card = chip.closest(".choice");
  const from = Number(chip.closest("[data-visit]").dataset.visit);
  const visits = Number(card.dataset.visits);
  const panel = document.createElement("div");
  panel.className = "moving";
  panel.setAttribute("role", "group");
  panel.setAttribute("aria-label", "Move " + chip.dataset.area);
  const say = document.createElement("p");
  say.textContent = `Move ${chip.dataset.area} from visit ${from} to visit`;
  const to = document.createElement("div");
  to.className = "to";
  for (let visit = 1; visit <= visits; visit++) {
    if (visit === from) continue;
    const button = document.createElement("button");
    button.type = "button";
    button.dataset.to = button.textContent = String(visit);
    button.setAttribute("aria-pressed", "false");
    to.append(button);
  }
  const price = document.createElement("div");
  price.setAttribute("role", "status");
  const go = document.createElement("button");
  go.type = "button";
  go.dataset.go = "";
  go.textContent = "Let it go there";
  go.hidden = true;
  const back = document.createElement("button");
  back.type = "button";
  back.dataset.leave = "";
  back.textContent = "Leave it";
  panel.append(say, to, price, go, " ", back);
  card.querySelector(".visits").after(panel);
  chip.setAttribute("aria-pressed", "true");
  moving = { chip, panel, from, visits, area: chip.dataset.area, to: 0, answer: null };
}

async function aim(visit) {
  const now = moving;
  if (!now || now.to === visit) return;
  now.to = visit;
  now.answer = null;
  const price = now.panel.querySelector("[role=status]");
  now.panel.querySelector("[data-go]").hidden = true;
  for (const button of now.panel.querySelectorAll("[data-to]")) {
    button.setAttribute("aria-pressed", String(Number(button.dataset.to) === visit));
  }
  for (const line of now.chip.closest(".visits").querySelectorAll("[data-visit]")) {
    line.toggleAttribute("data-aimed", Number(line.dataset.visit) === visit);
  }
  price.textContent = visit === now.from ? "It is there already." : "Planning it so …";
  if (visit === now.from) return;
  const asked = new URLSearchParams(query);
  asked.set("area", now.area);
  asked.set("visit", String(visit));
  let read;
  try {
    const answer = await fetch(`${room.dataset.url}/${now.visits}/try?${asked}`);
    if (!answer.ok) throw new Error(String(answer.status));
    read = await answer.json();
  } catch {
    read = { possible: false, lines: ["The program does not answer."] };
  }
  if (moving !== now || now.to !== visit) return;
  now.answer = read;
  const lines = document.createElement("ul");
  for (const line of read.lines) {
    const item = document.createElement("li");
    item.textContent = line;
    lines.append(item);
  }
  const head = document.createElement("b");
  head.textContent = read.possible ? `In visit ${visit}:` : `Cannot be in visit ${visit}:`;
  price.replaceChildren(head, lines);
  now.panel.querySelector("[data-go]").hidden = !read.possible;
}

function leave() {
  if (!moving) return;
  const { chip, panel } = moving;
  chip.setAttribute("aria-pressed", "false");
  for (const line of chip.closest(".visits").querySelectorAll("[data-aimed]")) {
    line.removeAttribute("data-aimed");
  }
  panel.remove();
  moving = null;
}

async function letGo() {
  if (!moving || !moving.answer || !moving.answer.possible) return;
  const { visits, area, answer } = moving;
  leave();
  news = `Wished: ${answer.words}.`;
  await again(visits, answer.wishes, area);
}

// By pointer: picked up once it moves, let go over a visit whose price has been shown.
let pressed = null;
let dragged = false;
document.querySelector(".choices").addEventListener("pointerdown", (event) => {
  const chip = event.target.closest(".chip");
  dragged = false;
  pressed = chip && event.button === 0 ? { chip, x: event.clientX, y: event.clientY } : null;
});
document.addEventListener("pointermove", (event) => {
  if (!pressed) return;
  if (!dragged && Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) > 6) {
    dragged = true;
    pick(pressed.chip);
  }
  if (!dragged || !moving) return;
  const over = document.elementFromPoint(event.clientX, event.clientY)?.closest("[data-visit]");
  if (over && over.closest(".choice") === moving.chip.closest(".choice")) aim(Number(over.dataset.visit));
});
document.addEventListener("pointerup", () => {
  const drag = pressed && dragged;
  pressed = null;
  if (!drag || !moving) return;
  if (moving.to === moving.from || !moving.to) leave();
  else if (moving.answer && moving.answer.possible) letGo();
  else moving.panel.querySelector("[data-leave]").focus();
});
document.addEventListener("pointercancel", () => { pressed = null; leave(); });
document.addEventListener("keydown", (event) => {
  if (!moving) return;
  const { chip, visits, from } = moving;
  if (event.key === "Escape") {
    leave();
    chip.focus();
  } else if (["ArrowUp", "ArrowDown", "ArrowLeft", "ArrowRight"].includes(event.key)) {
    event.preventDefault();
    const step = event.key === "ArrowUp" || event.key === "ArrowLeft" ? -1 : 1;
    let next = moving.to || from;
    do next = ((next - 1 + step + visits) % visits) + 1;
    while (next === from);
    moving.panel.querySelector(`[data-to="${next}"]`).focus();
    aim(next);
  }
});
wished.addEventListener("click", (event) => {
  const item = event.target.closest("button")?.closest("[data-wish]");
  if (!item) return;
  const left = [...wished.querySelectorAll("[data-wish]")].filter((one) => one !== item);
  news = `Taken back: ${item.dataset.wish}.`;
  again(Number(item.dataset.visits), left.map((one) => one.dataset.wish).join("; "), "");
});

document.querySelector(".choices").addEventListener("click", (event) => {
  const chip = event.target.closest(".chip");
  const inPanel = event.target.closest(".moving button");
  if (chip) {
    if (dragged) return;
    const same = moving && moving.chip === chip;
    if (same) leave();
    else {
      pick(chip);
      moving.panel.querySelector("[data-to]").focus();
    }
    return;
  }
  if (inPanel) {
    if (inPanel.dataset.to) aim(Number(inPanel.dataset.to));
    else if ("go" in inPanel.dataset) letGo();
    else {
      const { chip: held } = moving;
      leave();
      held.focus();
    }
    return;
  }
  chosenOrHelp(event);
});
function chosenOrHelp(event) {
  const button = event.target.closest("[data-choose], [data-help]");
  if (button && button.dataset.help) help(button);
  else if (button) choose(Number(button.dataset.choose));
}
document.querySelector("#accept").addEventListener("click", async () => {
  const accepted = document.querySelector("#accepted");
  accepted.textContent = "Accepting …";
  try {
    const answer = await fetch(`${room.dataset.url}/${chosen}/accept${query}`, {
      method: "POST",
      headers: { "If-Match": seen[chosen] },
    });
    const read = await answer.json();
    accepted.textContent = read.text;
    if (read.log) {
      const logged = document.querySelector("#logged");
      logged.querySelector("a").href = read.log + "/print";
      logged.hidden = false;
    }
  } catch {
    accepted.textContent = "The program does not answer. Nothing is known to be written.";
  }
});
wish(wishes.value);
for (let visits = 1; visits <= 6; visits++) card(visits);
