"use strict";
/*
 * Blanks: the fields of the calculator's sentence. Fills their lists for a target, shows the clause of the
 * way that is chosen, and reads and writes all of them as text. No arithmetic; that is asking.js, calc.js.
 */
(function (root) {
  const { SHARE, OWN_SIZE, waysOf, sharesOf, dimensionsOf, leftDimensions, innerWay } = root.traysideAsking;
  const { exactText, multiply, of } = root.traysideRatio;

  /** Units too small to be asked for. */
  const TINY = ["µg", "µl"];
  const GROUPS = [["metric", "metric"], ["US", "US"], ["imp", "imperial"], ["weights", "ounces and grains"]];
  const SHARE_WORDS = { make: "with that much each", tray: "with such a tray each", sheets: "with those sheets each" };

  const groupOf = ({ symbol, dimension }) => {
    if (symbol.endsWith(" US")) return "US";
    if (symbol.endsWith(" imp")) return "imp";
    return dimension === "mass" && !/^k?g$|^mg$/.test(symbol) ? "weights" : "metric";
  };

  const option = (value, words) => {
    const made = document.createElement("option");
    made.value = value;
    made.textContent = words;
    return made;
  };

  /** Put options into a list and keep what was chosen where it is still offered. */
  const refill = (select, children) => {
    const chosen = select.value;
    select.replaceChildren(...children);
    if ([...select.options].some((each) => each.value === chosen)) select.value = chosen;
  };

  /** Options for all units of some dimensions, in groups, `first` on top; drops and pieces name themselves. */
  const unitOptions = (dimensions, measures, first) => {
    const counted = dimensions
      .filter((each) => each === "drops" || each === "pieces")
      .map((each) => option(each, each));
    const offered = measures.units.filter((u) => dimensions.includes(u.dimension) && !TINY.includes(u.symbol));
    offered.sort((a, b) => (b.symbol === first) - (a.symbol === first));
    const groups = GROUPS.map(([key, words]) => {
      const group = document.createElement("optgroup");
      group.label = words;
      group.append(...offered.filter((u) => groupOf(u) === key).map((u) => option(u.symbol, u.symbol)));
      return group;
    });
    return [...counted, ...groups.filter((group) => group.children.length > 0)];
  };

  const BASE_UNIT = { mass: "g", volume: "ml", length: "cm", coverage: "ml/m²" };

  const fillUnits = (select, dimensions, measures) =>
    refill(select, unitOptions(dimensions, measures, BASE_UNIT[dimensions[0]]));

  /** Fill what does not depend on the target: mixtures, papers, lengths, coverage, the usual allowance. */
  const prepare = (form, targets, measures) => {
    const { elements } = form;
    elements.mix.replaceChildren(...targets.map((target) => option(target.local, target.name)));
    const only = form.querySelector("[data-only]");
    only.hidden = targets.length > 1;
    elements.mix.hidden = targets.length === 1;
    only.textContent = targets[0].name;
    elements.paper.append(...Object.keys(measures.papers).reverse().map((name) => option(name, name)));
    for (const name of ["tray-unit", "size-unit"]) fillUnits(elements[name], ["length"], measures);
    fillUnits(elements["coverage-unit"], ["coverage"], measures);
    fillUnits(elements["base-unit"], ["mass"], measures);
    elements.extra.defaultValue = exactText(multiply(measures.allowance, of(100)));
  };

  /** Offer only what makes sense for the target. */
  const follow = (form, target, measures) => {
    const { elements } = form;
    const ways = waysOf(target);
    for (const choice of form.querySelectorAll("[data-choice]")) choice.hidden = !ways.includes(choice.dataset.choice);
    if (!ways.includes(elements.ask.value)) elements.ask.value = ways[0];
    if (target.size !== "base") fillUnits(elements.unit, dimensionsOf(target.size, target.density), measures);
    elements.amount.placeholder = target.nominal ? "" : exactText(target.makes);
    elements.coverage.placeholder = target.coverage ? [...new Set(target.coverage.map(exactText))].join("–") : "";
    form.querySelector("[data-base]").textContent = target.base;
    refill(elements.each, sharesOf(target).map((share) => option(share, shareWords(share, target))));
    for (const row of rowsOf(form)) followRow(row, target, measures);
    showClauses(form);
  };

  const shareWords = (share, target) => {
    if (share !== SHARE) return SHARE_WORDS[share];
    return target.perPerson ? `${root.traysideAsking.shareWords(target)} each` : "one batch each";
  };

  const rowsOf = (form) => [...form.querySelectorAll("[data-one]")];
  const inRow = (row) => ({
    amount: row.querySelector("[name=left]"),
    unit: row.querySelector("[name=left-unit]"),
    of: row.querySelector("[name=left-of]"),
  });

  const followRow = (row, target, measures) => {
    const fields = inRow(row);
    const named = new Map(target.totals.map((total) => [total.of, total.name]));
    refill(fields.of, [...named].map(([id, name]) => option(id, name)));
    if (named.size > 0) fillUnits(fields.unit, leftDimensions(target, fields.of.value), measures);
  };

  /** Show the words and blanks of the way chosen; number the things that are left. */
  const showClauses = (form) => {
    const { elements } = form;
    const ways = [elements.ask.value, innerWay({ ask: elements.ask.value, each: elements.each.value })];
    for (const clause of form.querySelectorAll("[data-way]")) {
      clause.hidden = !clause.dataset.way.split(" ").some((way) => ways.includes(way));
    }
    form.querySelector("[data-own-size]").hidden = elements.paper.value !== OWN_SIZE;
    const rows = rowsOf(form);
    for (const [at, row] of rows.entries()) {
      row.querySelector("[data-drop]").hidden = rows.length === 1;
      row.querySelector("[data-and]").hidden = at === rows.length - 1;
    }
  };

  /** One more thing that is left; the next ingredient is proposed. Gives its amount's field. */
  const addRow = (form, target, measures) => {
    const rows = rowsOf(form);
    const row = rows[0].cloneNode(true);
    const fields = inRow(row);
    fields.amount.value = "";
    rows.at(-1).after(row);
    fields.of.selectedIndex = Math.min(rows.length, fields.of.options.length - 1);
    followRow(row, target, measures);
    showClauses(form);
    return fields.amount;
  };

  const dropRow = (form, row) => {
    row.remove();
    showClauses(form);
  };

  const NAMES = [...new Set(Object.values(root.traysideAsking.BLANKS).flat())].filter((name) => name !== "left");

  /** Everything that is filled in, as text by the name of its blank. */
  const readBlanks = (form) => {
    const { elements } = form;
    const read = (name) => [name, elements[name].value];
    const left = rowsOf(form).map((row) => {
      const { amount, unit, of } = inRow(row);
      return { of: of.value, amount: amount.value, unit: unit.value };
    });
    return { ...Object.fromEntries([...NAMES, "mix", "ask", "measures"].map(read)), left };
  };

  const choose = (field, value) => {
    if (field instanceof HTMLSelectElement && ![...field.options].some((each) => each.value === value)) return;
    field.value = value;
  };

  /** Fill in blanks by name, the rest as at first; what is not offered is passed over. */
  const writeBlanks = (form, blanks, targets, measures) => {
    const { elements } = form;
    form.reset();
    for (const row of rowsOf(form).slice(1)) row.remove();
    const target = targets.find((each) => each.local === blanks.mix) ?? targets[0];
    elements.mix.value = target.local;
    choose(elements.measures, Object.hasOwn(measures.ladders, blanks.measures ?? "") ? blanks.measures : "metric");
    elements.ask.value = waysOf(target).includes(blanks.ask) ? blanks.ask : waysOf(target)[0];
    follow(form, target, measures);
    for (const name of NAMES) if (Object.hasOwn(blanks, name)) choose(elements[name], blanks[name]);
    for (const [at, left] of (blanks.left ?? []).entries()) {
      if (at > 0) addRow(form, target, measures);
      const row = rowsOf(form).at(-1);
      choose(inRow(row).of, left.of);
      followRow(row, target, measures);
      choose(inRow(row).amount, left.amount);
      choose(inRow(row).unit, left.unit);
    }
    showClauses(form);
  };

  root.traysideBlanks = Object.freeze({
    prepare, follow, showClauses, addRow, dropRow, readBlanks, writeBlanks, fillUnits, option, refill,
  });
})(globalThis);
