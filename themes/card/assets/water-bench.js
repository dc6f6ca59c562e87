"use strict";
/*
 * The bench's sums with water: fills the units, reads what is typed, shows the other units or the acids. Arithmetic is
 * water-rules.js and ratio.js.
 */
(function () {
  const block = document.getElementById("water-sums-data");
  if (!block) return;
  const { acids, measures } = JSON.parse(block.textContent);
  const { amountText, inUnit, readingOf } = globalThis.traysideWater;

  const line = (words) => {
    const made = document.createElement("span");
    made.className = "said";
    made.textContent = words;
    return made;
  };

  const ANSWERS = {
    hardness: (reading, symbol) =>
      measures.hardness.units.filter((unit) => unit.symbol !== symbol).map((unit) => `${inUnit(reading, unit)} (${unit.means})`),
    alkalinity: (reading) =>
      acids.map((acid) => `${amountText(reading, acid.per)} ${acid.unit} of ${acid.of}${acid.note ? `. ${acid.note}` : ""}`),
  };

  for (const form of document.querySelectorAll("[data-water-sum]")) {
    const measure = form.dataset.waterSum;
    const { figure, unit } = form.elements;
    unit.replaceChildren(...measures[measure].units.map(({ symbol }) => new Option(symbol, symbol)));
    const output = form.querySelector("output");
    const refused = form.querySelector(".refused");
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", () => {
      output.replaceChildren();
      refused.textContent = "";
      if (!figure.value.trim()) return;
      try {
        const reading = readingOf(measure, figure.value, unit.value, measures);
        output.replaceChildren(...ANSWERS[measure](reading, unit.value).map(line));
      } catch (refusal) {
        refused.textContent = `${refusal.message}; ${refusal.help}`.replaceAll("`", "");
      }
    });
    form.hidden = false;
  }
})();
