"use strict";
/*
 * The water panel of a recipe: which water the advice is for. The choice is kept in this browser for all recipes of the
 * archive. Sums and words are water-rules.js; without this file the page shows the archive's first water.
 */
(function (root) {
  const block = document.getElementById("water-data");
  const form = document.getElementById("water-form");
  if (!block || !form) return;
  const data = JSON.parse(block.textContent);
  const { figureWords, readWater, readingOf, state, stateWords } = root.traysideWater;
  const OWN = "";
  const key = `trayside-water ${data.archive}`;
  const waters = data.waters.map(readWater);
  const refused = document.getElementById("water-refused");
  const fields = [...form.querySelectorAll("[data-measure]")];

  const recall = () => {
    try {
      return JSON.parse(root.localStorage.getItem(key) ?? "{}") ?? {};
    } catch {
      return {}; // refused, or not ours
    }
  };

  const keep = () => {
    const kept = { water: form.elements.water.value, own: Object.fromEntries(fields.map(typedIn)) };
    try {
      // Measures that this recipe does not ask for stay as another recipe's page has kept them.
      root.localStorage.setItem(key, JSON.stringify({ ...kept, own: { ...recall().own, ...kept.own } }));
    } catch {
      // refused: the page works, it only forgets
    }
  };

  const typedIn = (field) => [field.dataset.measure, [field.querySelector("input").value, field.querySelector("select")?.value ?? ""]];

  /** The water that is filled in; what cannot be read is said, and counts as not known. */
  const ownWater = () => {
    const readings = {};
    const said = [];
    for (const field of fields) {
      const [measure, [typed, symbol]] = typedIn(field);
      try {
        if (typed.trim()) readings[measure] = readingOf(measure, typed, symbol, data.measures);
      } catch (refusal) {
        said.push(`${data.measures[measure].name}: ${refusal.message}; ${refusal.help}`);
      }
    }
    return { water: { id: OWN, name: "the water you fill in", readings }, said };
  };

  const show = () => {
    const named = waters.find((each) => each.id === form.elements.water.value);
    const { water, said } = named ? { water: named, said: [] } : ownWater();
    form.querySelector("[data-own]").hidden = Boolean(named);
    refused.textContent = said.join(". ").replaceAll("`", "");
    for (const place of document.querySelectorAll("[data-water-name]")) place.textContent = water.name;
    for (const place of document.querySelectorAll("[data-water-item]")) {
      const item = data.items[Number(place.dataset.waterItem)];
      const found = state(item, water);
      place.dataset.state = found;
      place.querySelector("[data-words]").textContent = stateWords(item, water, data);
      place.querySelector("[data-more]").hidden = found === "below";
      for (const [at, figure] of figureWords(item, water, data).entries()) {
        place.querySelectorAll("[data-figure]")[at].textContent = figure;
      }
    }
    for (const about of document.querySelectorAll("[data-about]")) about.hidden = about.dataset.about !== water.id;
  };

  const kept = recall();
  if (kept.water === OWN || waters.some((each) => each.id === kept.water)) form.elements.water.value = kept.water;
  for (const field of fields) {
    const [typed, symbol] = kept.own?.[field.dataset.measure] ?? [];
    const select = field.querySelector("select");
    if (typeof typed === "string") field.querySelector("input").value = typed;
    if (select && [...select.options].some((each) => each.value === symbol)) select.value = symbol;
  }
  form.hidden = false;
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", () => {
    keep();
    show();
  });
  show();
})(globalThis);
