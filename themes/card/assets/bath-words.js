"use strict";
/*
 * The sentence of a bath over a run of prints, on a recipe page and on the bench: its lists, its blanks as a
 * question for baths.js, and the answer in words.
 */
(function (root) {
  const { ceiling, divide, exactText, multiply, of, parsePositive } = root.traysideRatio;
  const { trayVolume } = root.traysideCalc;
  const { OWN_SIZE, questionOf } = root.traysideAsking;
  const { fillUnits, option } = root.traysideBlanks;
  const { measured, noteOf, part } = root.traysideDilute;
  const { bath } = root.traysideBaths;

  const HOUR = of(60);
  const TOLD = "nothing says when it is spent: one filling is reckoned for all prints, and only the prints show whether it did";

  const fillBath = (elements, measures) => {
    for (const name of ["paper", "does-paper"]) {
      elements[name].append(...Object.keys(measures.papers).reverse().map((paper) => option(paper, paper)));
    }
    for (const name of ["size-unit", "does-unit", "tray-unit"]) fillUnits(elements[name], ["length"], measures);
  };

  const shapeBath = (form) => {
    const { elements } = form;
    form.querySelector("[data-own-size]").hidden = elements.paper.value !== OWN_SIZE;
    form.querySelector("[data-does-size]").hidden = elements["does-paper"].value !== OWN_SIZE;
  };

  const text = (elements, name) => elements[name].value.trim();

  /** Sheets of one size from four blanks: `{count, length, width}`, or null while one is empty. */
  const sheetsFrom = (elements, [count, paper, long, wide, unit], measures) => {
    const blanks = {
      ask: "sheets", sheets: text(elements, count), paper: elements[paper].value, long: text(elements, long),
      wide: text(elements, wide), "size-unit": elements[unit].value, coats: "1", extra: "0", coverage: "",
    };
    return questionOf(blanks, null, measures);
  };

  /** What a litre does by the blanks, in mm² a ml; null while they are empty. */
  const capacityFrom = (elements, measures) => {
    const names = ["does", "does-paper", "does-long", "does-wide", "does-unit"];
    const sheets = sheetsFrom(elements, names, measures);
    return sheets && divide(multiply(sheets.count, multiply(sheets.length, sheets.width)), of(1000));
  };

  const hoursFrom = (elements, name) =>
    text(elements, name) ? multiply(parsePositive(text(elements, name), "a time above zero"), HOUR) : null;

  /**
   * The answer as nodes, or null while a needed blank is empty. `known` is what a recipe says of its bath:
   * `{capacity, keeps, spent}`; the blanks go before it. `use` makes a button for an amount in whole ml, or null.
   */
  const bathAnswer = (elements, measures, system, known = {}, use = () => []) => {
    const prints = sheetsFrom(elements, ["prints", "paper", "long", "wide", "size-unit"], measures);
    const sides = Object.fromEntries(
      ["tray-long", "tray-wide", "depth", "tray-unit"].map((name) => [name, elements[name].value]),
    );
    const tray = questionOf({ ...sides, ask: "tray" }, null, measures);
    if (prints === null || tray === null) return null;
    const capacity = capacityFrom(elements, measures) ?? known.capacity ?? null;
    const found = bath({
      volume: trayVolume(tray),
      prints: prints.count,
      area: multiply(prints.length, prints.width),
      minutes: hoursFrom(elements, "lasting"),
      capacity,
      keeps: hoursFrom(elements, "keeps") ?? known.keeps ?? null,
    });
    const say = (value) => measured([value, value], "volume", measures, system);
    return inWords(found, { say, use, tray: trayVolume(tray), told: capacity === null, spent: known.spent ?? null });
  };

  const plural = (count, one, many) => ` ${exactText(count) === "1" ? one : many}`;

  const inWords = (found, { say, use, tray, told, spent }) => {
    const nodes = [
      "A filling is ", part("filling", say(tray)), " and does ", part("lasts", exactText(found.lasts)),
      plural(found.lasts, "print", "prints"), ": ", part("fillings", exactText(found.fillings)),
      plural(found.fillings, "filling", "fillings"), ", ", part("replaced", say(found.replaced)),
      " in all if it is replaced whole. ", ...use(ceiling(found.replaced)),
    ];
    if (found.replenished !== null && spent !== "replace") {
      nodes.push(
        " Or ", part("replenished", say(found.replenished)), " in all, topped up with ",
        part("topping", say(found.perPrint)), " after each print. ", ...use(ceiling(found.replenished)),
      );
    }
    return [...nodes, ...[...(told ? [TOLD] : []), ...found.warnings].map(noteOf)];
  };

  root.traysideBathWords = Object.freeze({ fillBath, shapeBath, bathAnswer });
})(globalThis);
