"use strict";
/*
 * Ticks: the boxes of a recipe page, kept in this browser for one revision of one recipe, so that a reload
 * beside the tray loses nothing. Where storage is refused the boxes still tick, and are not kept.
 */
(function (root) {
  const boxes = [...document.querySelectorAll("input[data-tick], input[data-need]")];
  const card = document.getElementById("calculator")?.dataset.card;
  const button = document.getElementById("clear-ticks");
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

  const keep = () => {
    const ticked = boxes.flatMap((box, at) => (box.checked ? [at] : []));
    button.parentElement.hidden = ticked.length === 0;
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
  document.addEventListener("change", (event) => {
    if (boxes.includes(event.target)) keep();
  });
  button.addEventListener("click", clear);
})(globalThis);
