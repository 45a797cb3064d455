// Keys for fingers: each button types what stands in its data-key. The screen's own keyboard stays away until it is
// asked for by "letters".
"use strict";
const typed = () => document.querySelector(".xterm-helper-textarea");

// Twice: the terminal measures its letters anew only when it changes its size.
function fit() {
  for (const after of [100, 300]) setTimeout(() => window.dispatchEvent(new Event("resize")), after);
}

function type(text) {
  const area = typed();
  if (area) area.dispatchEvent(new InputEvent("input", { data: text, inputType: "insertText", bubbles: true }));
}

function ready() {
  const area = typed();
  if (!area) return false;
  area.setAttribute("inputmode", "none");
  area.focus({ preventScroll: true });
  return true;
}

window.addEventListener("load", () => {
  new ResizeObserver(fit).observe(document.getElementById("terminal"));
  document.fonts.ready.then(fit);
  const wait = setInterval(() => { if (ready()) clearInterval(wait); }, 50);
  for (const button of document.querySelectorAll("button[data-key]")) {
    button.addEventListener("pointerdown", (event) => event.preventDefault()); // the terminal keeps the focus
    button.addEventListener("click", () => type(button.dataset.key));
  }
  document.getElementById("more").addEventListener("click", () => {
    const numbers = document.getElementById("numbers");
    numbers.hidden = !numbers.hidden;
    document.body.classList.toggle("numbers", !numbers.hidden);
  });
  document.getElementById("letters").addEventListener("click", () => {
    const area = typed();
    if (!area) return;
    area.setAttribute("inputmode", area.getAttribute("inputmode") === "text" ? "none" : "text");
    area.blur();
    area.focus();
  });
});
