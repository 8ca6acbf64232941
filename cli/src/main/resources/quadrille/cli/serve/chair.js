// A visit by ticks: each has its number, is kept in the browser until the server has it, and counts once.
"use strict";

const chair = document.querySelector("#chair");
const kept = JSON.parse(document.querySelector("#ticks").value).ticks;
// The same once the program runs again, when addresses are others.
const store = "quadrille/chair/" + chair.dataset.store;
let rows = [...document.querySelectorAll("#rows li")];
const stops = [...document.querySelectorAll("[data-stop]")];
const told = (text) => { document.querySelector("#told").textContent = text; };
const same = (one, other) =>
  one.do === other.do && one.of === other.of && Date.parse(one.at) === Date.parse(other.at) && (one.text || "") === (other.text || "");
const said = (ticks) =>
  ticks.map((one) => {
    const row = rows.find((some) => Number(some.dataset.of) === one.of && one.do !== "answer");
    if (one.found) return foundWords(one.found);
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

function foundWords(found) {
  const place = `${found.tooth} ${found.aspect || ""}`.trim();
  return found.what === "depth"
    ? `${place} ${found.site} ${found.depthMm} mm${found.bleeding ? ", bleeding" : ""}`
    : found.what === "pus" ? `pus at ${place}` : `a sleeve broke at ${place}`;
}

function tick(what, of, text, found) {
  const one = { number: all().length + 1, at: new Date().toISOString(), do: what };
  if (of >= 0) one.of = of;
  if (text) one.text = text;
  if (found) one.found = found;
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
    const again = row.querySelector("[data-next]");
    if (again) again.hidden = Boolean(ended) || row === now;
    row.draggable = Boolean(again && !ended);
  }
  const found = ticks.filter((one) => one.found).map((one) => foundWords(one.found));
  const listed = document.querySelector("#found");
  if (listed.dataset.said !== found.join("\n")) {
    listed.dataset.said = found.join("\n");
    listed.replaceChildren(...found.map((words) => element("li", words)));
  }
  const place = document.querySelector("#now");
  place.dataset.of = now ? now.dataset.of : "";
  const lines = now
    ? [element("p", now.dataset.before, "before"), ...minded(ticks, now), element("p", now.querySelector("b").textContent, "doing"), element("p", now.dataset.big, "big"), element("p", now.querySelectorAll("span")[1].textContent, "where")]
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
    const skipped = ticks.filter((one) => one.do === "skip" && now.dataset.under.split(" ").includes(String(one.of)));
    for (const one of skipped) {
      const row = rows.find((some) => Number(some.dataset.of) === one.of);
      lines.push(`Not given: ${row.querySelectorAll("span")[1].textContent}. What comes now is not all numb without it: take “Not done” back and give it, or leave this out.`);
    }
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
  showRegions(ticks);
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
      return element("li", `${most.textContent}: ${Math.round(mg)} mg given, ` + (left < 0 ? `${Math.round(-left)} mg beyond the maximum` : `${Math.floor(left)} mg left`));
    }),
  );
}

// What is left of the numbness of each area: as long as all lasts that is given for it.
function showRegions(ticks) {
  const last = new Map();
  for (const [one, row] of injected(ticks)) last.set(row, one);
  const over = new Set(ticks.filter((one) => ends.includes(one.do)).map((one) => one.of));
  const regions = new Map();
  for (const row of rows) {
    for (const region of (row.dataset.regions || "").split("; ").filter(Boolean)) {
      const all = regions.get(region) || { left: Infinity, wait: 0, open: false, given: false };
      const one = last.get(row);
      if (one) {
        all.given = true;
        all.left = Math.min(all.left, Number(row.dataset.numb) - since(one));
        all.wait = Math.max(all.wait, Number(row.dataset.onset) - since(one));
      } else if (!over.has(Number(row.dataset.of))) all.open = true;
      regions.set(region, all);
    }
  }
  const lines = [...regions]
    .filter(([, all]) => all.given)
    .map(([region, all]) =>
      `${region}: ` +
      (all.open ? "more is to be given" : all.left <= 0 ? "may have worn off" : all.wait > 0 ? `numb in ${all.wait} min` : `${all.left} min left`));
  const list = document.querySelector("#regions");
  if (list.dataset.said !== lines.join("\n")) {
    list.dataset.said = lines.join("\n");
    list.replaceChildren(...lines.map((line) => element("li", line)));
  }
}

