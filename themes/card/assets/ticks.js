"use strict";
/*
 * Ticks: the boxes of a recipe page, kept in this browser for one revision of one recipe, so that a reload
 * beside the tray loses nothing; the way to the step after the last one that is done; how far each stage is.
 * A box is kept by its words and where it stands: one that says something else today is not ticked. Where
 * storage is refused the boxes still tick, and are not kept.
 */
(function (root) {
  const boxes = [...document.querySelectorAll(
    "input[data-tick], input[data-need], input[data-check], input[data-done]")];
  const steps = boxes.filter((box) => "done" in box.dataset);
  const stages = [...document.querySelectorAll(".stage")];
  const card = document.getElementById("calculator")?.dataset.card;
  const button = document.getElementById("clear-ticks");
  const way = document.getElementById("go-on");
  if (!card || !button || boxes.length === 0) return;

  const key = `trayside-ticks-${card}`;

  /** What each box is kept by. */
  const names = [];
  for (const box of boxes) {
    const name = `${box.closest("[id]").id}: ${box.closest("label").textContent.trim()}`;
    names.push(names.includes(name) ? `${name} (${names.length})` : name);
  }

  /** The names of the boxes that were ticked. */
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
    // A card that is still ticked from the last print looks at no film of the next.
    button.textContent = steps.at(-1)?.checked ? "The work is done: clear the ticks before the next print" : "Clear the ticks";
    const next = steps[steps.findLastIndex((box) => box.checked) + 1];
    way.hidden = !next || next === steps[0];
    if (way.hidden) return;
    way.textContent = `Go on: ${next.dataset.done}`;
    const stage = next.closest(".stage");
    // A stage begins with its card and with the checks before it, not with its first step.
    way.href = `#${next === stage.querySelector("[data-done]") ? stage.id : next.closest(".step").id}`;
  };

  /** The steps of a stage that are done, of how many. */
  const doneOf = (stage) => {
    const its = [...stage.querySelectorAll("[data-done]")];
    return [its.filter((box) => box.checked).length, its.length];
  };

  /** Beside each stage, there and in their list, how far it is. */
  const tellHowFar = () => {
    for (const stage of stages) {
      const [done, all] = doneOf(stage);
      const words = done === 0 ? "" : done === all ? "done" : `${done} of ${all} done`;
      for (const place of document.querySelectorAll(`[data-far="${stage.id}"]`)) place.textContent = words;
    }
  };

  /** Open whatever is folded around the place that the address names. */
  const openTo = () => {
    const fold = document.getElementById(root.location.hash.slice(1))?.closest("details.doing");
    if (!fold || fold.open) return;
    fold.open = true;
    document.getElementById(root.location.hash.slice(1)).scrollIntoView();
  };

  const unfold = () => {
    for (const stage of stages) stage.querySelector("details.doing").open = true;
  };

  const keep = () => {
    const ticked = boxes.flatMap((box, at) => (box.checked ? [names[at]] : []));
    button.parentElement.hidden = ticked.length === 0;
    goOn();
    tellHowFar();
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
    unfold();
    document.getElementById("main")?.focus(); // the button goes away with the last tick
  };

  const kept = new Set(recall());
  for (const [at, box] of boxes.entries()) box.checked = kept.has(names[at]);
  keep();
  // Only as the page opens: nothing moves under a thumb.
  for (const stage of stages) {
    const [done, all] = doneOf(stage);
    stage.querySelector("details.doing").open = done < all;
  }
  openTo();
  root.addEventListener("hashchange", openTo);
  root.addEventListener("beforeprint", unfold);
  document.addEventListener("change", (event) => {
    if (boxes.includes(event.target)) keep();
  });
  button.addEventListener("click", clear);
})(globalThis);
