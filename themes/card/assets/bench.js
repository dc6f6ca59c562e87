"use strict";
/*
 * The bench: sums that belong to no recipe. Listens to each sentence and answers below it; the arithmetic
 * is calc.js, diluting.js, swapping.js and shrink.js.
 */
(function (root) {
  const { Refusal, compare, exactText, multiply, of, parsePositive, subtract } = root.traysideRatio;
  const { coating, readMeasures, toFigures, trayVolume } = root.traysideCalc;
  const { OWN_SIZE, missing, quantityOf, questionOf, sideOf } = root.traysideAsking;
  const { fillUnits, option } = root.traysideBlanks;
  const { STRENGTHS, parseDilution, concentration, byParts, toStrength } = root.traysideDiluting;
  const { readForm, formsNamed, indexOf, swaps } = root.traysideSwapping;
  const { fittedSide, measuredShrink, millimetres, percent } = root.traysideShrink;
  const { bathAnswer, fillBath, shapeBath } = root.traysideBathWords;
  const { answerWith, askedOf, inWords, measured, noteOf, part } = root.traysideDilute;

  const NAMES = { stock: "the stock", water: "water" };

  const isEmpty = (field) => !field.value.trim();
  const chosenSystem = () => document.querySelector("input[name=measures]:checked").value;

  /** The sums by name: `fill` their lists once, `shape` the sentence, `answer` with nodes or null. */
  const sumsOf = ({ measures, index }) => ({
    parts: {
      fill: ({ unit }) => fillUnits(unit, ["volume", "mass"], measures),
      answer: (elements) => {
        if ([elements.parts, elements.amount].some(isEmpty)) return null;
        const answer = byParts(parseDilution(elements.parts.value), askedOf(elements, measures));
        return inWords(answer, NAMES, measures, chosenSystem());
      },
    },
    strength: {
      fill: (elements) => {
        fillUnits(elements.unit, ["volume", "mass"], measures);
        for (const name of ["stock-unit", "to-unit"]) {
          elements[name].replaceChildren(...Object.keys(STRENGTHS).map((unit) => option(unit, unit)));
        }
      },
      shape: (form) => {
        const { weight, moles } = bridges(form.elements);
        form.querySelector("[data-density]").hidden = !weight;
        form.querySelector("[data-moles]").hidden = !moles;
      },
      answer: (elements) => {
        if ([elements.stock, elements.to, elements.amount].some(isEmpty)) return null;
        return strengthAnswers(elements, measures, index);
      },
    },
    swap: {
      fill: ({ unit }) => fillUnits(unit, ["mass", "volume"], measures),
      answer: (elements) => {
        if ([elements.amount, elements.wanted, elements.jar].some(isEmpty)) return null;
        const quantity = quantityOf(elements.amount.value, elements.unit.value, measures);
        const found = swaps(quantity, elements.wanted.value, elements.jar.value, index);
        const unclear = found.length > 1
          ? [noteOf("These names do not tell the form: read the label, and take the line that matches.")] : [];
        return [...found.map((swap) => swapWords(swap, quantity, measures)), ...unclear];
      },
    },
    tray: {
      fill: (elements) => fillUnits(elements["tray-unit"], ["length"], measures),
      answer: (elements) => {
        const blanks = textOf(elements, ["tray-long", "tray-wide", "depth", "tray-unit"]);
        if (missing("tray", blanks).length > 0) return null;
        const volume = trayVolume(questionOf({ ...blanks, ask: "tray" }, null, measures));
        return volumeWords("The tray holds ", volume, measures);
      },
    },
    sheets: {
      fill: (elements) => {
        elements.paper.append(...Object.keys(measures.papers).reverse().map((name) => option(name, name)));
        fillUnits(elements["size-unit"], ["length"], measures);
        fillUnits(elements["coverage-unit"], ["coverage"], measures);
        elements.extra.value = exactText(multiply(measures.allowance, of(100)));
      },
      shape: (form) => {
        form.querySelector("[data-own-size]").hidden = form.elements.paper.value !== OWN_SIZE;
      },
      answer: (elements) => {
        const names = ["sheets", "paper", "long", "wide", "size-unit", "coats", "coverage", "coverage-unit", "extra"];
        const blanks = textOf(elements, names);
        if (missing("sheets", blanks).length > 0 || isEmpty(elements.coverage)) return null;
        const volume = coating(questionOf({ ...blanks, ask: "sheets" }, null, measures), null);
        return volumeWords("They take ", volume, measures);
      },
    },
    bath: {
      fill: (elements) => fillBath(elements, measures),
      shape: shapeBath,
      answer: (elements) => bathAnswer(elements, measures, chosenSystem()),
    },
    fit: {
      fill: (elements) => fillUnits(elements["fit-unit"], ["length"], measures),
      answer: (elements) => {
        if ([elements.before, elements.after, elements.side].some(isEmpty)) return null;
        return fitWords(elements, measures);
      },
    },
  });

  /** How much a direction of the paper has lost, and the side of the next film along it. */
  const fitWords = (elements, measures) => {
    const [before, after, side] = ["before", "after", "side"].map((name) =>
      sideOf(elements[name].value, elements["fit-unit"].value, measures));
    const share = measuredShrink(before, after);
    const fitted = fittedSide(side, share);
    return [
      "The paper lost ", part("shrink", `${percent(share)} %`), ". Print that side of the film at ",
      part("fitted", `${millimetres(fitted)} mm`), "; at its old size it would miss by ",
      part("miss", `${millimetres(subtract(side, fitted))} mm`), ".",
    ];
  };

  const textOf = (elements, names) => Object.fromEntries(names.map((name) => [name, elements[name].value]));

  const volumeWords = (lead, volume, measures) =>
    [lead, part("total", measured([volume, volume], "volume", measures, chosenSystem())), "."];

  /** What joins two strengths of different kinds: a density, a molar mass, or nothing. */
  const bridges = (elements) => {
    const [from, to] = ["stock-unit", "to-unit"].map((name) => STRENGTHS[elements[name].value].per);
    const different = from !== to;
    return { weight: different && from === "w/w", moles: different && [from, to].includes("mol/l") };
  };

  /** One answer, or one for each molar mass that the substance's name may mean. */
  const strengthAnswers = (elements, measures, index) => {
    const { weight, moles } = bridges(elements);
    const density = weight && !isEmpty(elements.density)
      ? parsePositive(elements.density.value, "a density such as `1.18`") : null;
    const jars = moles && !isEmpty(elements.substance) ? byMolarMass(elements.substance.value, index) : [null];
    const asked = askedOf(elements, measures);
    return jars.flatMap((jar) => {
      const known = { density, molarMass: jar && jar.molarMass };
      const [stock, to] = ["stock", "to"].map((name) =>
        concentration(elements[name].value, elements[`${name}-unit`].value, known));
      const words = inWords(toStrength(stock, to, asked), NAMES, measures, chosenSystem());
      return jar === null ? words : [noteOf(`${jar.names.join(", ")} (${exactText(jar.molarMass)} g/mol):`), ...words];
    });
  };

  /** The forms that a name may mean, in groups of one molar mass: `{molarMass, names}`. */
  const byMolarMass = (typed, index) => {
    const groups = new Map();
    for (const { molarMass, name } of formsNamed(typed, index)) {
      if (molarMass === null) continue;
      const key = exactText(molarMass);
      groups.set(key, { molarMass, names: [...(groups.get(key)?.names ?? []), name] });
    }
    if (groups.size > 0) return [...groups.values()];
    throw new Refusal("no-formula", `\`${typed.trim()}\` has no formula on its card`, "give both strengths in % w/v");
  };

  const swapWords = (swap, quantity, measures) => {
    const made = document.createElement("p");
    made.dataset.from = swap.wanted.id;
    made.dataset.to = swap.inJar.id;
    const asked = measured([quantity.amount, quantity.amount], quantity.dimension, measures, chosenSystem());
    const factor = swap.factor.map((each) => exactText(toFigures(each, 4)));
    const [low, high] = swap.factor;
    made.append(
      `For ${asked} of ${swap.wanted.name} take `,
      part("total", measured(swap.answer, swap.dimension, measures, chosenSystem())),
      ` of ${swap.inJar.name} (`,
      part("factor", compare(low, high) === 0n ? factor[0] : factor.join("–")),
      " g for each gram).",
      ...swap.warnings.map(noteOf),
    );
    return made;
  };

  const start = (block) => {
    const measures = readMeasures(block);
    const forms = (block.forms ?? []).map(readForm);
    const sums = sumsOf({ measures, index: indexOf(forms) });
    const names = [...new Set(forms.flatMap((form) => form.called))];
    document.getElementById("bench-names").append(...names.map((name) => option(name, "")));
    document.querySelector("[data-bench]").hidden = false;
    const update = [...document.querySelectorAll("[data-sum]")].map((section) => begin(section, sums));
    document.addEventListener("input", (event) => {
      if (event.target.name === "measures") for (const each of update) each();
    });
  };

  /** Show one sum and keep its answer up to date; gives what answers it anew. */
  const begin = (section, sums) => {
    const { fill, shape, answer } = sums[section.dataset.sum];
    const form = section.querySelector("form");
    const update = () => {
      shape?.(form);
      answerWith(form, () => answer(form.elements));
    };
    fill(form.elements);
    form.addEventListener("input", update);
    form.addEventListener("submit", (event) => event.preventDefault());
    update();
    section.hidden = false;
    return update;
  };

  const block = document.getElementById("plan");
  if (block && document.querySelector("[data-sum]")) start(JSON.parse(block.textContent));
})(globalThis);
