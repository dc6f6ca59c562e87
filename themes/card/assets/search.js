"use strict";
/*
 * Search: finds recipes, substances and troubles while the reader types, in the list that search/index.js
 * puts on globalThis. Half a word is enough; all words must be found. No request is made.
 */
(function (root) {
  const MOST = 24;
  const KINDS = { recipe: "Recipe", substance: "Substance", trouble: "Trouble" };

  /** Points for a word found in the title, the code, the other names, or the summary alone. */
  const TITLE = 8;
  const CODE = 6;
  const NAMES = 3;
  const REST = 1;

  /** A text as it is compared: no case, no accents, hyphens as spaces. Twin of compute/names.py, wider. */
  const fold = (text) =>
    text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replaceAll("ß", "ss")
      .replace(/[^\p{L}\p{N}.]+/gu, " ").trim();

  /** Whether a word begins with what is sought, also across a space: `sodaash` finds `soda ash`. */
  const begins = (text, sought) =>
    text.startsWith(sought) || text.includes(` ${sought}`) || text.replaceAll(" ", "").startsWith(sought);

  /** An entry of the index with its texts folded once. */
  const prepare = (entry) => ({
    entry, title: fold(entry.t), code: fold(entry.c), names: entry.w.map(fold), rest: fold(entry.s),
  });

  const points = (sought, { title, code, names, rest }) => {
    if (begins(title, sought)) return title === sought ? 2 * TITLE : TITLE;
    if (code && begins(code, sought)) return CODE;
    if (names.some((name) => begins(name, sought))) return NAMES;
    return begins(rest, sought) ? REST : 0;
  };

  /** Entries that hold every word, best first; equal ones keep the order of the index. */
  const find = (typed, prepared) => {
    const words = fold(typed).split(" ").filter(Boolean);
    if (words.length === 0) return [];
    const scored = prepared.map((each) => {
      const found = words.map((word) => points(word, each));
      return { entry: each.entry, score: found.includes(0) ? 0 : found.reduce((a, b) => a + b) };
    });
    return scored.filter(({ score }) => score > 0).sort((a, b) => b.score - a.score).map(({ entry }) => entry);
  };

  const element = (name, className, text) => {
    const made = document.createElement(name);
    made.className = className;
    made.textContent = text;
    return made;
  };

  /** One found entry: its code and title as a link, what it is, and a line about it. */
  const itemOf = ({ t, c, u, k, s }, prefix) => {
    const link = element("a", "entry-link", "");
    link.href = prefix + u;
    if (c) link.append(element("span", "code", c), " ");
    link.append(element("span", "entry-title", t));
    const item = element("li", "entry", "");
    item.append(link, " ", element("span", "quiet", KINDS[k] ?? k));
    if (s) item.append(element("p", "entry-summary", s));
    return item;
  };

  const start = (form, list) => {
    const field = form.querySelector("input[type=search]");
    const prepared = root.traysideSearch.map(prepare);
    const prefix = document.documentElement.dataset.root ?? "";
    const said = element("p", "quiet", "");
    said.setAttribute("role", "status");
    list.before(said);

    const look = () => {
      const found = find(field.value, prepared);
      list.replaceChildren(...found.slice(0, MOST).map((entry) => itemOf(entry, prefix)));
      const more = found.length > MOST ? `, the first ${MOST} are shown` : "";
      said.textContent = field.value.trim() ? `${found.length || "Nothing"} found${more}` : "";
    };

    const links = () => [...list.querySelectorAll("a")];
    const step = (event, by) => {
      const stops = [field, ...links()];
      const at = stops.indexOf(document.activeElement);
      if (at < 0 || !stops[at + by]) return;
      event.preventDefault();
      stops[at + by].focus();
    };

    field.addEventListener("input", look);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      links()[0]?.click();
    });
    document.addEventListener("keydown", (event) => {
      if (event.key === "ArrowDown") step(event, 1);
      if (event.key === "ArrowUp") step(event, -1);
      const typing = event.target.closest("input, select, textarea");
      if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
        event.preventDefault();
        field.focus();
      }
    });
    look(); // a page that was gone back to still holds its words
  };

  const form = document.getElementById("search");
  const list = document.getElementById("found");
  if (form && list && root.traysideSearch) start(form, list);

  root.traysideFind = Object.freeze({ fold, find, prepare });
})(globalThis);
