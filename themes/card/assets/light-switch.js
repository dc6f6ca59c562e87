"use strict";
/* The switch of the low light in the foot of a page, and the ways that lead to it; what it does is light.js. */
(function (root) {
  const { KEY, change, kept } = root.traysideLight;
  const block = document.querySelector("[data-light-switch]");
  if (!block) return;
  const radios = [...block.querySelectorAll("input[name=light]")];
  const now = block.querySelector("[data-light-now]");

  const show = (light) => {
    for (const radio of radios) radio.checked = radio.value === light;
    now.textContent = light || "off";
  };

  block.addEventListener("change", (event) => {
    if (!radios.includes(event.target)) return;
    change(event.target.value);
    show(event.target.value);
  });
  for (const name of ["storage", "pageshow"]) root.addEventListener(name, (event) => (event.key ?? KEY) === KEY && show(kept()));
  show(kept());
  block.hidden = false;
  for (const way of document.querySelectorAll("[data-light-way]")) way.hidden = false;
})(globalThis);
