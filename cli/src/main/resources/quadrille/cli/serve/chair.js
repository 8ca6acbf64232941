// A visit by ticks: each has its number, is kept in the browser until the server has it, and counts once.
"use strict";

const chair = document.querySelector("#chair");
const kept = JSON.parse(document.querySelector("#ticks").value).ticks;
const store = "quadrille" + chair.dataset.url;
const rows = [...document.querySelectorAll("#rows li")];
const stops = [...document.querySelectorAll("[data-stop]")];
const told = (text) => { document.querySelector("#told").textContent = text; };
let waiting = JSON.parse(localStorage.getItem(store) || "[]").filter((tick) => tick.number > kept.length);
let sending = false;

function all() { return kept.concat(waiting); }

function holding() {
  const ticks = [];
  for (const tick of all()) {
    if (tick.do === "undo") ticks.pop();
    else ticks.push(tick);
  }
  return ticks;
}

function tick(what, of, text) {
  const one = { number: all().length + 1, at: new Date().toISOString(), do: what };
  if (of >= 0) one.of = of;
  if (text) one.text = text;
  waiting.push(one);
  localStorage.setItem(store, JSON.stringify(waiting));
  show();
  send();
}

async function send() {
  if (sending || !waiting.length) return;
  sending = true;
  const some = waiting.slice();
  try {
    const answer = await fetch(chair.dataset.url + "/ticks", { method: "POST", body: JSON.stringify({ ticks: some }) });
    if (answer.ok) {
      kept.push(...some);
      waiting = waiting.slice(some.length);
      localStorage.setItem(store, JSON.stringify(waiting));
      told(waiting.length ? "" : "Kept.");
    } else {
      told((await answer.json()).text);
    }
  } catch {
    told("No connection: what is ticked waits here, and is sent once there is one.");
  }
  sending = false;
}

const ends = ["done", "part", "skip"];

function element(name, text, className) {
  const one = document.createElement(name);
  one.textContent = text;
  if (className) one.className = className;
  return one;
}

function show() {
  const ticks = holding();
  const answered = new Set(ticks.filter((one) => one.do === "answer").map((one) => one.of));
  const open = stops.filter((stop, i) => !answered.has(i));
  stops.forEach((stop, i) => { stop.hidden = answered.has(i); });
  document.querySelector("#stops").hidden = !open.length;
  document.querySelector("#work").hidden = Boolean(open.length);
  const over = new Map(ticks.filter((one) => ends.includes(one.do)).map((one) => [one.of, one]));
  const words = { done: "done", part: "half done", skip: "not done" };
  let now = null;
  let next = null;
  for (const row of rows) {
    const ended = over.get(Number(row.dataset.of));
    const mark = row.querySelector(".mark-word");
    mark.hidden = !ended;
    mark.textContent = ended ? words[ended.do] : "";
    row.toggleAttribute("data-over", Boolean(ended));
    if (!ended && !now) now = row;
    else if (!ended && !next) next = row;
    row.toggleAttribute("data-now", row === now);
  }
  const place = document.querySelector("#now");
  place.dataset.of = now ? now.dataset.of : "";
  const lines = now
    ? [element("p", now.dataset.before, "before"), element("p", now.querySelector("b").textContent, "doing"), element("p", now.querySelectorAll("span")[1].textContent, "where")]
    : [element("p", "All is ticked.", "doing")];
  if (place.textContent !== lines.map((line) => line.textContent).join("")) place.replaceChildren(...lines);
  document.querySelector("#next").textContent = next
    ? `Next: ${[next.dataset.before, next.querySelector("b").textContent, next.querySelectorAll("span")[1].textContent].filter(Boolean).join(", ")}`
    : "";
  for (const button of document.querySelectorAll("[data-do]")) {
    const kind = button.dataset.do;
    if (kind === "part") button.hidden = !now || now.dataset.work !== "true";
    if (kind === "done" || kind === "skip") button.hidden = !now;
    if (kind === "undo") button.disabled = !ticks.length;
    if (kind === "pause") button.textContent = paused(ticks) ? "Go on" : "Pause";
  }
  clock(ticks);
}

