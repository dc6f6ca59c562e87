"use strict";
/*
 * Narrowing a list: by words, and by every choice of the form, which each entry answers in its data (`data-process`
 * for the choice `process`, several with spaces between). What is chosen stands in the address, so that it can be sent
 * on. Without this file the page lists everything, and links lead to shorter lists.
 */
(function (root) {
  const form = document.getElementById("narrow");
  if (!form) return;

  const plain = (text) => text.toLowerCase().normalize("NFD").replace(/\p{M}/gu, "");
  const entries = [...document.querySelectorAll(".narrowed")].map((node) => ({
    node,
    text: plain(`${node.dataset.words ?? ""} ${node.textContent}`),
  }));
  const parts = [...document.querySelectorAll("[data-part]")];
  const count = form.querySelector("output");
  const none = document.getElementById("narrow-none");
  const fields = [...form.elements].map(({ name }) => name).filter(Boolean);

  const asked = () => Object.fromEntries(fields.map((name) => [name, form.elements[name].value.trim()]));

  /** Every word must begin a word of the entry, and every choice be among its own. */
  const fits = ({ node, text }, { words, ...chosen }) =>
    Object.entries(chosen).every(([name, choice]) => !choice || node.dataset[name].split(" ").includes(choice)) &&
    plain(words).split(/\s+/).every((word) => begins(text, word));

  const escaped = (word) => word.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
  const begins = (text, word) => new RegExp(`(?:^|[^\\p{L}\\p{N}])${escaped(word)}`, "u").test(text);

  const narrow = () => {
    const question = asked();
    let left = 0;
    for (const entry of entries) {
      entry.node.hidden = !fits(entry, question);
      if (!entry.node.hidden) left += 1;
    }
    for (const part of parts) part.hidden = !part.querySelector(".narrowed:not([hidden])");
    none.hidden = left > 0;
    const all = left === entries.length;
    count.textContent = all ? "" : `${left} of ${entries.length}`;
    return question;
  };

  const keep = () => {
    const params = new URLSearchParams(Object.entries(narrow()).filter(([, value]) => value));
    const text = params.toString();
    if (text || root.location.hash.includes("=")) root.history.replaceState(null, "", text ? `#${text}` : "#");
  };

  const recall = () => {
    if (!root.location.hash.includes("=")) return;
    const params = new URLSearchParams(root.location.hash.slice(1));
    for (const name of fields) form.elements[name].value = params.get(name) ?? "";
  };

  form.addEventListener("input", keep);
  form.addEventListener("submit", (event) => event.preventDefault());
  root.addEventListener("hashchange", () => {
    recall();
    narrow();
  });
  form.hidden = false;
  for (const links of document.querySelectorAll(".narrow-links")) links.hidden = true; // the form does it in place
  recall();
  narrow();
})(globalThis);
