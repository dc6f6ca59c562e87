"use strict";
/*
 * Together: questions about several mixtures answered as one, and what it all takes. Pure: no DOM; exact fractions.
 * Twin of sitegen/compute/together.py: the same codes, the same words, the same order.
 */
(function (root) {
  const { Refusal, add, divide, multiply, of } = root.traysideRatio;
  const { scale, scaledMixture, show, shownText, warningsOf } = root.traysideCalc;

  const NOTHING = of(0);

  /**
   * `{answers, batches, shares, stocks, things, unmeasured, warnings}` for `asked`, a list of `{target, question}`,
   * each about another mixture. `shares` says by the id of every batch who takes how much of it: `{taker, name,
   * makes, shown}`; `stocks` are the batches that go into others. `known` holds the ingredients: `{liquid, density}`.
   */
  const together = (asked, known, measures, system = "metric") => {
    leftForOne(asked);
    const answers = asked.map(({ target, question }) => scale(target, question, measures, system));
    const [plans, shares] = taken(answers);
    const batches = plans.map((plan) => {
      const makes = shares.get(plan.id).map((share) => share.makes).reduce(add, NOTHING);
      return scaledMixture(plan, divide(makes, plan.makes), measures, system);
    });
    const said = asked.flatMap(({ target, question }) => warningsOf(question, target, asked.length > 1));
    return {
      answers,
      batches,
      shares,
      stocks: batches.filter(({ plan }) => shares.get(plan.id).some((share) => share.taker !== plan.id)),
      things: thingsOf(batches, known, measures, system),
      unmeasured: batches.flatMap(({ plan, lines }) =>
        lines.filter(({ line }) => line.kind === "words").map(({ line }) => ({ ...line, batch: plan.name }))),
      warnings: [...new Set(said)],
    };
  };

  /** What is left of a thing tells nothing where a second mixture takes of it: who gets how much is not said. */
  const leftForOne = (asked) => {
    for (const one of asked) {
      const left = new Set((one.question.left ?? []).map((each) => each.of));
      for (const { target } of asked.filter((other) => other !== one)) {
        const line = target.mixtures.flatMap((plan) => plan.lines).find((each) => left.has(each.of));
        if (!line) continue;
        const says = `all that is left of \`${line.name}\` is asked to go into \`${one.target.name}\`, and `
          + `\`${target.name}\` takes of it, too`;
        throw new Refusal("left-shared", says, `say how much of \`${one.target.name}\` to make`);
      }
    }
  };

  /** Every batch once, each after what goes into it, and what each wanted mixture takes of it, by its id. */
  const taken = (answers) => {
    const [plans, shares] = [new Map(), new Map()];
    for (const { target, mixtures } of answers) {
      for (const { plan, makes, shown } of mixtures) {
        if (!plans.has(plan.id)) plans.set(plan.id, plan);
        const share = { taker: target.id, name: target.name, makes, shown };
        shares.set(plan.id, [...(shares.get(plan.id) ?? []), share]);
      }
    }
    return [[...plans.values()], shares];
  };

  /** A share of a batch in words: `30 ml for Second sensitiser`. */
  const shareText = ({ taker, name, shown }, batch) =>
    `${shownText(shown)} for ${taker === batch ? "itself" : name}`;

  /** What is bought, added up over all batches, in the order in which it is first needed. */
  const thingsOf = (batches, known, measures, system) => {
    const rows = batches.flatMap(({ plan, lines }) => lines.map((scaled) => ({ ...scaled, batch: plan.name })));
    const measured = rows.filter(({ line }) => Object.hasOwn(known, line.of) && line.kind !== "words");
    const common = commonKinds(measured, known);
    const sums = new Map();
    for (const { line, low, high, notes, batch } of measured) {
      const kind = MEET.includes(line.kind) ? common.get(line.of) ?? line.kind : line.kind;
      const key = `${line.of} ${kind}`;
      const sum = sums.get(key) ?? { of: line.of, name: line.name, kind, low: NOTHING, high: NOTHING, atMost: false, said: [] };
      const [from, to] = asKind({ kind: line.kind, low, high }, kind, known[line.of].density);
      const words = line.fill ? notes.filter((note) => note !== measures.words.fill) : notes;
      sums.set(key, {
        ...sum,
        low: add(sum.low, from),
        high: add(sum.high, to),
        atMost: sum.atMost || line.fill,
        said: [...sum.said, ...words.map((note) => `${batch}: ${note}`)],
      });
    }
    const ladders = measures.ladders[system];
    return [...sums.values()].map((sum) => ({
      ...sum,
      shown: show(sum.low, sum.high, ladders[sum.kind]),
      said: [...(sum.atMost ? [measures.words["at-most"]] : []), ...new Set(sum.said)],
    }));
  };

  /** What a density turns into each other; drops and pieces stay apart, since droppers differ twofold. */
  const MEET = ["mass", "volume"];

  /** Of what is both weighed and poured and has a density: how all of it is counted, liquids by volume. */
  const commonKinds = (measured, known) => {
    const kinds = new Map();
    for (const { line } of measured) kinds.set(line.of, new Set(kinds.get(line.of)).add(line.kind));
    const both = [...kinds].filter(([id, found]) => MEET.every((kind) => found.has(kind)) && known[id].density);
    return new Map(both.map(([id]) => [id, known[id].liquid ? "volume" : "mass"]));
  };

  /** Both ends in another measure; of a range of densities, the ends that lie furthest apart. */
  const asKind = ({ kind: from, low, high }, kind, density) => {
    if (from === kind || density === null) return [low, high];
    const [light, heavy] = density;
    if (kind === "mass") return [multiply(low, light), multiply(high, heavy)];
    return [divide(low, heavy), divide(high, light)];
  };

  root.traysideTogether = Object.freeze({ together, shareText });
})(globalThis);
