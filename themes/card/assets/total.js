"use strict";
/*
 * The total of a recipe page: what everything asked for takes all in all, as a list of stocks and one of what to have
 * at hand. The sums are together.js.
 */
(function (root) {
  const { shareText } = root.traysideTogether;
  const { element, amountParts } = root.traysidePlaces;

  /** A copy of the link that the page has for an ingredient or a mixture, or its name. */
  const linkTo = (of, name, ways) => {
    const way = ways.get(of);
    if (!way) return element("span", "", name);
    const link = element("a", "", name);
    link.href = way;
    return link;
  };

  const row = (amount, name, notes) => {
    const made = document.createElement("tr");
    const [measure, of] = [element("td", "measure", ""), element("th", "of", "")];
    measure.append(...amount);
    of.scope = "row";
    of.append(name);
    made.append(measure, of, element("td", "notes", notes));
    return made;
  };

  const fill = (part, rows) => {
    part.querySelector("tbody").replaceChildren(...rows);
    part.hidden = rows.length === 0;
  };

  /**
   * Fill the section with an answer of together.js, or hide it for null. `metric` is the same answer in metric
   * measures where others are chosen; `ways` are addresses of ingredients and mixtures by their ids.
   */
  const showTotal = (section, all, metric, ways) => {
    section.hidden = all === null;
    if (all === null) return;
    const also = (pick) => (metric ? pick(metric).shown : null);
    const stocks = all.stocks.map(({ plan, shown }, at) => {
      const shares = all.shares.get(plan.id).map((share) => shareText(share, plan.id)).join(", ");
      return row(amountParts(shown, also((m) => m.stocks[at])), linkTo(plan.id, plan.name, ways), shares);
    });
    const things = all.things.map(({ of, name, shown, said }, at) =>
      row(amountParts(shown, also((m) => m.things[at])), linkTo(of, name, ways), said.join("; ")));
    const unmeasured = all.unmeasured.map(({ of, name, written, batch }) =>
      row(["–"], linkTo(of, name, ways), `${batch}: ${written}`));
    fill(section.querySelector("[data-things]"), [...things, ...unmeasured]);
    fill(section.querySelector("[data-stocks]"), stocks);
  };

  root.traysideTotal = Object.freeze({ showTotal });
})(globalThis);
