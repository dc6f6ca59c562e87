"use strict";
/*
 * Dilution: by parts (1+9), and from one strength to another. Pure: no DOM; exact fractions throughout.
 * Twin of sitegen/compute/dilute.py and model/dilution.py: the same codes, the same words. Pairs are [low, high].
 */
(function (root) {
  const { Refusal, add, compare, divide, isPositive, multiply, of, parseNumber, parsePositive, subtract } =
    root.traysideRatio;

  const MAKE_UP = "make up to the final volume: the diluent is what is left, not a measure of its own";
  const NOT_ADDED =
    "parts by volume: strong solutions and alcohol shrink when mixed, so the total is nearly this";

  /** Which kind of strength each unit is, and how much of that kind's unit it holds. */
  const STRENGTHS = Object.freeze({
    "% w/v": { per: "g/l", times: of(10) },
    "g/l": { per: "g/l", times: of(1) },
    "% v/v": { per: "v/v", times: of(1) },
    "% w/w": { per: "w/w", times: of(1) },
    "mol/l": { per: "mol/l", times: of(1) },
  });

  /** `1+9`: parts of stock and of diluent. `1:10` is refused with both its readings. */
  const parseDilution = (typed) => {
    const match = /^\s*([^+]+?)\s*\+\s*([^+]+?)\s*$/.exec(typed);
    if (!match) {
      if (typed.includes(":")) parseNumber(typed); // its refusal names both readings
      const says = `\`${typed.trim()}\` is not a dilution`;
      throw new Refusal("bad-dilution", says, "write parts of stock and parts of water, such as `1+9`");
    }
    const [stock, diluent] = match.slice(1).map(parseNumber);
    if (isPositive(stock) && isPositive(diluent)) return { stock, diluent };
    throw new Refusal("bad-dilution", `\`${typed.trim()}\` has a part of nothing`, "write parts such as `1+9`");
  };

  /**
   * A strength as typed: `{value: [low, high], per, written}` in g/l, mol/l, ml per 100 ml or g per 100 g.
   * A density (g/ml) turns percent by weight, a molar mass (g/mol) turns moles, into grams per litre.
   */
  const concentration = (typed, unit, { density = null, molarMass = null } = {}) => {
    const { per, times } = STRENGTHS[unit];
    const number = parsePositive(typed, "a strength above zero");
    const written = `${typed.trim()} ${unit}`;
    if (["v/v", "w/w"].includes(per) && compare(number, of(100)) > 0n) {
      const says = `\`${written}\` is more than the whole`;
      throw new Refusal("percent-over-100", says, "write a percent of at most 100");
    }
    const value = multiply(number, times);
    if (per === "w/w" && density) return single(multiply(multiply(value, of(10)), density), "g/l", written);
    if (per === "mol/l" && molarMass) return single(multiply(value, molarMass), "g/l", written);
    return single(value, per, written);
  };

  const single = (value, per, written) => ({ value: [value, value], per, written });

  /** `asked` is `{amount, dimension, have}`: base units made, or of stock that is there. */
  const byParts = ({ stock, diluent }, asked) => {
    const whole = add(stock, diluent);
    const makes = asked.have ? divide(multiply(asked.amount, whole), stock) : asked.amount;
    const taken = divide(multiply(makes, stock), whole);
    const warnings = asked.dimension === "mass" ? [] : [NOT_ADDED];
    return diluted([taken, taken], [makes, makes], { dimension: asked.dimension, makeUp: false, warnings });
  };

  /** Stock of one strength brought to another; a stock known as a range gives ranges. */
  const toStrength = (stock, to, asked) => {
    if (stock.per !== to.per) {
      const says = `\`${stock.written}\` and \`${to.written}\` are not strengths of one kind`;
      throw new Refusal("strengths-differ", says, bridge(new Set([stock.per, to.per])));
    }
    const [weakest, strongest] = stock.value;
    const wanted = to.value[1];
    if (compare(wanted, weakest) > 0n) {
      const says = `\`${to.written}\` is stronger than the stock, \`${stock.written}\``;
      throw new Refusal("stronger-than-stock", says, "ask for a strength below the stock's, or mix a stronger stock");
    }
    const byWeight = stock.per === "w/w";
    if (byWeight !== (asked.dimension === "mass")) throw otherWay(stock, to, asked, byWeight);
    const rest = { dimension: asked.dimension, makeUp: !byWeight, warnings: byWeight ? [] : [MAKE_UP] };
    if (asked.have) {
      const makes = [weakest, strongest].map((value) => divide(multiply(asked.amount, value), wanted));
      return diluted([asked.amount, asked.amount], makes, rest);
    }
    const taken = [strongest, weakest].map((value) => divide(multiply(asked.amount, wanted), value));
    return diluted(taken, [asked.amount, asked.amount], rest);
  };

  const otherWay = (stock, to, asked, byWeight) => {
    const says = `\`${asked.asked}\` is a ${asked.dimension}, and \`${stock.written}\` to \`${to.written}\` is `
      + `diluted by ${byWeight ? "weight" : "volume"}`;
    return byWeight
      ? new Refusal("dilute-by-weight", says, "ask for a mass, or give the stock's density and a strength in % w/v")
      : new Refusal("dilute-by-volume", says, "ask for a volume, such as 500 ml");
  };

  const bridge = (kinds) => {
    if (kinds.has("w/w") && !kinds.has("v/v")) {
      return "give the stock's density, and its substance where moles are asked for";
    }
    if (!kinds.has("w/w") && !kinds.has("v/v")) return "name the substance, so that moles can be weighed";
    return "write both as % w/v, both as % v/v or both as % w/w";
  };

  /** Of two ranges one is a single figure: what is asked for, or the stock that is there. */
  const diluted = (stock, makes, rest) => ({
    stock,
    diluent: [subtract(makes[0], stock[1]), subtract(makes[1], stock[0])],
    makes,
    ...rest,
  });

  root.traysideDiluting = Object.freeze({ STRENGTHS, parseDilution, concentration, byParts, toStrength });
})(globalThis);