function paused(ticks) {
  const last = ticks.filter((one) => one.do === "pause" || one.do === "resume").pop();
  return last && last.do === "pause" ? last : null;
}

function clock(ticks) {
  if (!ticks.length) return;
  let at = Date.now() - Date.parse(ticks[0].at);
  let from = null;
  for (const one of ticks) {
    if (one.do === "pause") from = Date.parse(one.at);
    if (one.do === "resume" && from) {
      at -= Date.parse(one.at) - from;
      from = null;
    }
  }
  if (from) at -= Date.now() - from;
  const minutes = Math.floor(at / 60000);
  document.querySelector("#minutes").textContent = String(minutes);
  const now = rows.find((row) => row.hasAttribute("data-now"));
  const planned = now ? Number(now.dataset.start) : Number(chair.dataset.booked);
  const late = minutes - planned;
  document.querySelector("#against").textContent =
    `of ${chair.dataset.booked} booked; ` + (late > 0 ? `${late} min behind the plan` : late < 0 ? `${-late} min ahead of the plan` : "as planned");
  const numb = [];
  const given = {};
  for (const one of ticks) {
    const row = rows.find((some) => Number(some.dataset.of) === one.of);
    if (!row || !row.dataset.agent || !(one.do === "done" || one.do === "again")) continue;
    given[row.dataset.agent] = (given[row.dataset.agent] || 0) + Number(row.dataset.mg);
    const since = Math.floor((Date.now() - Date.parse(one.at)) / 60000);
    const wait = Number(row.dataset.onset) - since;
    const left = Number(row.dataset.numb) - since;
    const words = row.querySelectorAll("span")[1].textContent;
    numb.push([row, wait > 0 ? `${words}: numb in ${wait} min` : left > 0 ? `${words}: ${left} min left` : `${words}: may have worn off`]);
  }
  const list = document.querySelector("#numb");
  const said = numb.map(([, words]) => words).join("\n");
  if (list.dataset.said !== said) {
    list.dataset.said = said;
    list.replaceChildren(
      ...numb.map(([row, words]) => {
        const item = element("li", words + " ");
        const again = element("button", "Did not numb: given again", "small");
        again.type = "button";
        again.dataset.again = row.dataset.of;
        item.append(again);
        return item;
      }),
    );
  }
  document.querySelector("#dose").replaceChildren(
    ...[...document.querySelectorAll("[data-most]")].map((most) => {
      const mg = given[most.dataset.most] || 0;
      const left = Number(most.dataset.mg) - mg;
      return element("li", `${most.dataset.most}: ${Math.round(mg)} mg given, ` + (left < 0 ? `${Math.round(-left)} mg beyond the maximum` : `${Math.floor(left)} mg left`));
    }),
  );
}

document.querySelector("#stops").addEventListener("click", (event) => {
  const stop = event.target.closest("button")?.closest("[data-stop]");
  if (!stop) return;
  const who = document.querySelector("#who").value.trim();
  const answer = stop.querySelector(".answer").value.trim();
  if (!who || !answer) {
    told("Say the answer, and who gives it.");
    return;
  }
  tick("answer", stops.indexOf(stop), `${stop.querySelector("bdi").textContent} ${answer} (${who})`.slice(0, 500));
  (document.querySelector("[data-stop]:not([hidden]) input") || document.querySelector("[data-do=done]")).focus();
});
document.querySelector("#work").addEventListener("click", (event) => {
  const button = event.target.closest("button[data-do], button[data-again]");
  if (!button) return;
  if (button.dataset.again) tick("again", Number(button.dataset.again));
  else if (button.dataset.do === "undo") tick("undo", -1);
  else if (button.dataset.do === "pause") tick(paused(holding()) ? "resume" : "pause", -1);
  else tick(button.dataset.do, Number(document.querySelector("#now").dataset.of));
});
document.querySelector("#remember").addEventListener("submit", (event) => {
  event.preventDefault();
  const note = event.target.elements.note;
  if (note.value.trim()) tick("note", -1, note.value.trim());
  note.value = "";
});
setInterval(() => { clock(holding()); send(); }, 5000);
show();
send();
