"use strict";
/*
 * Before and after under a slider: the picture after lies on the one before and is uncovered from the left.
 * The slider is the browser's own, so the keyboard moves it. Without this file both pictures stand side by side.
 */
(function () {
  const STEP = 2;

  /** One rule for each place of the slider, made once: the policy of the page allows no styles in its markup. */
  const places = () => {
    const sheet = new CSSStyleSheet();
    const rules = [];
    for (let at = 0; at <= 100; at += STEP) {
      rules.push(`.compare[data-at="${at}"] .compare-after .compare-picture { clip-path: inset(0 ${100 - at}% 0 0); }`);
      rules.push(`.compare[data-at="${at}"] .compare-after::after { inset-inline-start: ${at}%; }`);
    }
    sheet.replaceSync(`@media screen { ${rules.join("\n")} }`);
    return sheet;
  };

  const begin = (block) => {
    const slider = block.querySelector("input");
    const move = () => {
      block.dataset.at = slider.value;
      slider.setAttribute("aria-valuetext", `${slider.value} % of the picture after`);
    };
    slider.addEventListener("input", move);
    block.classList.add("laid");
    slider.closest("label").hidden = false;
    move();
  };

  const blocks = document.querySelectorAll("[data-compare]");
  if (blocks.length === 0) return;
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, places()];
  for (const block of blocks) begin(block);
})();
