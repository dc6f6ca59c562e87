"use strict";
/*
 * The calculator of a recipe page: listens to its sentence and sets every amount on the page, in tables
 * and in sentences. What was asked is kept in the address. The arithmetic is calc.js, the blanks blanks.js.
 */
(function (root) {
  const { Refusal, exactText } = root.traysideRatio;
  const { readMeasures, readTarget, scale, asWritten, shownText } = root.traysideCalc;
  const { questionOf, phrase, toHash, fromHash } = root.traysideAsking;
  const { prepare, follow, showClauses, addRow, dropRow, readBlanks, writeBlanks } = root.traysideBlanks;

  const NOTHING = "–";
  const NO_BREAK = "\u00a0";
  /** Browsers refuse an address that changes at every key: it follows when the reader pauses, in ms. */
  const PAUSE = 300;
  const BASE_UNIT = { mass: "g", volume: "ml", drops: "drops", pieces: "pieces" };
  // Twin of sitegen/render/wording.py: units that are words stand in the singular after a plain one.
  const SINGULAR = { drops: "drop", pieces: "piece" };

  const element = (name, className, text) => {
    const made = document.createElement(name);
    made.className = className;
    made.textContent = text;
    return made;
  };

  const worded = (shown) =>
    shown.high === "1" && SINGULAR[shown.unit] ? { ...shown, unit: SINGULAR[shown.unit] } : shown;

  /** The metric amount where it says something else: drops are drops in all measures. */
  const besides = (shown, metric) => (metric && metric.unit !== shown.unit ? metric : null);

  /** An amount in words, with the metric one behind it where other measures are chosen. */
  const amountText = (shown, metric) =>
    [shown, besides(shown, metric)].filter(Boolean).map((each) => shownText(worded(each))).join(" · ");

  /** An amount cut at the decimal point of its upper end, so that a column is aligned on it. */
  const amountParts = (shown, metric) => {
    const { low, high, unit } = worded(shown);
    const point = high.indexOf(".");
    const [whole, fraction] = point < 0 ? [high, ""] : [high.slice(0, point), high.slice(point)];
    const parts = [
      element("span", "whole", low === high ? whole : `${low}–${whole}`),
      element("span", "fraction", fraction),
      " ",
      element("span", "unit", unit),
    ];
    const other = besides(shown, metric);
    return other ? [...parts, " ", element("span", "metric", shownText(worded(other)))] : parts;
  };

  const exactOf = ({ line, low, high }) => {
    const [from, to] = [exactText(low), exactText(high)];
    return `${from === to ? from : `${from}–${to}`} ${BASE_UNIT[line.kind]}`;
  };

  /** A place on the page and what its author's page shows in it before any question. */
  const place = (node) => ({ node, written: [...node.childNodes], value: node.getAttribute("value") });
  const places = (scope, selector) => [...scope.querySelectorAll(selector)].map(place);

  const restore = ({ node, written, value }) => {
    node.replaceChildren(...written);
    if (value !== null) node.setAttribute("value", value);
  };

  const fillIn = ({ node }, ...children) => node.replaceChildren(...children);

  /** A live amount in a sentence does not break between its number and its unit. */
  const fillInLive = ({ node }, text) => {
    node.replaceChildren(text.replaceAll(" ", NO_BREAK));
    node.setAttribute("value", text);
  };

  /** All places of one mixture: its section, rows, and every live amount of it in the page's sentences. */
  const placesOf = (section) => {
    const id = section.dataset.mixture;
    const live = [...document.querySelectorAll("data.live")].filter((node) => node.dataset.mixture === id);
    return {
      section,
      makes: places(section, "[data-makes]"),
      rows: new Map([...section.querySelectorAll("tr[data-line]")].map((row) => [row.dataset.line, placesInRow(row)])),
      live: live.map(place),
    };
  };

  const placesInRow = (row) => ({
    measure: places(row, "[data-measure]"), exact: places(row, "[data-exact]"), notes: places(row, "[data-notes]"),
  });

  const everyPlace = ({ makes, rows, live }) =>
    [...makes, ...live, ...[...rows.values()].flatMap((row) => [...row.measure, ...row.exact, ...row.notes])];

  const showMixture = (where, scaled, metric) => {
    const also = (pick) => (metric ? pick(metric) : null);
    for (const makes of where.makes) fillIn(makes, amountText(scaled.shown, also((m) => m.shown)));
    const lines = new Map(
      scaled.lines.map((line, at) => [line.line.key, { line, metric: also((m) => m.lines[at].shown) }]),
    );
    for (const [key, row] of where.rows) showRow(row, lines.get(key));
    for (const live of where.live) showLive(live, scaled, lines, also((m) => m.shown));
  };

  const showRow = (row, { line, metric }) => {
    if (line.shown !== null) {
      for (const cell of row.measure) fillIn(cell, ...amountParts(line.shown, metric));
      for (const cell of row.exact) fillIn(cell, exactOf(line));
    }
    for (const cell of row.notes) fillIn(cell, line.notes.join("; "));
  };

  const showLive = (live, scaled, lines, metricMakes) => {
    const key = live.node.dataset.line;
    if (key === undefined) return fillInLive(live, amountText(scaled.shown, metricMakes));
    const { line, metric } = lines.get(key);
    return line.shown === null ? restore(live) : fillInLive(live, amountText(line.shown, metric));
  };

  /** No number at all, so that none can be read for the answer to a question that was refused. */
  const showNothing = (where, plan) => {
    const kinds = new Map(plan.lines.map((line) => [line.key, line.kind]));
    for (const [key, row] of where.rows) {
      if (kinds.get(key) !== "words") for (const cell of [...row.measure, ...row.exact]) fillIn(cell, NOTHING);
      for (const cell of row.notes) fillIn(cell, "");
    }
    for (const each of where.makes) fillIn(each, NOTHING);
    for (const each of where.live) if (kinds.get(each.node.dataset.line) !== "words") fillInLive(each, NOTHING);
  };

  class Calculator {
    constructor(form, block) {
      this.form = form;
      this.measures = readMeasures(block);
      this.targets = block.targets.map(readTarget);
      this.others = (block.others ?? []).map(readTarget);
      const sections = [...document.querySelectorAll("section[data-mixture]")];
      this.where = new Map(sections.map((section) => [section.dataset.mixture, placesOf(section)]));
      this.asked = document.getElementById("asked");
      this.refused = document.getElementById("refused");
      this.said = document.getElementById("said");
      prepare(form, this.targets, this.measures);
    }

    start() {
      for (const { makes } of this.where.values()) {
        // Only the sentence that names the target is read out while the reader types, not every number.
        for (const { node } of makes) node.setAttribute("aria-live", "off");
      }
      this.form.addEventListener("input", (event) => this.changed(event.target));
      this.form.addEventListener("submit", (event) => event.preventDefault());
      this.form.addEventListener("click", (event) => this.pressed(event.target.closest("button")));
      this.refused.addEventListener("click", (event) => this.corrected(event.target.closest("button")));
      root.addEventListener("hashchange", () => this.recall());
      this.form.hidden = false;
      writeBlanks(this.form, { left: [] }, this.targets, this.measures);
      this.recall();
    }

    get target() {
      return this.targets.find((target) => target.local === this.form.elements.mix.value);
    }

    changed(field) {
      this.field = field;
      if (["mix", "left-of"].includes(field.name)) follow(this.form, this.target, this.measures);
      showClauses(this.form);
      this.answer();
      this.keep();
    }

    pressed(button) {
      if (!button) return;
      if ("more" in button.dataset) addRow(this.form, this.target, this.measures).focus();
      if ("drop" in button.dataset) dropRow(this.form, button.closest("[data-one]"));
      if ("reset" in button.dataset) writeBlanks(this.form, { mix: this.target.local }, this.targets, this.measures);
      this.answer();
      this.keep();
    }

    /** Take one of the readings that a refusal offers. */
    corrected(button) {
      if (!button) return;
      this.field.value = button.value;
      this.field.focus();
      this.changed(this.field);
    }

    /** Fill the blanks from the address; a hash that names a place on the page is not ours. */
    recall() {
      root.clearTimeout(this.pause);
      const blanks = fromHash(root.location.hash);
      if (blanks) writeBlanks(this.form, blanks, this.targets, this.measures);
      this.answer();
    }

    /** Put what is asked into the address, so that a reload or a bookmark asks it again. */
    keep() {
      root.clearTimeout(this.pause);
      if (this.state !== "refused") this.pause = root.setTimeout(() => this.write(), PAUSE);
    }

    write() {
      const blanks = readBlanks(this.form);
      const plain = this.state === "written" && blanks.measures === "metric";
      const hash = plain ? "" : `#${toHash(blanks)}`;
      root.history.replaceState(null, "", hash || root.location.href.replace(/#.*$/, ""));
    }

    answer() {
      const blanks = readBlanks(this.form);
      const { target, measures } = this;
      try {
        const question = questionOf(blanks, target, measures);
        if (question === null) this.showWritten(blanks.measures);
        else this.showAnswer(question, blanks);
        this.refuse(null);
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        this.showRefused();
        this.refuse(error);
      }
      this.form.querySelector("[data-reset]").hidden = this.state === "written" && blanks.measures === "metric";
    }

    showAnswer(question, blanks) {
      const { target, measures } = this;
      const scaled = scale(target, question, measures, blanks.measures);
      const metric = blanks.measures === "metric" ? null : scale(target, question, measures);
      this.state = "asked";
      this.mark(new Set(target.mixtures.map((mixture) => mixture.id)));
      for (const [at, mixture] of scaled.mixtures.entries()) {
        showMixture(this.where.get(mixture.plan.id), mixture, metric?.mixtures[at]);
      }
      this.asked.textContent = phrase(blanks, target);
      this.say(scaled.warnings);
    }

    /** The recipe as its author wrote it; every mixture at its own size. */
    showWritten(system) {
      this.state = "written";
      this.mark(new Set(this.where.keys()));
      if (system !== "metric") {
        for (const target of [...this.targets, ...this.others]) {
          const [here, metric] = [system, "metric"].map((each) =>
            asWritten(target, this.measures, each).mixtures.at(-1));
          const where = this.where.get(target.id);
          if (where) showMixture(where, here, metric);
        }
      }
      this.asked.textContent = "";
      this.say([]);
    }

    showRefused() {
      this.state = "refused";
      this.mark(new Set(this.target.mixtures.map((mixture) => mixture.id)));
      for (const plan of this.target.mixtures) showNothing(this.where.get(plan.id), plan);
      this.asked.textContent = "";
      this.say([]);
    }

    /** Start from what was written; sections that the target does not need are set back and say so. */
    mark(needed) {
      for (const [id, where] of this.where) {
        where.section.classList.toggle("not-needed", !needed.has(id));
        everyPlace(where).forEach(restore);
      }
    }

    say(warnings) {
      this.said.replaceChildren(...warnings.map((words) => element("li", "", words)));
      this.said.hidden = warnings.length === 0;
    }

    refuse(refusal) {
      const words = refusal ? `${refusal.message}: ${refusal.help}`.replaceAll("`", "") : "";
      if (this.refused.dataset.words === words) return; // said once, not again at every key
      this.refused.dataset.words = words;
      const fixes = (refusal?.fixes ?? []).map((fix) => {
        const button = element("button", "plain", `Use ${fix}`);
        button.type = "button";
        button.value = fix;
        return button;
      });
      this.refused.replaceChildren(...(words ? [words, ...fixes.flatMap((fix) => [" ", fix])] : []));
    }
  }

  const form = document.getElementById("calculator");
  const block = document.getElementById("plan");
  if (form && block) {
    const plan = JSON.parse(block.textContent);
    if (plan.targets.length > 0) new Calculator(form, plan).start();
  }
})(globalThis);
