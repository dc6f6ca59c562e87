"use strict";
/*
 * Asking: the blanks of the calculator's sentence, as text, become a question for calc.js, a phrase for
 * the page and the hash of an address. Pure: no DOM. Blanks are named as in calculator.html.
 */
(function (root) {
  const { Refusal, exactText, divide, multiply, of, parseNumber, parsePositive, parseCount, compare } =
    root.traysideRatio;

  /** The ways of asking, in the order in which they are offered, and the blanks that each fills in. */
  const BLANKS = Object.freeze({
    make: ["amount", "unit"],
    factor: ["times"],
    tray: ["tray-long", "tray-wide", "depth", "tray-unit"],
    sheets: ["sheets", "paper", "long", "wide", "size-unit", "coats", "extra", "coverage", "coverage-unit"],
    have: ["left"],
    base: ["base", "base-unit"],
    people: ["people", "each"],
  });

  /** What must be filled in before a way is a question at all. */
  const NEEDED = Object.freeze({
    make: ["amount"], factor: ["times"], tray: ["tray-long", "tray-wide", "depth"], sheets: ["sheets", "long", "wide"],
    base: ["base"], people: ["people"],
  });

  const OWN_SIZE = "";
  const SHARE = "share";

  /** Whether a volume of the target can be asked for: it is made by volume, or its density is known. */
  const byVolume = (target) => target.size === "volume" || (target.size === "mass" && target.density !== null);

  /** The ways of asking that make sense for a target. */
  const waysOf = (target) => {
    if (target.size === "base") return target.totals.length > 0 ? ["base", "have"] : ["base"];
    const ways = ["make"];
    if (!target.nominal) ways.push("factor");
    if (byVolume(target)) ways.push("tray", "sheets");
    if (target.totals.length > 0) ways.push("have");
    return [...ways, "people"];
  };

  /** What each person may be given: `share` is what the recipe says, or one batch of it. */
  const sharesOf = (target) => {
    const shares = target.perPerson !== null || !target.nominal ? [SHARE] : [];
    return [...shares, ...waysOf(target).filter((way) => ["make", "tray", "sheets"].includes(way))];
  };

  /** The dimensions a target, or one of its totals, can be measured in; its own comes first. */
  const dimensionsOf = (kind, density) => {
    if (density === null || !["mass", "volume"].includes(kind)) return [kind];
    return kind === "mass" ? ["mass", "volume"] : ["volume", "mass"];
  };

  /** The dimensions that what is left of a thing may be given in. */
  const leftDimensions = (target, name) => {
    const totals = target.totals.filter((total) => total.of === name);
    const all = totals.flatMap((total) => dimensionsOf(total.kind, total.density));
    return [...new Set(all)].filter((kind) => totals.every((t) => dimensionsOf(t.kind, t.density).includes(kind)));
  };

  const unitNamed = (symbol, measures) => {
    if (symbol === "drops" || symbol === "pieces") return { symbol, dimension: symbol, per: of(1) };
    const found = measures.units.find((unit) => unit.symbol === symbol);
    if (found) return found;
    throw new Refusal("unknown-unit", `\`${symbol}\` is not a unit known here`, "choose one from the list");
  };

  /** A typed amount above zero in base units, with what it measures. */
  const quantityOf = (typed, symbol, measures) => {
    const { dimension, per } = unitNamed(symbol, measures);
    return { amount: multiply(parsePositive(typed), per), dimension, asked: `${typed.trim()} ${symbol}` };
  };

  /** Inside lengths in mm. */
  const sideOf = (typed, symbol, measures) =>
    multiply(parsePositive(typed, "a length above zero"), unitNamed(symbol, measures).per);

  /** What the reader has left empty of a way's needed blanks, by name. */
  const missing = (way, blanks) => {
    if (way === "have") return blanks.left.some((left) => left.amount.trim()) ? [] : ["left"];
    const sized = way === "sheets" && blanks.paper !== OWN_SIZE ? ["sheets"] : NEEDED[way];
    return sized.filter((name) => !blanks[name].trim());
  };

  /** The way in which one person's share is asked, or the way itself. */
  const innerWay = (blanks) =>
    blanks.ask === "people" && blanks.each !== SHARE ? blanks.each : blanks.ask;

  /**
   * The question that the blanks ask, or null while a needed one is empty. A Refusal where one of them
   * cannot be read.
   */
  const questionOf = (blanks, target, measures) => {
    const ways = new Set([blanks.ask, innerWay(blanks)]);
    if ([...ways].some((way) => missing(way, blanks).length > 0)) return null;
    if (blanks.ask !== "people") return plainQuestion(blanks.ask, blanks, measures);
    const each = blanks.each === SHARE ? null : plainQuestion(blanks.each, blanks, measures);
    return { kind: "people", count: parseCount(blanks.people, "people"), each };
  };

  const plainQuestion = (way, blanks, measures) => {
    switch (way) {
      case "make": return { kind: "make", ...quantityOf(blanks.amount, blanks.unit, measures) };
      case "factor": return { kind: "factor", times: parsePositive(blanks.times, "a factor above zero") };
      case "base": return { kind: "base", ...quantityOf(blanks.base, blanks["base-unit"], measures) };
      case "have": return { kind: "have", left: leftOf(blanks, measures) };
      case "tray": return { kind: "tray", ...trayOf(blanks, measures) };
      default: return { kind: "sheets", ...sheetsOf(blanks, measures) };
    }
  };

  const leftOf = (blanks, measures) =>
    blanks.left
      .filter((left) => left.amount.trim())
      .map((left) => ({ of: left.of, ...quantityOf(left.amount, left.unit, measures) }));

  const trayOf = (blanks, measures) => {
    const [length, width, depth] = ["tray-long", "tray-wide", "depth"].map((side) =>
      sideOf(blanks[side], blanks["tray-unit"], measures));
    return { length, width, depth };
  };

  const sheetsOf = (blanks, measures) => {
    const own = blanks.paper === OWN_SIZE;
    const [length, width] = own
      ? ["long", "wide"].map((side) => sideOf(blanks[side], blanks["size-unit"], measures))
      : paperNamed(blanks.paper, measures);
    return {
      count: parseCount(blanks.sheets, "sheets"),
      length,
      width,
      coats: parseCount(blanks.coats, "coats"),
      allowance: allowanceOf(blanks.extra),
      coverage: blanks.coverage.trim() ? coverageOf(blanks, measures) : null,
    };
  };

  const paperNamed = (name, measures) => {
    if (Object.hasOwn(measures.papers, name)) return measures.papers[name];
    throw new Refusal("size-not-read", `\`${name}\` is not the size of a sheet`, "choose one from the list");
  };

  const coverageOf = (blanks, measures) => {
    const { amount } = quantityOf(blanks.coverage, blanks["coverage-unit"], measures);
    return [amount, amount];
  };

  /** Percent typed, from nothing to 300, as a share. */
  const allowanceOf = (typed) => {
    const share = divide(parseNumber(typed), of(100));
    if (compare(share, of(0)) >= 0n && compare(share, of(3)) <= 0n) return share;
    throw new Refusal("allowance-not-read", `\`${typed}\` is not an allowance`, "write a percent, such as 15");
  };

  const plural = (count, one, many) => `${count} ${count === "1" ? one : many}`;

  /** The question in words, for the page and for paper: `For 350 ml of Working sensitiser`. */
  const phrase = (blanks, target) => {
    const { name } = target;
    const sizes = {
      make: () => `For ${blanks.amount.trim()} ${blanks.unit} of ${name}`,
      factor: () => `For ${blanks.times.trim()} times ${name} as written`,
      tray: () => `For ${name} ${trayWords(blanks)}`,
      sheets: () => `For ${sheetsWords(blanks)} of ${name}`,
      have: () => `For as much ${name} as ${leftWords(blanks, target)} will make`,
      base: () => `For ${blanks.base.trim()} ${blanks["base-unit"]} of ${target.base}: ${name}`,
    };
    if (blanks.ask !== "people") return sizes[blanks.ask]();
    const people = plural(blanks.people.trim(), "person", "people");
    if (blanks.each !== SHARE) return `${sizes[blanks.each]()}, for each of ${people}`;
    return `For ${people}, ${shareWords(target)} of ${name} each`;
  };

  const trayWords = (b) => {
    const [unit, long, wide] = [b["tray-unit"], b["tray-long"].trim(), b["tray-wide"].trim()];
    return `${b.depth.trim()} ${unit} deep in a tray of ${long} × ${wide} ${unit}`;
  };

  const sheetsWords = (b) => {
    const size = b.paper === OWN_SIZE ? `${b.long.trim()} × ${b.wide.trim()} ${b["size-unit"]}` : b.paper;
    const coverage = b.coverage.trim() ? `, ${b.coverage.trim()} ${b["coverage-unit"]} a coat` : "";
    const coats = plural(b.coats.trim(), "coat", "coats");
    return `${plural(b.sheets.trim(), "sheet", "sheets")} of ${size}${coverage}, ${b.extra.trim()} % extra, ${coats}`;
  };

  const leftWords = (blanks, target) =>
    blanks.left
      .filter((left) => left.amount.trim())
      .map((left) => `${left.amount.trim()} ${left.unit} of ${nameOf(left.of, target)}`)
      .join(" and ");

  const nameOf = (id, target) => target.totals.find((total) => total.of === id)?.name ?? id;

  /** One person's share as the recipe says it, in g or ml, or the whole batch. */
  const shareWords = (target) =>
    target.perPerson ? `${exactText(target.perPerson)} ${target.size === "mass" ? "g" : "ml"}` : "one batch";

  /** The other mixtures that a question suits as it stands: other coats of the same sheets, other baths of a tray. */
  const alike = (blanks, target, targets) => {
    const others = targets.filter((each) => each !== target);
    // A coverage that is typed in is that of one coat.
    if (blanks.ask === "sheets" && !blanks.coverage.trim()) return others.filter((each) => each.coverage !== null);
    return blanks.ask === "tray" ? others.filter((each) => isBath(each, targets)) : [];
  };

  /** Poured into a tray: neither brushed on nor a part of something else. */
  const isBath = (target, targets) => {
    const part = targets.some((each) => each !== target && each.mixtures.some(({ id }) => id === target.id));
    return byVolume(target) && target.coverage === null && !part;
  };

  /** Questions as the hash of an address without its `#`: of each, the blanks that matter for what is asked. */
  const toHash = (asked, measures) => {
    const params = new URLSearchParams();
    for (const blanks of asked) for (const [name, value] of entriesOf(blanks)) params.append(name, value);
    if (measures !== "metric") params.append("measures", measures);
    return params.toString();
  };

  const entriesOf = (blanks) => {
    const entries = [["mix", blanks.mix], ["ask", blanks.ask]];
    for (const name of new Set([...BLANKS[blanks.ask], ...BLANKS[innerWay(blanks)]])) {
      const idle = name === "left" || (name === "coverage-unit" && !blanks.coverage.trim());
      if (!idle && blanks[name].trim()) entries.push([name, blanks[name].trim()]);
    }
    const left = blanks.ask === "have" ? blanks.left : [];
    return [...entries, ...left.map((one) => ["left", `${one.of}:${one.amount.trim()}:${one.unit}`])];
  };

  /**
   * The questions that a hash asks, `{asked, measures}`: each `mix` begins one, unless it names the mixture of what
   * stands before the first. Null for a hash that is not the calculator's (`#mix-part-a`), or that says something
   * twice of one mixture.
   */
  const fromHash = (hash) => {
    const text = hash.replace(/^#/, "");
    if (!text.includes("=")) return null;
    const params = new URLSearchParams(text);
    const measures = params.get("measures") ?? "metric";
    params.delete("measures");
    const asked = [];
    for (const [name, value] of params) {
      if (asked.length === 0 || (name === "mix" && "mix" in asked.at(-1))) asked.push({ left: [] });
      const blanks = asked.at(-1);
      if (name === "left") blanks.left.push(leftFrom(value));
      else if (Object.hasOwn(blanks, name)) return null;
      else blanks[name] = value;
    }
    return new Set(asked.map(({ mix }) => mix)).size === asked.length ? { asked, measures } : null;
  };

  const leftFrom = (entry) => {
    const [id, amount = "", unit = ""] = entry.split(":");
    return { of: id, amount, unit };
  };

  root.traysideAsking = Object.freeze({
    BLANKS, OWN_SIZE, SHARE, waysOf, sharesOf, dimensionsOf, leftDimensions, innerWay, missing, questionOf,
    quantityOf, sideOf, phrase, shareWords, alike, toHash, fromHash,
  });
})(globalThis);
