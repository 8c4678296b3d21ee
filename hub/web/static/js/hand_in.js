// Quicker handing in: what is typed is kept by itself, rows are added at once, sums run along.
// Without this file the same buttons do the same on the server.

const place = document.querySelector("[data-keep]");
const form = place.querySelector("form");
const table = form.querySelector("[data-tallies]");
const sums = form.querySelector("[data-sums]");
const said = form.querySelector("[data-kept]");
const pause = 2000;
let waiting = 0;
let changed = false;
let sending = Promise.resolve();

async function keep() {
  if (!changed) return;
  changed = false;
  const answer = await fetch(place.dataset.keep, { method: "POST", body: new FormData(form), keepalive: true });
  const told = answer.headers.get("Content-Type")?.includes("json") ? await answer.json() : {};
  if (told.version) form.elements.version.value = told.version;
  else changed = true;
  said.textContent = told.said ?? "";
}

/** One sending after the other, so that each carries the version that the last one made. */
function keepSoon() {
  clearTimeout(waiting);
  waiting = setTimeout(() => { sending = sending.then(keep).catch(() => { changed = true; }); }, pause);
}

function column(name) {
  return [...table.querySelectorAll(`input[name$="-${name}"]`)].map((input) => input.value.trim());
}

function sum(name) {
  return column(name).reduce((total, text) => total + (/^\d{1,8}$/.test(text) ? Number(text) : 0), 0);
}

function showSums() {
  const count = new Intl.NumberFormat(document.documentElement.lang);
  const found = { mothers: column("flag").filter(Boolean).length, fruits: sum("fruits_taken"), seeds: sum("seeds") };
  sums.textContent = sums.dataset.sums.replace(/\{(\w+)\}/g, (hole, name) => count.format(found[name]));
}

function renumbered(text, at) {
  return text.replace(/tallies-\d+-/, `tallies-${at}-`);
}

/** A fresh row like the last one, numbered on. */
function addRow() {
  const last = table.tBodies[0].rows[table.tBodies[0].rows.length - 1];
  const at = Number(last.querySelector("input").name.match(/tallies-(\d+)-/)[1]) + 1;
  const row = last.cloneNode(true);
  row.querySelectorAll(".field-errors").forEach((each) => each.remove());
  for (const input of row.querySelectorAll("input")) {
    input.setAttribute("aria-label", input.getAttribute("aria-label").replace(/\d+/, String(table.tBodies[0].rows.length + 1)));
    for (const name of ["aria-invalid", "aria-describedby"]) input.removeAttribute(name);
    input.name = renumbered(input.name, at);
    input.id = renumbered(input.id, at);
    input.value = "";
  }
  table.tBodies[0].append(row);
  row.querySelector("input").focus();
}

form.addEventListener("input", () => {
  changed = true;
  keepSoon();
  showSums();
});
form.querySelector("[data-more-rows]").addEventListener("click", (event) => {
  event.preventDefault();
  addRow();
});
form.addEventListener("submit", () => { changed = false; clearTimeout(waiting); });
addEventListener("pagehide", keep);
