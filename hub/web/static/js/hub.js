// What makes pages quicker, never possible: one sending per form, a warning before typed words
// are lost, copying, dialogs, and the device's own position. Every page works without this file.

/** Refuse a second sending of the same form while the first is under way. */
function sendOnce(form) {
  form.addEventListener("submit", (event) => {
    if (form.dataset.sending) {
      event.preventDefault();
      return;
    }
    form.dataset.sending = "yes";
    for (const button of form.querySelectorAll("button[type=submit]")) button.setAttribute("aria-disabled", "true");
  });
}

/** Going back in the browser may show a page that was frozen while sending. */
function thawWhenShownAgain() {
  for (const form of document.querySelectorAll("form[data-sending]")) {
    delete form.dataset.sending;
    for (const button of form.querySelectorAll("[aria-disabled]")) button.removeAttribute("aria-disabled");
  }
}

/** Ask before leaving a form that holds words which were not sent. */
function warnUnsaved(form) {
  let changed = false;
  form.addEventListener("input", () => { changed = true; });
  form.addEventListener("submit", () => { changed = false; });
  window.addEventListener("beforeunload", (event) => { if (changed) event.preventDefault(); });
}

async function copy(button) {
  await navigator.clipboard.writeText(button.dataset.copy);
  const words = button.querySelector("[data-copy-words]") ?? button;
  const before = words.textContent;
  words.textContent = button.dataset.copied;
  setTimeout(() => { words.textContent = before; }, 2000);
}

function openDialog(button) {
  document.getElementById(button.dataset.openDialog).showModal();
}

/** Fill latitude, longitude and, when asked for, the metres it could be off by. */
function fillPosition(fieldset) {
  const said = fieldset.querySelector("[data-position-said]");
  const inputs = fieldset.dataset.position.split(" ").map((name) => document.getElementById(`field-${name}`));
  said.textContent = said.dataset.asking;
  navigator.geolocation.getCurrentPosition(({ coords }) => {
    const values = [coords.latitude.toFixed(6), coords.longitude.toFixed(6), String(Math.ceil(coords.accuracy))];
    inputs.forEach((input, place) => { input.value = values[place]; });
    said.textContent = "";
    inputs[0].dispatchEvent(new Event("input", { bubbles: true }));
  }, () => { said.textContent = said.dataset.failed; }, { enableHighAccuracy: true, timeout: 20000 });
}

function showWith(selector, act) {
  for (const button of document.querySelectorAll(selector)) {
    button.hidden = false;
    button.addEventListener("click", () => act(button));
  }
}

document.querySelectorAll("form[data-once]").forEach(sendOnce);
document.querySelectorAll("form[data-unsaved]").forEach(warnUnsaved);
window.addEventListener("pageshow", thawWhenShownAgain);
if (navigator.clipboard) showWith("[data-copy]", copy);
showWith("[data-open-dialog]", openDialog);
showWith("[data-print]", () => window.print());
if (navigator.geolocation) showWith("[data-position-button]", (button) => fillPosition(button.closest("fieldset")));
document.getElementById("problems")?.focus();
