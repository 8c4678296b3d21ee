// A form marked data-filters asks again as soon as a choice in it changes. Typing waits for Enter
// or for the button, so that nobody is moved along while still writing (WCAG 3.2.2).

for (const form of document.querySelectorAll("form[data-filters]")) {
  form.addEventListener("change", (event) => {
    if (event.target.matches("select, input[type=checkbox], input[type=radio]")) form.requestSubmit();
  });
}
