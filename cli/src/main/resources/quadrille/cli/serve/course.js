// One to six visits, each shown as soon as it is found.
"use strict";

const room = document.querySelector("#course");
const query = location.search;
let chosen = 0;
let best = null;
// What each number of visits was planned from, which may have changed from one to the next.
const seen = {};
let waiting = 6;

async function card(visits) {
  const place = document.querySelector("#choice-" + visits);
  try {
    const answer = await fetch(`${room.dataset.url}/${visits}${query}`);
    if (!answer.ok) throw new Error(String(answer.status));
    const read = await answer.json();
    place.innerHTML = read.html;
    seen[visits] = read.seen;
    place.classList.toggle("none", !read.found);
    if (read.found && (!best || read.seconds < best.seconds)) best = { visits, seconds: read.seconds };
  } catch {
    place.querySelector(".waiting").textContent = "The program does not answer.";
  }
  place.setAttribute("aria-busy", "false");
  waiting--;
  if (waiting === 0) {
    if (best) mark(best.visits);
    told(best ? "All are found." : "No number of visits keeps every rule; each says what stands in the way.");
    if (best && !chosen) choose(best.visits);
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

document.querySelector(".choices").addEventListener("click", (event) => {
  const button = event.target.closest("[data-choose], [data-help]");
  if (button && button.dataset.help) help(button);
  else if (button) choose(Number(button.dataset.choose));
});
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
document.querySelector("#compare").href += query;
for (let visits = 1; visits <= 6; visits++) card(visits);
