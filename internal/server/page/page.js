// Choosing a row of the table lights its live path in the drawing. Arrow keys
// move between rows. Nothing is computed here.
"use strict";

const drawing = document.getElementById("drawing");
const table = document.getElementById("settings");
const looms = document.getElementById("looms");

if (looms) looms.addEventListener("change", () => { location.href = looms.value; });

function choose(row) {
  const again = row.classList.contains("chosen");
  for (const other of table.tBodies[0].rows) {
    other.classList.remove("chosen");
    other.querySelector("button").setAttribute("aria-pressed", "false");
  }
  if (drawing) drawing.classList.toggle("chosen", !again);
  if (again) return;
  row.classList.add("chosen");
  row.querySelector("button").setAttribute("aria-pressed", "true");
  const live = new Set(row.dataset.live.split(" "));
  if (!drawing) return;
  for (const wire of drawing.querySelectorAll("[data-run]")) {
    wire.classList.toggle("live", live.has(wire.dataset.run));
  }
}

if (table) {
  table.addEventListener("click", (e) => {
    const row = e.target.closest("tbody tr");
    if (row) choose(row);
  });
  table.addEventListener("keydown", (e) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[e.key];
    const row = e.target.closest("tbody tr");
    if (!step || !row) return;
    const next = step > 0 ? row.nextElementSibling : row.previousElementSibling;
    if (!next) return;
    e.preventDefault();
    next.querySelector("button").focus();
    choose(next);
  });
}
