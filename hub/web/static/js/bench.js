// The bench by keyboard: step from line to line, and tick all findings at once. Every line is a plain
// link or box, so that the page works without this file.

const rows = [...document.querySelectorAll("[data-row]")];

/** Move to the line so many further on, from the present one or from the top. */
function step(by) {
  const at = rows.indexOf(document.activeElement);
  const next = at < 0 ? 0 : Math.min(Math.max(at + by, 0), rows.length - 1);
  rows[next]?.focus();
}

/** Tick every box of the form, or clear them when all are ticked. */
function tickAll(form) {
  const boxes = [...form.querySelectorAll("input[name=finding_ids]")];
  const all = boxes.every((box) => box.checked);
  boxes.forEach((box) => { box.checked = !all; });
}

for (const button of document.querySelectorAll("[data-step]")) {
  button.hidden = false;
  button.addEventListener("click", () => step(Number(button.dataset.step)));
}
for (const button of document.querySelectorAll("[data-tick-all]")) {
  button.hidden = false;
  button.addEventListener("click", () => tickAll(button.form));
}
