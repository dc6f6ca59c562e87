"use strict";
/*
 * Narrowing: what a recipe asks for, ticked box by box, with counts; and what is on the shelf, with what
 * is missing. Works on the shard `facets` and the shelf's shards. Twin of sitegen/search/facets.py.
 * What is ticked on the shelf is kept in this browser, and ticked again when asked; where storage is refused it is not.
 */
(function (root) {
  const KEPT = "trayside-shelf";

  const { parse, pieces } = root.traysideWords;
  const { rank, need, documentOf, lineOf, numbers, VALUE } = root.traysideRank;
  const { make } = root.traysideFound;
  const NEAR = 40;

  /** The choices of a recipe in a column, a bit each. */
  const cell = ({ cells, width }, recipe) => {
    let bits = 0;
    for (let at = recipe * width; at < (recipe + 1) * width; at += 1) bits = bits * 64 + VALUE[cells[at]];
    return bits;
  };

  const bit = (bits, at) => Math.floor(bits / 2 ** at) % 2 === 1;
  const asked = ({ id, choices }, ticked) =>
    choices.map(([choice], at) => ticked.get(id)?.has(choice) ? at : -1).filter((at) => at >= 0);

  /** Whether a recipe passes every facet, or every one but `but`. `ticked`: sets of choices by facet. */
  const fits = (facets, ticked, but) => {
    const tests = facets.filter(({ id }) => id !== but && ticked.get(id)?.size)
      .map((facet) => ({ facet, places: asked(facet, ticked) }));
    return (recipe) => tests.every(({ facet, places }) => {
      const bits = cell(facet, recipe);
      return places.some((at) => bit(bits, at)) !== facet.out;
    });
  };

  /** For each choice of a facet the recipes that have it, of those that pass all other facets. */
  const countsOf = (facet, facets, ticked, recipes) => {
    const fit = fits(facets, ticked, facet.id);
    const counts = facet.choices.map(() => 0);
    for (const recipe of recipes) {
      if (!fit(recipe)) continue;
      const bits = cell(facet, recipe);
      facet.choices.forEach((_, at) => {
        if (bit(bits, at)) counts[at] += 1;
      });
    }
    return counts;
  };

  /** The recipes that need a substance of the shelf. */
  const needing = async ([id, , shard]) => {
    const recipes = [];
    numbers(await lineOf(`s${shard}`, id), false, (recipe) => recipes.push(recipe));
    return recipes;
  };

  /** For each recipe how many substances are needed that are not on the shelf. */
  const missing = async ({ many, shelf }, held) => {
    const left = Array.from(many, (sign) => VALUE[sign]);
    const own = await Promise.all(shelf.filter(([id]) => held.has(id)).map(needing));
    for (const recipe of own.flat()) left[recipe] -= 1;
    return left;
  };

  const box = (name, value, said) => {
    const input = make("input");
    Object.assign(input, { type: "checkbox", name, value });
    return make("label", "choice", input, make("span", "", said), make("span", "count"));
  };

  /** Ids of the substances that go by such a name: every word is one of the card's names or begins or nearly is one. */
  const named = async (typed, recipes) => {
    const { order, meant } = await rank(parse(typed));
    const near = order.filter(([number]) => number >= recipes).slice(0, NEAR);
    const found = await Promise.all(near.map(([number]) => documentOf(number)));
    const calls = ([kind, title, , , texts]) => {
      const names = [title, ...texts.filter(([name]) => name === "names").map(([, text]) => text)];
      const words = names.flatMap(pieces).flatMap((piece) => [...piece.words, ...piece.beside]);
      return kind === "substance" && meant.every((forms) => forms.some((form) => words.includes(form)));
    };
    return found.filter(calls).map(([, , , path]) => path.split("/")[1]);
  };

  /** Shows only those boxes of the shelf whose substances the words mean. */
  const sift = (group, boxes, recipes) => {
    const none = group.querySelector(".shelf-none");
    let turn = 0;
    group.querySelector("input").addEventListener("input", async ({ target }) => {
      const mine = turn += 1;
      const typed = target.value.trim().toLowerCase();
      const ids = typed ? await named(typed, recipes) : [];
      if (mine !== turn) return;
      for (const each of boxes) {
        each.hidden = !each.textContent.toLowerCase().includes(typed) && !ids.includes(each.firstChild.value);
      }
      none.hidden = boxes.some(({ hidden }) => !hidden);
    });
  };

  /** The boxes of each way to narrow; the page already has their names. */
  const build = (form, { facets, shelf, many }) => {
    const groups = new Map([...form.querySelectorAll("details")].map((group) => [group.dataset.facet, group]));
    for (const { id, choices } of facets) {
      if (choices.length) groups.get(id).append(...choices.map(([choice, name]) => box(id, choice, name)));
      else groups.get(id).remove();
    }
    const boxes = shelf.map(([id, name]) => box("shelf", id, name));
    groups.get("shelf").append(...boxes);
    sift(groups.get("shelf"), boxes, many.length);
  };

  /** Everything that is ticked, as sets by name. */
  const tickedIn = (form) => {
    const ticked = new Map();
    for (const { name, value } of form.querySelectorAll("input:checked")) {
      ticked.set(name, (ticked.get(name) ?? new Set()).add(value));
    }
    return ticked;
  };

  const tick = (form, state) => {
    for (const input of form.querySelectorAll("input[type=checkbox]")) {
      input.checked = (state.get(input.name) ?? "").split(",").includes(input.value);
      if (input.checked) input.closest("details").open = true;
    }
  };

  /** The substances that were last ticked on the shelf, of those that are `on` it today. */
  const recall = (on) => {
    try {
      const kept = JSON.parse(root.localStorage.getItem(KEPT) ?? "[]");
      return Array.isArray(kept) ? kept.filter((id) => on.has(id)) : [];
    } catch {
      return []; // refused, or not ours
    }
  };

  const keep = (ids) => {
    try {
      root.localStorage.setItem(KEPT, JSON.stringify(ids));
    } catch {
      // refused: the address still holds it
    }
  };

  /** What is not known is not harmless: leaving out a symbol first leaves that out too; it can be unticked. */
  const cautious = (form, input) => {
    if (input.name !== "hazard" || !input.checked || tickedIn(form).get("hazard").size > 1) return;
    const unknown = form.querySelector("input[name=hazard][value=unknown]");
    if (unknown) unknown.checked = true;
  };

  /** Set the panel up; `changed` is called after every tick. Gives what the results are narrowed by. */
  const start = async (panel, changed) => {
    const held = await need("facets");
    const form = panel.querySelector("form");
    const [name, count, end] = ["summary", ".narrowing-count", ".narrowing-end"].map((each) => panel.querySelector(each));
    const unticked = count.textContent;
    let turn = 0;
    build(form, held);
    form.addEventListener("change", (event) => {
      cautious(form, event.target);
      if (event.target.name === "shelf") keep([...tickedIn(form).get("shelf") ?? []]);
      changed();
    });
    form.addEventListener("submit", (event) => event.preventDefault());
    end.firstChild.addEventListener("click", () => {
      panel.open = false;
      document.querySelector("#found a")?.focus();
    });
    end.lastChild.addEventListener("click", () => {
      tick(form, new URLSearchParams());
      changed();
      form.querySelector("summary").focus();
    });
    /** Over a phone's page the panel leaves the upper part free: what is found is brought there. */
    const share = () => {
      if (panel.open && getComputedStyle(panel).position === "fixed") document.getElementById("said").scrollIntoView();
    };
    panel.addEventListener("toggle", share);
    share();
    panel.addEventListener("keydown", ({ key }) => {
      if (key !== "Escape" || !panel.open) return;
      panel.open = false;
      name.focus();
    });
    const names = new Map(held.shelf.map(([id, name]) => [id, name]));
    const isRecipe = ([number]) => number < held.many.length;
    const all = [...held.many].map((_, recipe) => [recipe, 0]);

    const shelfGroup = form.querySelector("[data-facet=shelf]");
    shelfGroup.addEventListener("toggle", changed); // it is counted once it is open
    const again = form.querySelector(".shelf-again");
    again.firstChild.addEventListener("click", () => {
      const had = recall(names);
      for (const input of shelfGroup.querySelectorAll("input[name=shelf]")) input.checked = had.includes(input.value);
      changed();
      shelfGroup.querySelector("summary").focus();
    });

    const put = (name, value, count) => {
      form.querySelector(`input[name="${name}"][value="${value}"]`).closest("label").lastChild.textContent = count;
    };

    /** Beside each choice, how many recipes a tick would leave; beside a substance, how many of those left need it. */
    const counted = async (ticked, recipes, kept, mine) => {
      for (const facet of held.facets) {
        const counts = countsOf(facet, held.facets, ticked, recipes);
        facet.choices.forEach(([choice], at) => put(facet.id, choice, counts[at]));
      }
      if (!shelfGroup.open) return; // its lists are only loaded for those who look at it
      const left = new Set(kept);
      await Promise.all(held.shelf.map(async (each) => {
        const needed = await needing(each);
        if (mine === turn) put("shelf", each[0], needed.filter((recipe) => left.has(recipe)).length);
      }));
    };

    /** What is ticked, beside the name of each way to narrow; how many recipes that leaves, beside the panel's. */
    const tell = (ticked, recipes, kept) => {
      for (const group of form.querySelectorAll("details")) {
        const chosen = [...group.querySelectorAll("input:checked")].map((input) => input.nextSibling.textContent);
        group.querySelector(".chosen").textContent = chosen.join(", ");
      }
      count.textContent = ticked.size ? `${kept.length} of ${recipes.length} recipes` : unticked;
      again.hidden = ticked.has("shelf") || !recall(names).length;
      end.hidden = !ticked.size;
      end.firstChild.disabled = !kept.length;
    };

    /** All recipes but those that hold a word that is to be left out. */
    const others = async ({ without, notPhrases }) => {
      const rows = [...without.map((word) => [word]), ...notPhrases];
      const found = await Promise.all(rows.map((row) => rank(parse(`"${row.join(" ")}"`))));
      const out = new Set(found.flatMap(({ order }) => order.map(([number]) => number)));
      return all.filter(([number]) => !out.has(number));
    };

    /** `order` narrowed to recipes that fit (all of it when nothing is ticked), sorted by what is missing. */
    const narrow = async (order, query) => {
      const mine = turn += 1;
      const ticked = tickedIn(form);
      const sought = query.words.length + query.phrases.length > 0;
      const recipes = sought ? order.filter(isRecipe) : await others(query);
      const fit = fits(held.facets, ticked);
      const kept = recipes.filter(([number]) => fit(number));
      if (mine === turn) {
        tell(ticked, recipes, kept);
        await counted(ticked, recipes.map(([number]) => number), kept.map(([number]) => number), mine);
      }
      if (!ticked.size) return { order, shelf: null };
      const own = ticked.get("shelf");
      if (!own) return { order: kept, shelf: null };
      const left = await missing(held, own);
      return {
        order: kept.sort(([one], [other]) => left[one] - left[other]), // equal ones keep their order
        shelf: (holds) => {
          const lacking = holds.filter((id) => !own.has(id)).map((id) => names.get(id));
          return lacking.length ? `Missing: ${lacking.join(", ")}` : "Nothing is missing.";
        },
      };
    };

    const write = (state) => {
      for (const [name, values] of tickedIn(form)) state.set(name, [...values].join(","));
    };
    return { narrow, write, tick: (state) => tick(form, state) };
  };

  root.traysideNarrow = Object.freeze({ start, fits });
})(globalThis);
