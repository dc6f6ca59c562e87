"use strict";
/*
 * The page of a search: finds while the reader types, shows why each result was found, and is worked by
 * keys alone. `/` goes to the field, arrows walk through what is found, Enter opens, Escape goes back.
 */
(function (root) {
  const { pieces, parse } = root.traysideWords;
  const { rank, once, need, documentOf } = root.traysideRank;
  const SHOWN = 8;
  const [WIDTH, LEAD] = [150, 36];

  const make = (name, className, ...inside) => {
    const made = document.createElement(name);
    if (className) made.className = className;
    made.append(...inside);
    return made;
  };

  /** The marked words of a text: start, end, and which of the words sought each is. */
  const hitsIn = (text, meant) => pieces(text).map(({ start, end, words, beside }) => {
    const found = [...words, ...beside];
    return { start, end, of: meant.flatMap((forms, at) => found.some((word) => forms.includes(word)) ? [at] : []) };
  }).filter(({ of }) => of.length);

  /** How many of the words sought are among some marked ones. */
  const countOf = (hits) => new Set(hits.flatMap(({ of }) => of)).size;

  /** The text from a little before the densest part, with its words marked. Twin of search/snippet.py. */
  const cut = (text, hits) => {
    const shown = (first) => countOf(hits.filter((hit) => first.start <= hit.start && hit.end <= first.start + WIDTH - LEAD));
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
    const weightiest = Object.keys(fields);
    const [best] = texts.map(([name, text]) => ({ text, hits: hitsIn(text, meant), place: weightiest.indexOf(name) }))
      .filter(({ hits }) => hits.length)
      .sort((one, other) => countOf(other.hits) - countOf(one.hits) || one.place - other.place);
    const where = best ? [make("span", "where", `${fields[weightiest[best.place]]}: `)] : [];
    const [, summary = ""] = texts.find(([name]) => name === "summary") ?? texts[0] ?? [];
    return make("p", "entry-summary", ...where, ...cut(best?.text ?? summary, best?.hits ?? [{ start: -1, end: 0, of: [] }]));
  };

  /** One found thing: its code and title as a link, what it is, why it was found, what it lacks. */
  const itemOf = async ([number], { meant, shelf }) => {
    const [[kind, title, code, path, texts, holds], { fields }] = await Promise.all([documentOf(number), need("index")]);
    const link = make("a", "entry-link", ...(code ? [make("span", "code", code), " "] : []),
      make("span", "entry-title", ...marked(title, hitsIn(title, meant), 0, title.length)));
    link.href = document.documentElement.dataset.root + path;
    const item = make("li", "entry", link, " ", make("span", "quiet", kind), reason(texts, meant, fields));
    if (shelf) item.append(make("p", "lacking", shelf(holds)));
    return item;
  };

  /** A folded word as the reader typed it. */
  const asTyped = (word, typed) => {
    const piece = pieces(typed).find(({ words }) => words.includes(word));
    return piece ? typed.slice(piece.start, piece.end) : word;
  };

  const report = ({ order, meant, unknown, more }, typed) => {
    if (!order.length && ![...meant.flat(), ...unknown].some((word) => word[1])) return typed && "Type a word, or more of it";
    const unlike = unknown.map((word) => `“${asTyped(word, typed)}”`).join(", ");
    const found = more ? `${order.length} and perhaps more` : order.length || "Nothing";
    return `${found} found${unlike && `; nothing is like ${unlike}`}`;
  };

  const [form, list, said, further, narrowing] = ["search", "found", "said", "further", "narrowing"]
    .map((id) => document.getElementById(id));

  const begin = () => {
    const field = form.words;
    let [turn, result, shown, wanted, pause] = [0, null, 0];
    let narrower = null; // comes when a reader opens a way to narrow, or a link has ticks

    const narrow = () => narrower ??= once("assets/search-narrow.js")
      .then(() => root.traysideNarrow.start(narrowing, () => look()))
      .catch((error) => {
        narrower = null;
        throw error;
      });

    /** Says it once the typing rests: a screen reader is not to speak at every letter. */
    const say = (text, busy = false) => {
      clearTimeout(pause);
      if (!busy) list.ariaBusy = false;
      pause = setTimeout(() => {
        list.ariaBusy = busy;
        said.textContent = text;
      }, 400);
    };

    const fail = ({ message }) => {
      list.replaceChildren();
      further.hidden = true;
      say(`Part of the index did not load (${message}). Reload, or use the lists.`);
    };

    /** Put the next few results at the end of the list (as many as were there before), unless another search has begun. */
    const show = async (mine) => {
      const next = result.order.slice(shown, Math.max(shown + SHOWN, wanted));
      const items = await Promise.all(next.map((each) => itemOf(each, result)));
      if (mine !== turn) return;
      wanted = 0;
      if (!shown) list.replaceChildren();
      list.append(...items);
      shown += items.length;
      further.hidden = shown >= result.order.length;
    };

    const held = () => location.hash.includes("=");

    /** Puts what was asked in the address, where no other place on the page stands. */
    const keep = async () => {
      const state = new URLSearchParams(field.value && { q: field.value });
      (await narrower)?.write(state);
      if (state.size || held()) history.replaceState(wanted, "", `#${state}`);
    };

    const look = async () => {
      const mine = turn += 1;
      say("Looking …", true);
      try {
        await keep();
        const query = parse(field.value);
        const found = await rank(query);
        Object.assign(found, await (await narrower)?.narrow(found.order, query));
        if (mine !== turn) return;
        result = found;
        shown = 0;
        await show(mine);
        if (mine !== turn) return;
        say(report(found, field.value.normalize("NFC")));
      } catch (error) {
        if (mine === turn) fail(error);
      }
    };

    const links = () => [...list.querySelectorAll("a")];
    const step = (event, by) => {
      const stops = [field, ...links()];
      const at = stops.indexOf(document.activeElement);
      if (at < 0 || !stops[at + by]) return;
      event.preventDefault();
      stops[at + by].focus();
    };

    /** Reads the address: what is sought, and what is ticked. */
    const fill = async () => {
      if (!held()) return;
      const state = new URLSearchParams(location.hash.slice(1));
      wanted = history.state;
      field.value = state.get("q") ?? "";
      state.delete("q");
      if (narrower || (narrowing && state.size)) (await narrow()).tick(state);
    };

    const start = () => fill().then(() => look(), fail);

    field.addEventListener("input", () => look());
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      links()[0]?.click();
    });
    further.addEventListener("click", async () => {
      const next = shown;
      await show(turn);
      history.replaceState(shown, "");
      links()[next]?.focus();
    });
    document.addEventListener("keydown", (event) => {
      const { key } = event;
      if (key === "ArrowDown") step(event, 1);
      if (key === "ArrowUp") step(event, -1);
      if (key === "Escape" && list.contains(document.activeElement)) field.focus();
      if (key === "/" && !event.target.closest("[type=search]") && !event.ctrlKey && !event.metaKey && !event.altKey) {
        event.preventDefault();
        field.focus();
        field.select();
      }
    });
    root.addEventListener("hashchange", start);
    if (narrowing) {
      narrowing.hidden = false;
      narrowing.addEventListener("toggle", () => narrower || narrow().then(() => look(), fail), true);
    }
    start(); // a page that was gone back to still holds its words
  };

  root.traysideFound = { make };
  if (form) begin();
})(globalThis);
