"use strict";
/*
 * The page of a search: finds while the reader types, shows why each result was found, and is worked by
 * keys alone. `/` goes to the field, arrows walk through what is found, Enter opens, Escape goes back.
 */
(function (root) {
  const { stem, pieces, parse } = root.traysideWords;
  const { rank, need, documentOf } = root.traysideRank;
  const KINDS = {
    recipe: "recipe", substance: "substance", trouble: "trouble", process: "process", water: "water", trial: "trial",
  };
  const SHOWN = 8;
  const [WIDTH, LEAD] = [150, 36];

  const make = (name, className, ...inside) => {
    const made = document.createElement(name);
    if (className) made.className = className;
    made.append(...inside);
    return made;
  };

  const union = (sets) => new Set(sets.flatMap((set) => [...set]));

  /** The marked words of a text: start, end, and which of the words sought each is. */
  const hitsIn = (text, meant) => pieces(text).map(({ start, end, words, beside }) => {
    const found = [...words, ...beside].map(stem);
    return { start, end, of: new Set(meant.flatMap((stems, at) => found.some((each) => stems.includes(each)) ? [at] : [])) };
  }).filter(({ of }) => of.size);

  /** The text from a little before the densest part, with its words marked. Twin of search/snippet.py. */
  const cut = (text, hits) => {
    const shown = (first) =>
      union(hits.filter((hit) => first.start <= hit.start && hit.end <= first.start + WIDTH - LEAD).map(({ of }) => of)).size;
    const first = hits.reduce((best, hit) => shown(hit) > shown(best) ? hit : best);
    const start = first.start > LEAD ? text.lastIndexOf(" ", first.start - LEAD - 1) + 1 : 0;
    const whole = text.length - start <= WIDTH;
    const end = whole ? text.length : Math.max(text.slice(0, start + WIDTH).lastIndexOf(" "), first.end);
    return [start ? "… " : "", ...marked(text, hits, start, end), end < text.length ? " …" : ""];
  };

  const marked = (text, hits, start, end) => {
    const stretches = [];
    let at = start;
    for (const hit of hits) {
      if (at > hit.start || hit.end > end) continue;
      stretches.push(text.slice(at, hit.start), make("mark", "", text.slice(hit.start, hit.end)));
      at = hit.end;
    }
    return [...stretches, text.slice(at, end)];
  };

  /** The passage with most of the words sought, of the weightiest field; else the summary. */
  const reason = (texts, meant, fields) => {
    const names = Object.keys(fields);
    let best = null;
    for (const [name, text] of texts) {
      const hits = hitsIn(text, meant);
      const [count, place] = [union(hits.map(({ of }) => of)).size, -names.indexOf(name)];
      if (count && (!best || count > best.count || (count === best.count && place > best.place))) {
        best = { count, place, name, text, hits };
      }
    }
    if (best) return make("p", "entry-summary", make("span", "where", `${fields[best.name]}: `), ...cut(best.text, best.hits));
    const summary = texts.find(([name]) => name === "summary") ?? texts[0];
    return summary ? make("p", "entry-summary", ...cut(summary[1], [{ start: 0, end: 0, of: new Set() }])) : "";
  };

  /** One found thing: its code and title as a link, what it is, why it was found, what it lacks. */
  const itemOf = async ([number], { meant, shelf }) => {
    const [[kind, title, code, path, texts, holds], { fields }] = await Promise.all([documentOf(number), need("index")]);
    const link = make("a", "entry-link", ...(code ? [make("span", "code", code), " "] : []),
      make("span", "entry-title", ...marked(title, hitsIn(title, meant), 0, title.length)));
    link.href = document.documentElement.dataset.root + path;
    const item = make("li", "entry", link, " ", make("span", "quiet", KINDS[kind]), reason(texts, meant, fields));
    if (shelf) {
      const lacking = shelf(holds);
      item.append(make("p", "lacking", lacking.length ? `Missing: ${lacking.join(", ")}` : "Nothing is missing."));
    }
    return item;
  };

  /** A folded word as the reader typed it. */
  const asTyped = (word, typed) => {
    const piece = pieces(typed).find(({ words }) => words.includes(word));
    return piece ? typed.slice(piece.start, piece.end) : word;
  };

  const report = ({ order, unknown, more }, typed) => {
    const unlike = unknown.map((word) => `“${asTyped(word, typed)}”`).join(", ");
    const found = more ? `${order.length} and perhaps more` : order.length || "Nothing";
    return `${found} found${unlike && `; nothing is like ${unlike}`}`;
  };

  const begin = async (form, list) => {
    const field = form.querySelector("input[type=search]");
    const said = document.getElementById("said");
    const further = document.getElementById("further");
    const narrowing = document.getElementById("narrowing");
    const narrower = narrowing && await root.traysideNarrow.start(narrowing, () => look());
    let [turn, result, shown, times] = [0, null, 0, 1];

    /** Put the next few results at the end of the list, unless another search has begun. */
    const show = async (mine) => {
      const items = await Promise.all(result.order.slice(shown, shown + SHOWN).map((each) => itemOf(each, result)));
      if (mine !== turn) return;
      if (shown) list.append(...items);
      else list.replaceChildren(...items);
      shown += items.length;
      further.hidden = shown >= result.order.length && !result.left;
    };

    const find = async () => {
      const query = parse(field.value);
      const found = await rank(query, times);
      if (!narrower) return found;
      const { order, shelf } = await narrower.narrow(found.order, query.words.length > 0);
      return { ...found, order, shelf };
    };

    const keep = () => {
      if (!narrower) return;
      const state = new URLSearchParams();
      if (field.value) state.set("q", field.value);
      narrower.write(state);
      history.replaceState(null, "", `#${state}`);
    };

    const look = async (again = false) => {
      const mine = turn += 1;
      times = again ? 4 * times : 1;
      keep();
      try {
        const found = await find();
        if (mine !== turn) return;
        result = found;
        if (!again) shown = 0;
        await show(mine);
        if (mine !== turn) return;
        const quiet = !field.value.trim() && !found.order.length;
        said.textContent = quiet ? "" : report(found, field.value.normalize("NFC"));
      } catch (error) {
        said.textContent = `A part of the index did not load (${error.message}). Reload the page, or use the lists below.`;
      }
    };

    const links = () => [...list.querySelectorAll(".entry-link")];
    const step = (event, by) => {
      const stops = [field, ...links()];
      const at = stops.indexOf(document.activeElement);
      if (at < 0 || !stops[at + by]) return;
      event.preventDefault();
      stops[at + by].focus();
    };

    const fill = () => {
      const state = new URLSearchParams(location.hash.slice(1));
      if (!narrower || location.hash === "#search") return;
      field.value = state.get("q") ?? "";
      narrower.tick(state);
    };

    field.addEventListener("input", () => look());
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      links()[0]?.click();
    });
    further.addEventListener("click", async () => {
      const next = shown;
      if (shown < result.order.length) await show(turn);
      else await look(true);
      links()[next]?.focus();
    });
    document.addEventListener("keydown", (event) => {
      if (event.key === "ArrowDown") step(event, 1);
      if (event.key === "ArrowUp") step(event, -1);
      if (event.key === "Escape" && list.contains(document.activeElement)) field.focus();
      const typing = event.target.closest("input:not([type=checkbox]), select, textarea");
      if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
        event.preventDefault();
        field.focus();
        field.select();
      }
    });
    root.addEventListener("hashchange", () => {
      fill();
      look();
    });
    fill();
    look(); // a page that was gone back to still holds its words
  };

  const form = document.getElementById("search");
  const list = document.getElementById("found");
  if (form && list) begin(form, list);
})(globalThis);
