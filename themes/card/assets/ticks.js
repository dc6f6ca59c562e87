"use strict";
/*
 * Ticks: the boxes of a recipe page, kept in this browser for one revision of one recipe, so that a reload
 * beside the tray loses nothing; and the way to the step after the last one that is done. Where storage is
 * refused the boxes still tick, and are not kept.
 */
(function (root) {
  const boxes = [...document.querySelectorAll(
    "input[data-tick], input[data-need], input[data-check], input[data-done]")];
  const steps = boxes.filter((box) => "done" in box.dataset);
  const card = document.getElementById("calculator")?.dataset.card;
  const button = document.getElementById("clear-ticks");
  const way = document.getElementById("go-on");
  if (!card || !button || boxes.length === 0) return;

  const key = `trayside-ticks-${card}`;

  /** The numbers of the boxes that were ticked. */
  const recall = () => {
    try {
      const kept = JSON.parse(root.localStorage.getItem(key) ?? "[]");
      return Array.isArray(kept) ? kept : [];
    } catch {
      return []; // refused, or not ours
    }
  };

  /** Lead to the step after the last one that is done; steps that were left out stay left out. */
  const goOn = () => {
    if (!way) return; // a recipe without stages
    const next = steps[steps.findLastIndex((box) => box.checked) + 1];
    way.hidden = !next || next === steps[0];
    if (way.hidden) return;
    way.textContent = `Go on: ${next.dataset.done}`;
    way.href = `#${next.closest(".step").id}`;
  };

  const keep = () => {
    const ticked = boxes.flatMap((box, at) => (box.checked ? [at] : []));
    button.parentElement.hidden = ticked.length === 0;
    goOn();
    try {
      if (ticked.length > 0) root.localStorage.setItem(key, JSON.stringify(ticked));
      else root.localStorage.removeItem(key);
    } catch {
      // refused: the page works, it only forgets
    }
  };

  const clear = () => {
    for (const box of boxes) box.checked = false;
    keep();
    document.getElementById("main")?.focus(); // the button goes away with the last tick
  };

  const kept = new Set(recall());
  for (const [at, box] of boxes.entries()) box.checked = kept.has(at);
  button.parentElement.hidden = kept.size === 0;
  goOn();
  document.addEventListener("change", (event) => {
    if (boxes.includes(event.target)) keep();
  });
  button.addEventListener("click", clear);
})(globalThis);
