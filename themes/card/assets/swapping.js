"use strict";
/*
 * Swaps: one form of a substance in place of another, by molar mass or by what both hold of a useful part.
 * Pure: no DOM. Twin of sitegen/compute/swap.py and names.py; forms come from the page's data block.
 */
(function (root) {
  const { Refusal, compare, divide, exactText, multiply, of, read } = root.traysideRatio;
  const { readPair } = root.traysideCalc;

  const ONE = of(1);
  const optional = (text) => (text === null ? null : read(text));

  /** A form of the data block with its numbers read: molar mass g/mol, density g/ml, content in percent. */
  const readForm = (form) => ({
    ...form,
    molarMass: optional(form.molarMass),
    density: optional(form.density),
    assay: form.assay && { ...form.assay, low: read(form.assay.low) },
    supplies: new Map(Object.entries(form.supplies).map(([part, moles]) => [part, read(moles)])),
    content: new Map(Object.entries(form.content).map(([part, share]) => [part, readPair(share)])),
  });

  /** A name as it is compared: case, hyphens and spaces do not count. */
  const fold = (word) =>
    word.toLowerCase().replaceAll("ß", "ss").replaceAll("-", " ").replaceAll("·", ".").trim().replace(/\s+/g, " ");

  /** Forms by each folded name, in the order of the cards. */
  const indexOf = (forms) => {
    const index = new Map();
    for (const form of forms) {
      const words = new Set([...form.called, ...form.codes].map(fold));
      for (const word of words) index.set(word, [...(index.get(word) ?? []), form]);
    }
    return index;
  };

  /** Every form a word may mean; none is picked. A Refusal when it means none. */
  const formsNamed = (typed, index) => {
    const found = index.get(fold(typed));
    if (found) return found;
    const says = typed.trim() ? `\`${typed.trim()}\` is not the name of a substance here` : "a name is missing";
    throw new Refusal("unknown-substance", says, nearNames(fold(typed), index));
  };

  const nearNames = (word, index) => {
    const near = word.length < 3 ? [] : [...index.keys()].filter((name) => name.includes(word)).slice(0, 3);
    return near.length > 0
      ? `did you mean ${near.map((name) => `\`${name}\``).join(" or ")}?`
      : "use one of its other names, or look in the list of substances";
  };

  /**
   * Every swap that two names may mean: `{wanted, inJar, answer: [low, high], unit, factor: [low, high],
   * exact, warnings}`, grams or ml. A Refusal when no pair of forms can stand in for each other.
   */
  const swaps = (quantity, wanted, inJar, index) => {
    const [found, refused] = [[], []];
    for (const first of formsNamed(wanted, index)) {
      for (const second of formsNamed(inJar, index)) {
        try {
          found.push(swap(quantity, first, second));
        } catch (error) {
          if (!(error instanceof Refusal)) throw error;
          refused.push(error);
        }
      }
    }
    if (found.length === 0) throw refused[0];
    return found;
  };

  const swap = (quantity, wanted, inJar) => {
    const { factor, exact, warnings } = factorOf(wanted, inJar);
    const grams = quantity.dimension === "volume" ? multiply(quantity.amount, densityOf(wanted)) : quantity.amount;
    let [answer, dimension] = [factor.map((each) => multiply(grams, each)), "mass"];
    if (quantity.dimension === "volume" && inJar.state === "liquid") {
      [answer, dimension] = [answer.map((each) => divide(each, densityOf(inJar))), "volume"];
    }
    const notes = [wanted.note, inJar.note].filter(Boolean);
    return { wanted, inJar, answer, dimension, factor, exact, warnings: [...new Set([...warnings, ...notes])] };
  };

  const densityOf = (form) => {
    if (form.density !== null) return form.density;
    const says = `${form.name} has no density on its card, so its volume cannot be weighed`;
    throw new Refusal("no-density", says, "ask with a mass, such as 100 g");
  };

  /** Grams of what is in the jar for each gram that the recipe wants. */
  const factorOf = (wanted, inJar) => {
    if (wanted.id === inJar.id) return { factor: [ONE, ONE], exact: true, warnings: [] };
    const same = wanted.card === inJar.card;
    const part = sharedPart(wanted, inJar, same);
    if (wanted.molarMass === null || inJar.molarMass === null || part === null) return byContent(wanted, inJar);
    const perGram = (form) => divide(part.moles(form), form.molarMass);
    const ratio = multiply(purityRatio(wanted, inJar), divide(perGram(wanted), perGram(inJar)));
    const says = `${inJar.name} is not ${wanted.name}: only the ${part.name} is the same, the rest of the salt differs`;
    return { factor: [ratio, ratio], exact: same, warnings: same ? [] : [says] };
  };

  /** What both supply and how many moles of it each formula unit holds; null when nothing is shared. */
  const sharedPart = (wanted, inJar, same) => {
    const name = [...wanted.supplies.keys()].find((each) => inJar.supplies.has(each));
    if (name !== undefined) return { name, moles: (form) => form.supplies.get(name) };
    return same ? { name: "", moles: () => ONE } : null;
  };

  /** Pure substance in a gram of the one, over the same of the other. */
  const purityRatio = (wanted, inJar) => {
    const both = [wanted, inJar];
    if (both.every((form) => form.assay?.basis === "v/v")) {
      const [ours, theirs] = both.map((form) => divide(form.assay.low, densityOf(form)));
      return divide(ours, theirs);
    }
    return divide(purityOf(wanted), purityOf(inJar));
  };

  const purityOf = (form) => {
    if (!form.assay) return ONE;
    const share = divide(form.assay.low, of(100));
    if (form.assay.basis === "w/w") return share;
    if (form.assay.basis === "w/v") return divide(share, densityOf(form));
    const says = `${form.name} is known by volume only, so its grams cannot be compared`;
    throw new Refusal("swap-unrelated", says, "dilute it by volume instead");
  };

  const byContent = (wanted, inJar) => {
    const part = [...wanted.content.keys()].find((each) => inJar.content.has(each));
    if (part === undefined) {
      const says = `${inJar.name} cannot stand in for ${wanted.name}: nothing on their cards says what they share`;
      throw new Refusal("swap-unrelated", says, "name two forms of one substance, or two salts that share a part");
    }
    const [ours, theirs] = [wanted.content.get(part), inJar.content.get(part)];
    const says = `not exact: ${wanted.name} holds ${range(ours)} % ${part}, ${inJar.name} ${range(theirs)} %; `
      + "the maker's own figure for both would narrow it, and the two may behave differently";
    return { factor: [divide(ours[0], theirs[1]), divide(ours[1], theirs[0])], exact: false, warnings: [says] };
  };

  const range = ([low, high]) =>
    compare(low, high) === 0n ? exactText(low) : `${exactText(low)}–${exactText(high)}`;

  root.traysideSwapping = Object.freeze({ readForm, fold, indexOf, formsNamed, swaps });
})(globalThis);
