"use strict";
/*
 * Places: where amounts stand on a recipe page, in tables and in sentences, and how one is written there.
 * What stood there as the author wrote it is kept, and put back.
 */
(function (root) {
  const { exactText } = root.traysideRatio;
  const { shownText } = root.traysideCalc;

  const NOTHING = "–";
  const NO_BREAK = "\u00a0";
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

  /** All places of one mixture: its section, rows, what they link to, and every live amount of it in sentences. */
  const placesOf = (section) => {
    const id = section.dataset.mixture;
    const live = [...document.querySelectorAll("data.live")].filter((node) => node.dataset.mixture === id);
    return {
      section,
      makes: places(section, "[data-makes]"),
      rows: new Map([...section.querySelectorAll("tr[data-line]")].map((row) => [row.dataset.line, placesInRow(row)])),
      live: live.map(place),
      ways: new Map([...section.querySelectorAll("tr[data-line]")].map((row) =>
        [row.dataset.line, row.querySelector(".of a").getAttribute("href")])),
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

  /** In sentences, where no section around it does, say of an amount that it does not follow what is asked. */
  const sayWritten = (where, plan) => {
    for (const { node } of measuredLive(where, plan)) node.append(`${NO_BREAK}(as${NO_BREAK}written)`);
  };

  /** The live amounts of a mixture but for those that are words at any size. */
  const measuredLive = ({ live }, plan) => {
    const words = plan.lines.filter((line) => line.kind === "words").map((line) => line.key);
    return live.filter(({ node }) => !words.includes(node.dataset.line));
  };

  /** No number at all, so that none can be read for the answer to a question that was refused. */
  const showNothing = (where, plan) => {
    const kinds = new Map(plan.lines.map((line) => [line.key, line.kind]));
    for (const [key, row] of where.rows) {
      if (kinds.get(key) !== "words") for (const cell of [...row.measure, ...row.exact]) fillIn(cell, NOTHING);
      for (const cell of row.notes) fillIn(cell, "");
    }
    for (const each of where.makes) fillIn(each, NOTHING);
    for (const each of measuredLive(where, plan)) fillInLive(each, NOTHING);
  };

  root.traysidePlaces = Object.freeze({
    element, amountParts, placesOf, everyPlace, restore, showMixture, sayWritten, showNothing,
  });
})(globalThis);
