"use strict";
/*
 * Narrowing: what a recipe asks for, ticked box by box, with counts; and what is on the shelf, with what
 * is missing. Works on the shard `facets` and the shelf's shards. Twin of sitegen/search/facets.py.
 */
(function (root) {
  const { need, lineOf, numbers, VALUE } = root.traysideRank;
  const { make } = root.traysideFound;

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

  /** The boxes of each way to narrow; the page already has their names. */
  const build = (form, { facets, shelf }) => {
    const groups = new Map([...form.querySelectorAll("details")].map((group) => [group.dataset.facet, group]));
    for (const { id, choices } of facets) {
      if (choices.length) groups.get(id).append(...choices.map(([choice, name]) => box(id, choice, name)));
      else groups.get(id).remove();
    }
    const boxes = shelf.map(([id, name]) => box("shelf", id, name));
    groups.get("shelf").append(...boxes);
    form.querySelector("input[type=search]").addEventListener("input", ({ target }) => {
      const sought = target.value.trim().toLowerCase();
      for (const each of boxes) each.hidden = !each.textContent.toLowerCase().includes(sought);
    });
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

  /** What is not known is not harmless: leaving out a symbol first leaves that out too; it can be unticked. */
  const cautious = (form, input) => {
    if (input.name !== "hazard" || !input.checked || tickedIn(form).get("hazard").size > 1) return;
    const unknown = form.querySelector("input[name=hazard][value=unknown]");
    if (unknown) unknown.checked = true;
  };

  /** Set the form up; `changed` is called after every tick. Gives what the results are narrowed by. */
  const start = async (form, changed) => {
    const held = await need("facets");
    build(form, held);
    form.addEventListener("change", (event) => {
      cautious(form, event.target);
      changed();
    });
    form.addEventListener("toggle", changed, true); // the shelf is counted once it is open
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      tick(form, new URLSearchParams());
      changed();
    });
    const names = new Map(held.shelf.map(([id, name]) => [id, name]));
    const isRecipe = ([number]) => number < held.many.length;
    const all = [...held.many].map((_, recipe) => [recipe, 0]);

    const shelfGroup = form.querySelector("[data-facet=shelf]");

    const put = (name, value, count) => {
      form.querySelector(`input[name="${name}"][value="${value}"]`).closest("label").lastChild.textContent = count;
    };

    /** Beside each choice, how many recipes a tick would leave; beside a substance, how many of those left need it. */
    const count = async (ticked, recipes, kept) => {
      for (const facet of held.facets) {
        const counts = countsOf(facet, held.facets, ticked, recipes);
        facet.choices.forEach(([choice], at) => put(facet.id, choice, counts[at]));
      }
      if (!shelfGroup.open) return; // its lists are only loaded for those who look at it
      const left = new Set(kept);
      await Promise.all(held.shelf.map(async (each) => {
        put("shelf", each[0], (await needing(each)).filter((recipe) => left.has(recipe)).length);
      }));
    };

    /** `order` narrowed to recipes that fit (all of it when nothing is ticked), sorted by what is missing. */
    const narrow = async (order, sought) => {
      const ticked = tickedIn(form);
      const recipes = sought ? order.filter(isRecipe) : all;
      const fit = fits(held.facets, ticked);
      const kept = recipes.filter(([number]) => fit(number));
      await count(ticked, recipes.map(([number]) => number), kept.map(([number]) => number));
      if (!ticked.size) return { order, shelf: null };
      const own = ticked.get("shelf");
      if (!own) return { order: kept, shelf: null };
      const left = await missing(held, own);
      return {
        order: kept.sort(([one], [other]) => left[one] - left[other]), // equal ones keep their order
        shelf: (holds) => holds.filter((id) => !own.has(id)).map((id) => names.get(id)),
      };
    };

    const write = (state) => {
      for (const [name, values] of tickedIn(form)) state.set(name, [...values].join(","));
    };
    return { narrow, write, tick: (state) => tick(form, state) };
  };

  root.traysideNarrow = Object.freeze({ start, fits, countsOf, missing });
})(globalThis);
