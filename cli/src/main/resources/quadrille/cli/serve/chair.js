// A visit by ticks: each has its number, is kept in the browser until the server has it, and counts once.
"use strict";

const chair = document.querySelector("#chair");
const kept = JSON.parse(document.querySelector("#ticks").value).ticks;
// The same once the program runs again, when addresses are others.
const store = "quadrille/chair/" + chair.dataset.store;
const rows = [...document.querySelectorAll("#rows li")];
const stops = [...document.querySelectorAll("[data-stop]")];
const told = (text) => { document.querySelector("#told").textContent = text; };
const same = (one, other) =>
  one.do === other.do && one.of === other.of && Date.parse(one.at) === Date.parse(other.at) && (one.text || "") === (other.text || "");
const said = (ticks) =>
  ticks.map((one) => {
    const row = rows.find((some) => Number(some.dataset.of) === one.of && one.do !== "answer");
    return [one.do, row ? `${row.querySelector("b").textContent} ${row.querySelectorAll("span")[1].textContent}` : "", one.text || ""].filter(Boolean).join(" ");
  }).join("; ");
let waiting = [];
let sending = false;

function keep() {
  try {
    localStorage.setItem(store, JSON.stringify(waiting));
  } catch {
    // What is ticked is sent all the same; it only would not last through a reload without a connection.
  }
}

// What waited from before; where another window has ticked meanwhile, it may mean something else by now, and is told instead.
function begin() {
  let stored = [];
  try {
    stored = JSON.parse(localStorage.getItem(store) || "[]");
  } catch {
    // Nothing is kept by this browser.
  }
  const lost = stored.filter((one) => one.number > kept.length || !same(one, kept[one.number - 1]));
  waiting = lost.filter((one) => one.number > kept.length);
  if (waiting.length < lost.length || (waiting.length && waiting[0].number !== kept.length + 1)) {
    waiting = [];
    told(`Ticked in another window meanwhile, so not kept: ${said(lost)}.`);
  }
  keep();
}

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
  keep();
  show();
  send();
}

let sent = Promise.resolve();

function send() {
  if (!sending && waiting.length) {
    sending = true;
    sent = sendNow().finally(() => { sending = false; });
  }
  return sent;
}

async function sendNow() {
  const some = waiting.slice();
  try {
    const answer = await fetch(chair.dataset.url + "/ticks", { method: "POST", body: JSON.stringify({ ticks: some }) });
    if (answer.ok) {
      kept.push(...some);
      waiting = waiting.slice(some.length);
      keep();
      told(waiting.length ? "" : "Kept.");
    } else {
      const json = (answer.headers.get("Content-Type") || "").includes("json");
      const why = json
        ? (await answer.json()).text
        : answer.status === 403
          ? "The program runs anew: open the page by the address that it printed; what is ticked waits here."
          : "This visit is recorded already, or planned again. Load it again.";
      told(answer.status === 409 && json ? why : `${why} Not kept yet: ${said(some)}.`);
    }
  } catch {
    told("No connection: what is ticked waits here, and is sent once there is one.");
  }
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
    ? [element("p", now.dataset.before, "before"), ...minded(ticks, now), element("p", now.querySelector("b").textContent, "doing"), element("p", now.querySelectorAll("span")[1].textContent, "where")]
    : [element("p", "All is ticked.", "doing")];
  if (place.textContent !== lines.map((line) => line.textContent).join("")) place.replaceChildren(...lines);
  document.querySelector("#next").textContent = next
    ? `Next: ${[next.dataset.before, next.querySelector("b").textContent, next.querySelectorAll("span")[1].textContent].filter(Boolean).join(", ")}`
    : "";
  for (const button of document.querySelectorAll("[data-do]")) {
    const kind = button.dataset.do;
    if (kind === "part") button.hidden = !now || now.dataset.work !== "true";
    if (kind === "done" || kind === "skip") button.hidden = !now;
    if (ends.includes(kind)) button.disabled = Boolean(paused(ticks));
    if (kind === "undo") button.disabled = !ticks.length;
    if (kind === "pause") button.textContent = paused(ticks) ? "Go on" : "Pause";
  }
  clock(ticks);
}

function paused(ticks) {
  const last = ticks.filter((one) => one.do === "pause" || one.do === "resume").pop();
  return last && last.do === "pause" ? last : null;
}

const injected = (ticks) =>
  ticks
    .filter((one) => one.do === "done" || one.do === "again")
    .map((one) => [one, rows.find((row) => Number(row.dataset.of) === one.of)])
    .filter(([, row]) => row && row.dataset.agent);
const since = (one) => Math.floor((Date.now() - Date.parse(one.at)) / 60000);

// The share of the day's maximum once one more injection is given; gel counts as planned.
function share(ticks, more) {
  let sum = Number(chair.dataset.gel);
  for (const row of [...injected(ticks).map(([, one]) => one), more]) {
    const most = [...document.querySelectorAll("[data-most]")].find((one) => one.dataset.most === row.dataset.agent);
    sum += most ? Number(row.dataset.mg) / Number(most.dataset.mg) : 0;
  }
  return sum;
}

const beyond = (ticks, row) =>
  share(ticks, row) > 1 + 1e-9 ? `With it ${Math.ceil(100 * share(ticks, row))} % of the day's maximum would be given: do not give it.` : "";

// What is said before it is too late: a dose beyond the maximum, and the wait of what was given again.
function minded(ticks, now) {
  const lines = [];
  if (now.dataset.agent && beyond(ticks, now)) lines.push(beyond(ticks, now));
  if (now.dataset.work === "true") {
    for (const [one, row] of injected(ticks)) {
      const wait = Number(row.dataset.onset) - since(one);
      if (one.do === "again" && wait > 0) lines.push(`Given again: ${row.querySelectorAll("span")[1].textContent}; wait ${wait} min before work under it.`);
    }
  }
  return lines.map((line) => element("p", line, "before beyond"));
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
  const numb = new Map();
  const given = {};
  for (const [one, row] of injected(ticks)) {
    given[row.dataset.agent] = (given[row.dataset.agent] || 0) + Number(row.dataset.mg);
    const wait = Number(row.dataset.onset) - since(one);
    const left = Number(row.dataset.numb) - since(one);
    const words = row.querySelectorAll("span")[1].textContent;
    // One that was given again takes the place of the one that did not numb.
    const again = beyond(ticks, row) && ` Given again: ${beyond(ticks, row)}`;
    numb.set(row, (wait > 0 ? `${words}: numb in ${wait} min` : left > 0 ? `${words}: ${left} min left` : `${words}: may have worn off`) + again);
  }
  const list = document.querySelector("#numb");
  const shown = [...numb.values()].join("\n");
  if (list.dataset.said !== shown) {
    list.dataset.said = shown;
    list.replaceChildren(
      ...[...numb].map(([row, words]) => {
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
  tick("answer", stops.indexOf(stop), `${stop.querySelector("bdi").textContent} ${answer} (${who})`.slice(0, 1000));
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
// Nobody looks over a record from which something that was ticked is missing.
document.querySelector("#end").addEventListener("click", async (event) => {
  if (!waiting.length && !sending) return;
  event.preventDefault();
  const link = event.currentTarget;
  await sent;
  await send();
  if (!waiting.length) location.assign(link.href);
});
setInterval(() => { show(); send(); }, 5000);
begin();
show();
send();
