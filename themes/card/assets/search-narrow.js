"use strict";
/*
 * Narrowing: what a recipe asks for, ticked box by box, with counts; and what is on the shelf, with what
 * is missing. Works on the shard `facets` and the shelf's shards. Twin of sitegen/search/facets.py.
 */
(function (root) {
  const { need, numbers, VALUE } = root.traysideRank;

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

  /** For each recipe how many substances are needed that are not on the shelf. */
  const missing = async ({ many, shelf }, held) => {
    const left = Array.from(many, (sign) => VALUE[sign]);
    await Promise.all(shelf.filter(([id]) => held.has(id)).map(async ([id, , , shard]) => {
      const line = (await need(`s${shard}`)).split("\n").find((each) => each.startsWith(`${id}\t`));
      numbers(line.slice(id.length + 1), false, (recipe) => {
        left[recipe] -= 1;
      });
    }));
    return left;
  };

  const make = (name, className, ...inside) => {
    const made = document.createElement(name);
    if (className) made.className = className;
    made.append(...inside);
    return made;
  };

  const box = (name, value, said, count) => {
    const input = make("input");
    Object.assign(input, { type: "checkbox", name, value });
    const beside = make("span", "count", String(count));
    return make("label", "choice", input, make("span", "", said), beside);
  };

  /** The form's boxes; each facet is opened by itself, so that a phone shows a short list. */
  const build = (form, { facets, shelf }) => {
    for (const { id, said, choices } of facets) {
      if (!choices.length) continue;
      const group = make("details", "facet", make("summary", "facet-name", said));
      group.append(...choices.map(([choice, name]) => box(id, choice, name, 0)));
      form.append(group);
    }
    const filter = make("input", "shelf-filter");
    Object.assign(filter, { type: "search", name: "", placeholder: "soda, alum" });
    const group = make("details", "facet", make("summary", "facet-name", "What is on my shelf"),
      make("p", "quiet", "Tick what you have. What can be made with it comes first. Water is taken as there."),
      make("label", "shelf-label", "Show only ", filter));
    const boxes = shelf.map(([id, name, count]) => box("shelf", id, name, count));
    group.append(...boxes);
    filter.addEventListener("input", (event) => {
      event.stopPropagation();
      const sought = filter.value.trim().toLowerCase();
      for (const each of boxes) each.hidden = !each.textContent.toLowerCase().includes(sought);
    });
    form.append(group, make("button", "plain", "Untick everything"));
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
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      tick(form, new URLSearchParams());
      changed();
    });
    const names = new Map(held.shelf.map(([id, name]) => [id, name]));
    const isRecipe = ([number]) => number < held.many.length;
    const all = [...held.many].map((_, recipe) => [recipe, 0]);

    const count = (ticked, recipes) => {
      for (const facet of held.facets) {
        const counts = countsOf(facet, held.facets, ticked, recipes);
        facet.choices.forEach(([choice], at) => {
          const input = form.querySelector(`input[name="${facet.id}"][value="${choice}"]`);
          input.closest("label").lastChild.textContent = counts[at];
        });
      }
    };

    /** `order` narrowed to recipes that fit (all of it when nothing is ticked), sorted by what is missing. */
    const narrow = async (order, sought) => {
      const ticked = tickedIn(form);
      const recipes = sought ? order.filter(isRecipe) : all;
      count(ticked, recipes.map(([number]) => number));
      if (!ticked.size) return { order, shelf: null };
      const fit = fits(held.facets, ticked);
      const kept = recipes.filter(([number]) => fit(number));
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