// Another order: what is wanted up to the row that moves; the rest is put in order by the program.
async function reorder(row, place) {
  await sent;
  await send();
  if (waiting.length) {
    told("The order is changed once what is ticked has been sent.");
    return;
  }
  const open = openWork().filter((one) => one !== row);
  const order = [...open.slice(0, place), row].map((one) => Number(one.dataset.of));
  const one = { number: kept.length + 1, at: new Date().toISOString(), do: "order", order };
  sending = true;
  told("");
  try {
    const answer = await fetch(chair.dataset.url + "/order", { method: "POST", body: JSON.stringify({ ticks: [one] }) });
    const json = (answer.headers.get("Content-Type") || "").includes("json") ? await answer.json() : {};
    if (!answer.ok) {
      told(json.text || "The order is as it was. Load the page again.");
      return;
    }
    kept.push(one);
    const list = document.querySelector("#rows");
    for (const { of, start, before } of json.rows) {
      const moved = rows.find((some) => Number(some.dataset.of) === of);
      moved.dataset.start = start;
      moved.dataset.before = before;
      moved.querySelector(".when").textContent = start;
      list.append(moved);
    }
    rows = [...document.querySelectorAll("#rows li")];
    const cautions = document.querySelector("#cautions");
    cautions.replaceChildren(...json.cautions.map((words) => element("li", words)));
    cautions.hidden = !json.cautions.length;
    told("Kept, in the new order.");
  } catch {
    told("No connection: the order is changed once there is one.");
  } finally {
    sending = false;
  }
  show();
  row.querySelector("[data-next]:not([hidden])")?.focus();
}

const openWork = () => rows.filter((row) => row.dataset.work === "true" && !row.hasAttribute("data-over"));
const list = document.querySelector("#rows");
list.addEventListener("click", (event) => {
  const button = event.target.closest("[data-next]");
  if (button) reorder(button.closest("li"), 0);
});
list.addEventListener("keydown", (event) => {
  const step = { ArrowUp: -1, ArrowDown: 1 }[event.key];
  const row = event.target.closest("[data-next]")?.closest("li");
  if (!step || !row) return;
  event.preventDefault();
  const place = openWork().indexOf(row) + step;
  if (place >= 0 && place < openWork().length) reorder(row, place);
});
let dragged = null;
list.addEventListener("dragstart", (event) => { dragged = event.target.closest("li"); });
list.addEventListener("dragover", (event) => {
  if (dragged && openWork().includes(event.target.closest("li"))) event.preventDefault();
});
list.addEventListener("drop", (event) => {
  const onto = event.target.closest("li");
  event.preventDefault();
  const place = openWork().indexOf(onto);
  if (dragged && dragged !== onto && place >= 0) reorder(dragged, place);
  dragged = null;
});
const find = document.querySelector("#find");
function showFind() {
  const what = find.elements.what.value;
  for (const name of ["site", "mm", "bleeding"]) find.elements[name].closest("label").hidden = what !== "depth";
  find.elements.aspect.closest("label").hidden = what === "broken-sleeve";
  for (const option of find.elements.tooth.options) option.hidden = option.disabled = what === "broken-sleeve" && option.dataset.implant !== "true";
  if (find.elements.tooth.selectedOptions[0]?.disabled) find.elements.tooth.value = [...find.elements.tooth.options].find((one) => !one.disabled).value;
  find.elements.mm.required = what === "depth";
}
find.addEventListener("change", showFind);
find.addEventListener("submit", (event) => {
  event.preventDefault();
  const { what, tooth, aspect, site, mm, bleeding } = find.elements;
  const found = { what: what.value, tooth: tooth.value };
  if (found.what !== "broken-sleeve") found.aspect = aspect.value;
  if (found.what === "depth") Object.assign(found, { site: site.value, depthMm: Number(mm.value) }, bleeding.checked ? { bleeding: true } : {});
  tick("found", -1, "", found);
  mm.value = "";
  bleeding.checked = false;
});
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
  else if (button.dataset.do === "undo") undo();
  else if (button.dataset.do === "pause") tick(paused(holding()) ? "resume" : "pause", -1);
  else tick(button.dataset.do, Number(document.querySelector("#now").dataset.of));
});
// The order before is the program's to tell.
async function undo() {
  const last = holding().pop();
  tick("undo", -1);
  if (last && last.do === "order") {
    await sent;
    if (!waiting.length) location.reload();
  }
}
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
showFind();
setInterval(() => { show(); send(); }, 5000);
begin();
show();
send();
