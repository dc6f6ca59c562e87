"use strict";
/*
 * Scaling, rounding and notes: a plan and a question give every amount to weigh and pour.
 * Pure: no DOM, no clock; every number is an exact fraction (ratio.js) until it is shown.
 * Twin of sitegen/compute/ask.py, scale.py, rounding.py and notes.py: the same codes, the same words.
 */
(function (root) {
  const { Refusal, add, ceiling, compare, divide, exactText, least, multiply, of, read } = root.traysideRatio;

  const ONE = of(1);
  const TEN_STEPS = of(10);
  const DOZEN = of(12);
  const COUNTED = ["drops", "pieces"];

  const readAll = (object, keys) =>
    Object.fromEntries(keys.map((key) => [key, object[key] == null ? null : read(object[key])]));
  const readPair = (pair) => (pair ? pair.map(read) : null);

  /** The measures of a data block, its numbers read once: ladders, units, papers (mm), balance (g). */
  const readMeasures = (block) => ({
    ...readAll(block, ["balance", "dropsPerMl", "allowance"]),
    words: block.words,
    papers: Object.fromEntries(Object.entries(block.papers).map(([name, sides]) => [name, sides.map(read)])),
    units: block.units.map((unit) => ({ ...unit, per: read(unit.per) })),
    ladders: Object.fromEntries(
      Object.entries(block.ladders).map(([system, kinds]) => [system, readKinds(kinds)]),
    ),
  });

  const readKinds = (kinds) =>
    Object.fromEntries(
      Object.entries(kinds).map(([kind, rungs]) => [
        kind,
        rungs.map((rung) => ({ ...rung, ...readAll(rung, ["upto", "per", "step"]) })),
      ]),
    );

  const readLine = (line) => ({ ...line, ...readAll(line, ["low", "high", "stock"]) });

  /** How the ingredients of a data block are added up: whether they are liquids, and their densities (g/ml). */
  const readThings = (things) =>
    Object.fromEntries(Object.entries(things).map(([id, thing]) => [id, { ...thing, density: readPair(thing.density) }]));

  /** A target of a data block: amounts at factor one in g, ml, drops or pieces. */
  const readTarget = (target) => ({
    ...target,
    ...readAll(target, ["makes", "density", "perPerson"]),
    local: target.local,
    coverage: readPair(target.coverage),
    mixtures: target.mixtures.map((m) => ({ ...m, makes: read(m.makes), lines: m.lines.map(readLine) })),
    totals: target.totals.map((total) => ({ ...total, ...readAll(total, ["amount", "density"]) })),
  });

  /** The nearest multiple of step, halves up; value >= 0, step > 0. */
  const toStep = (value, step) => {
    const { n, d } = divide(value, step);
    return multiply(of((2n * n + d) / (2n * d)), step);
  };

  /** So many significant figures, halves up; value > 0. */
  const toFigures = (value, figures) => {
    let step = ONE;
    while (compare(value, multiply(of(10n ** BigInt(figures)), step)) >= 0n) step = multiply(step, of(10));
    while (compare(value, multiply(of(10n ** BigInt(figures - 1)), step)) < 0n) step = divide(step, of(10));
    return toStep(value, step);
  };

  /**
   * An amount (base units) as it is measured: `{low, high, unit}` in decimal text. The upper end picks
   * the rung, so a range has one unit; below one step two figures are kept, never a zero for something.
   */
  const show = (low, high, ladder) => {
    const rung = ladder.find((r) => r.upto === null || compare(high, r.upto) <= 0n);
    const [from, to] = [low, high].map((value) => {
      const n = divide(value, rung.per);
      if (n.n === 0n) return "0";
      return exactText(compare(n, rung.step) >= 0n ? toStep(n, rung.step) : toFigures(n, 2));
    });
    return { low: from, high: to, unit: rung.unit };
  };

  /** `35 g`, `2–3 g`. */
  const shownText = ({ low, high, unit }) => `${low === high ? low : `${low}–${high}`} ${unit}`;

  const percent = (share) => exactText(toStep(multiply(share, of(100)), of(1, 10)));

  /** What is to be said of a line at this factor, in words. The lower end of a range is at risk. */
  const notesOn = (line, factor, measures) => {
    const notes = line.optional ? [measures.words.optional] : [];
    if (line.fill) return [...notes, measures.words.fill];
    if (line.kind === "words") return [...notes, measures.words.words];
    const small = smallNote(line, multiply(line.low, factor), measures);
    return small ? [...notes, small] : notes;
  };

  const fillIn = (words, numbers) => words.replace(/\{(\w+)\}/g, (_, name) => numbers[name]);

  const smallNote = (line, amount, measures) => {
    const { balance, words } = measures;
    const enough = multiply(TEN_STEPS, balance);
    if (line.kind === "mass" && compare(amount, enough) < 0n) {
      const numbers = {
        percent: percent(divide(balance, amount)),
        step: exactText(balance),
        times: ceiling(divide(enough, amount)).toString(),
      };
      if (line.stock === null) return fillIn(words["small-weight"], numbers);
      const pour = toStep(divide(multiply(of(100), amount), line.stock), of(1, 100));
      return fillIn(words["small-weight-stock"], {
        ...numbers, stock: exactText(line.stock), stock_ml: exactText(pour),
      });
    }
    if (line.kind !== "drops" && line.kind !== "volume") return null;
    const drops = line.kind === "drops" ? amount : multiply(amount, measures.dropsPerMl);
    if (compare(drops, DOZEN) >= 0n) return null;
    const numbers = { percent: percent(divide(ONE, drops)), times: ceiling(divide(DOZEN, drops)).toString() };
    return fillIn(words["few-drops"], numbers);
  };

  /**
   * By what the plan is multiplied; exact. Questions: `{kind: "make", amount, dimension, asked}` (base
   * units), `{kind: "factor", times}`, `{kind: "tray", length, width, depth}` (mm), `{kind: "sheets",
   * count, length, width, coats, allowance, coverage}` (mm, share, [ml/m²] or null), `{kind: "have",
   * left: [{of, amount, dimension}]}`, `{kind: "base", amount}` (g), `{kind: "people", count, each}`.
   */
  const factorOf = (question, target) => {
    switch (question.kind) {
      case "factor": return byFactor(question.times, target);
      case "base": return byBase(question, target);
      case "have": return least(question.left.map((left) => byLeft(left, target)));
      case "people": return multiply(question.count, forOne(question.each, target));
      case "make": return byAmount(question.amount, question.dimension, question.asked, target);
      case "tray": return byAmount(trayVolume(question), "volume", "the tray", target);
      case "sheets": return byAmount(coating(question, target), "volume", "the coating", target);
      default: throw new Refusal("ask-unknown", "this is no way of asking", "choose one of the ways above");
    }
  };

  /** ml in a tray, from inside length, width and depth in mm. */
  const trayVolume = ({ length, width, depth }) =>
    divide(multiply(multiply(length, width), depth), of(1000));

  /** ml to mix for the sheets; a coverage range is taken at its upper end, so that there is enough. */
  const coating = (sheets, target) => {
    const coverage = sheets.coverage ?? target.coverage;
    if (!coverage) {
      const says = `\`${target.local}\` does not say how much liquid a sheet takes`;
      throw new Refusal("no-coverage", says, "give a coverage, such as 40 ml/m²");
    }
    const area = divide(multiply(sheets.length, sheets.width), of(1_000_000));
    return [sheets.count, coverage[1], sheets.coats, add(ONE, sheets.allowance)].reduce(multiply, area);
  };

  const byFactor = (times, target) => {
    if (!target.nominal) return times;
    const says = `\`${target.local}\` has no size of its own to multiply`;
    const help = target.size === "base" ? `ask with the weight of ${target.base}` : "say how much to make";
    throw new Refusal("no-size-as-written", says, help);
  };

  const byAmount = (amount, dimension, asked, target) => {
    const name = target.local;
    if (target.size === "base") {
      const says = `\`${name}\` goes by the weight of ${target.base}, not by volume`;
      throw new Refusal("asked-of-base", says, `ask with the weight of ${target.base}`);
    }
    if (dimension === target.size) return divide(amount, target.makes);
    if (target.density === null) {
      const says = `${asked} is a ${dimension}, and \`${name}\` is made by ${target.size}: mass and volume meet `
        + "only through a density, which it does not give";
      throw new Refusal("no-density", says, `ask for a ${target.size}`);
    }
    const meet = target.size === "mass" ? multiply : divide;
    return divide(meet(amount, target.density), target.makes);
  };

  const byBase = ({ amount }, target) => {
    if (target.size === "base") return divide(amount, target.makes);
    const says = `\`${target.local}\` does not go by the weight of anything`;
    throw new Refusal("no-base", says, "say how much to make");
  };

  /** How many times the plan one thing allows; it may be weighed in one mixture and poured in another. */
  const byLeft = (left, target) => {
    const named = target.totals.filter((total) => total.of === left.of);
    if (named.length === 0) {
      const says = `\`${left.of}\` is not weighed or measured out for \`${target.local}\``;
      throw new Refusal("not-in-recipe", says, "choose one of its ingredients");
    }
    return divide(left.amount, named.map((total) => neededAs(total, left, target)).reduce(add));
  };

  const neededAs = (total, left, target) => {
    if (total.kind === left.dimension) return total.amount;
    const counted = COUNTED.includes(total.kind) || COUNTED.includes(left.dimension);
    if (counted || total.density === null) {
      const says = `\`${total.of}\` is measured by ${total.kind} in \`${target.local}\`, and a `
        + `${left.dimension} was given`;
      throw new Refusal("no-density", says, `say how much is left as a ${total.kind}`);
    }
    return (total.kind === "volume" ? multiply : divide)(total.amount, total.density);
  };

  const forOne = (each, target) => {
    if (each) return factorOf(each, target);
    if (target.perPerson) return divide(target.perPerson, target.makes);
    if (!target.nominal) return ONE;
    const says = `\`${target.local}\` does not say how much one person gets`;
    throw new Refusal("no-size-as-written", says, "say how much each person gets");
  };

  /**
   * The answer to a question about a target: `{target, factor, mixtures, warnings}`; each mixture has
   * `makes` (exact), `shown` and `lines` of `{line, low, high, shown, notes}`. `system` is metric, US or imp.
   */
  const scale = (target, question, measures, system = "metric") => {
    const factor = factorOf(question, target);
    return { ...multiplied(target, factor, measures, system), warnings: warningsOf(question, target) };
  };

  /** The recipe at the size its author wrote it for (or the nominal one), in any measures. */
  const asWritten = (target, measures, system = "metric") =>
    ({ ...multiplied(target, ONE, measures, system), warnings: [] });

  const multiplied = (target, factor, measures, system) =>
    ({ target, factor, mixtures: target.mixtures.map((plan) => scaledMixture(plan, factor, measures, system)) });

  /** One batch at so many times its plan. */
  const scaledMixture = (plan, factor, measures, system) => {
    const ladders = measures.ladders[system];
    const makes = multiply(plan.makes, factor);
    const ladder = ladders[plan.size === "volume" ? "volume" : "mass"];
    const lines = plan.lines.map((line) => scaledLine(line, factor, measures, ladders));
    return { plan, makes, shown: show(makes, makes, ladder), lines };
  };

  const scaledLine = (line, factor, measures, ladders) => {
    const [low, high] = [multiply(line.low, factor), multiply(line.high, factor)];
    const shown = line.kind === "words" ? null : show(low, high, ladders[line.kind]);
    return { line, low, high, shown, notes: notesOn(line, factor, measures) };
  };

  /** What is to be minded of an answer; `named` where it stands among the answers to other questions. */
  const warningsOf = (question, target, named = false) => {
    const said = target.mixtures
      .filter((mixture) => mixture.estimate)
      .map((m) => `${m.name}: its volume is an estimate, since volumes do not add up exactly`);
    if (target.again) said.push(target.again);
    const [low, high] = (question.kind === "sheets" && (question.coverage ?? target.coverage)) || [];
    if (!low || compare(low, high) === 0n) return said;
    const ends = `${exactText(low)}–${exactText(high)}`;
    return [`${named ? `${target.name}: ` : ""}coverage is ${ends} ml/m²: this is mixed for the upper end`, ...said];
  };

  root.traysideCalc = Object.freeze({
    readMeasures, readTarget, readThings, readPair, toStep, toFigures, show, shownText, notesOn, factorOf, trayVolume,
    coating, scale, scaledMixture, warningsOf, asWritten,
  });
})(globalThis);
