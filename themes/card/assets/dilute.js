"use strict";
/*
 * The dilution of one stock, in its section of a recipe page and on the bench: listens to its sentence and
 * says how much stock and how much water. The arithmetic is diluting.js.
 */
(function (root) {
  const { Refusal, compare, divide, exactText } = root.traysideRatio;
  const { readMeasures, readPair, show, shownText, toFigures } = root.traysideCalc;
  const { STRENGTHS, parseDilution, concentration, byParts, toStrength } = root.traysideDiluting;
  const { quantityOf } = root.traysideAsking;
  const { fillUnits, option, refill } = root.traysideBlanks;

  /** An exact pair in base units as it is measured, in the measures chosen on the page, metric behind. */
  const measured = ([low, high], dimension, measures, system) => {
    const shown = (each) => shownText(show(low, high, measures.ladders[each][dimension]));
    return system === "metric" ? shown(system) : `${shown(system)} · ${shown("metric")}`;
  };

  /** One part of the answer, marked with what it is (`stock`, `diluent`, `total`). */
  const part = (name, text) => {
    const made = document.createElement("b");
    made.dataset.part = name;
    made.textContent = text;
    return made;
  };

  /** The answer in one sentence of nodes; `stock` and `water` are what the two are called. */
  const inWords = (answer, { stock, water }, measures, system) => {
    const [taken, rest, total] = [answer.stock, answer.diluent, answer.makes].map((pair) =>
      measured(pair, answer.dimension, measures, system));
    const names = answer.makeUp
      ? [part("stock", taken), ` of ${stock}; make up with ${water} to `, part("total", total),
        " (nearly ", part("diluent", rest), ")"]
      : [part("stock", taken), ` of ${stock} and `, part("diluent", rest), ` of ${water} make `, part("total", total)];
    return [...names, ".", ...answer.warnings.map((words) => noteOf(words))];
  };

  const noteOf = (words) => {
    const made = document.createElement("small");
    made.className = "said";
    made.textContent = words;
    return made;
  };

  /** Show an answer's nodes, nothing, or why there is none. `work` gives nodes, or null while unfinished. */
  const answerWith = (form, work) => {
    const [output, refused] = [form.querySelector("output"), form.querySelector(".refused")];
    try {
      output.replaceChildren(...(work() ?? []));
      refused.replaceChildren();
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      output.replaceChildren();
      const words = `${error.message}: ${error.help}`.replaceAll("`", "");
      if (refused.textContent !== words) refused.textContent = words;
    }
  };

  /** The amount that is asked, made or left: `{amount, dimension, asked, have}`. */
  const askedOf = (elements, measures) =>
    ({ ...quantityOf(elements.amount.value, elements.unit.value, measures), have: elements.end.value === "have" });

  const chosenSystem = () => document.querySelector("input[name=measures]:checked")?.value ?? "metric";

  /** Strengths of a stock that can be diluted: its kinds, each as a pair in that kind's unit. */
  const readStrength = (strength) => ({
    name: strength.name,
    of: strength.of,
    kinds: new Map(
      [["g/l", strength.gPerL], ["v/v", strength.vv], ["mol/l", strength.molPerL]]
        .filter(([, pair]) => pair !== null)
        .map(([per, pair]) => [per, readPair(pair)]),
    ),
  });

  const strengthWords = ([low, high], unit) => {
    const [from, to] = [low, high].map((each) => exactText(toFigures(divide(each, STRENGTHS[unit].times), 3)));
    return compare(low, high) === 0n ? `${from} ${unit}` : `${from}–${to} ${unit}`;
  };

  class Dilution {
    constructor(details, plan, measures) {
      this.form = details.querySelector("form");
      this.details = details;
      this.measures = measures;
      this.name = details.dataset.name;
      this.strengths = (plan.strengths[details.dataset.dilute] ?? []).map(readStrength).filter((s) => s.kinds.size > 0);
    }

    start() {
      const { elements } = this.form;
      fillUnits(elements.unit, ["volume", "mass"], this.measures);
      elements.of.replaceChildren(...this.strengths.map((s) => option(s.of, s.name)));
      if (this.strengths.length === 0) elements.how.querySelector("[value=strength]").remove();
      this.form.addEventListener("submit", (event) => event.preventDefault());
      document.addEventListener("input", (event) => {
        if (this.form.contains(event.target) || event.target.name === "measures") this.changed();
      });
      this.changed();
      this.details.hidden = false;
    }

    get strength() {
      return this.strengths.find((each) => each.of === this.form.elements.of.value);
    }

    changed() {
      const { elements } = this.form;
      for (const clause of this.form.querySelectorAll("[data-how]")) {
        clause.hidden = clause.dataset.how !== elements.how.value;
      }
      const kinds = this.strength ? [...this.strength.kinds.keys()] : [];
      const units = Object.keys(STRENGTHS).filter((unit) => kinds.includes(STRENGTHS[unit].per));
      refill(elements["strength-unit"], units.map((unit) => option(unit, unit)));
      answerWith(this.form, () => this.answer(elements));
    }

    answer(elements) {
      const byStrength = elements.how.value === "strength";
      const needed = [elements.amount, byStrength ? elements.strength : elements.parts];
      if (needed.some((field) => !field.value.trim())) return null;
      const asked = askedOf(elements, this.measures);
      const answer = byStrength
        ? this.toStrength(elements, asked)
        : byParts(parseDilution(elements.parts.value), asked);
      return inWords(answer, { stock: this.name, water: "water" }, this.measures, chosenSystem());
    }

    toStrength(elements, asked) {
      const unit = elements["strength-unit"].value;
      const value = this.strength.kinds.get(STRENGTHS[unit].per);
      const stock = { value, per: STRENGTHS[unit].per, written: strengthWords(value, unit) };
      return toStrength(stock, concentration(elements.strength.value, unit), asked);
    }
  }

  const block = document.getElementById("plan");
  const found = [...document.querySelectorAll("details[data-dilute]")];
  if (block && found.length > 0) {
    const plan = JSON.parse(block.textContent);
    const measures = readMeasures(plan);
    for (const details of found) new Dilution(details, plan, measures).start();
  }

  root.traysideDilute = Object.freeze({ answerWith, askedOf, inWords, measured, noteOf, part });
})(globalThis);
