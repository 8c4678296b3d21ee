// Keyboard keys for people who work here all day. Any link or button with data-key="v" (one key) or
// data-key="g v" (two, one after the other) is pressed by it. The list opens with "?", and there the
// keys can be switched off. They never act while somebody types (WCAG 2.1.4).

const store = "funicle.keys";
const pause = 1200;
let started = "";
let startedAt = 0;

const dialog = document.getElementById("keys");
const places = () => [...document.querySelectorAll("[data-key]")];

function switchedOn() {
  return localStorage.getItem(store) !== "off";
}

function typing(target) {
  return target.closest("input, select, textarea, [contenteditable]") !== null;
}

function nameOf(place) {
  return place.dataset.keySays ?? place.getAttribute("aria-label") ?? place.textContent.trim().replace(/\s+/g, " ");
}

function keyMark(key) {
  const mark = document.createElement("kbd");
  mark.textContent = key;
  return mark;
}

function listRow(place) {
  const row = document.createElement("tr");
  const keys = row.insertCell();
  place.dataset.key.split(" ").forEach((key) => keys.append(keyMark(key), " "));
  row.insertCell().textContent = nameOf(place);
  return row;
}

function fillList() {
  dialog.querySelector("[data-key-list]").append(...places().map(listRow));
}

function press(event) {
  if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
  if (!switchedOn() || typing(event.target) || document.querySelector("dialog[open]")) return;
  if (event.key === "?") {
    dialog.showModal();
    return;
  }
  const pair = event.timeStamp - startedAt < pause ? `${started} ${event.key}` : event.key;
  const found = places().find((place) => place.dataset.key === pair || place.dataset.key === event.key);
  started = event.key;
  startedAt = event.timeStamp;
  if (!found) return;
  event.preventDefault();
  if (found.matches("input, select, textarea")) found.focus();
  else found.click();
}

if (dialog) {
  const box = dialog.querySelector("[data-keys-on]");
  box.checked = switchedOn();
  box.addEventListener("change", () => localStorage.setItem(store, box.checked ? "on" : "off"));
  fillList();
  document.addEventListener("keydown", press);
}
