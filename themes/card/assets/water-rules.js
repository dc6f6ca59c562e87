"use strict";
/*
 * Water: whether a rule holds for a water, what figures it gives, and both in words. Pure; twin of
 * sitegen/compute/water.py and of the words in sitegen/render/water.py. Units, limits and factors come from the page.
 */
(function (root) {
  const { Refusal, add, compare, divide, exactText, multiply, of, parseNumber, read } = root.traysideRatio;
  const NUMBER = String.raw`-?(?:[0-9]+ [0-9]+\/[0-9]+|[0-9]+\/[0-9]+|[0-9]+(?:\.[0-9]+)?)`;
  const RANGE = new RegExp(`^(${NUMBER})\\s*(?:-|–|to )\\s*(${NUMBER})$`);
  const PH_MOST = of(14);

  /** One figure or a range, as two exact numbers. */
  const parseRange = (typed) => {
    const text = typed.trim().replace(/\s+/g, " ");
    const both = RANGE.exec(text);
    const [low, high] = both ? [parseNumber(both[1]), parseNumber(both[2])] : [parseNumber(text), parseNumber(text)];
    if (compare(low, high) > 0n) {
      const turned = `${both[2]}-${both[1]}`;
      throw new Refusal("range-backwards", `the range \`${both[1]}-${both[2]}\` runs backwards`, `write \`${turned}\``, [turned]);
    }
    return [low, high];
  };

  const rangeText = (low, high) => (compare(low, high) === 0n ? exactText(low) : `${exactText(low)}–${exactText(high)}`);

  /** What a reader typed for a measure, in the unit chosen: `{low, high, written}`, in the measure's base. */
  const readingOf = (measure, typed, symbol, measures) => {
    const [low, high] = parseRange(measure === "pH" ? typed.trim().replace(/^pH/, "") : typed);
    if (measure === "pH") {
      if (low.n < 0n || compare(high, PH_MOST) > 0n) {
        throw new Refusal("bad-ph", `\`${typed}\` is not a pH`, "write a figure or a range from 0 to 14: `7.4-7.8`");
      }
      return { low, high, written: rangeText(low, high) };
    }
    if (low.n < 0n) {
      const says = `\`${typed}\` is less than nothing`;
      throw new Refusal("water-below-nothing", says, `write such as \`${measures[measure].example}\``);
    }
    const per = read(measures[measure].units.find((unit) => unit.symbol === symbol).per);
    return { low: multiply(low, per), high: multiply(high, per), written: `${rangeText(low, high)} ${symbol}` };
  };

  /** A water of the page's data, its numbers exact. */
  const readWater = ({ id, name, readings }) => ({
    id,
    name,
    readings: Object.fromEntries(
      Object.entries(readings).map(([m, [low, high, written]]) => [m, { low: read(low), high: read(high), written }]),
    ),
  });

  /** always, holds, at times, unknown or below. */
  const state = (item, water) => {
    if (item.measure === null || item.over === null) return "always";
    const reading = water.readings[item.measure];
    if (!reading) return "unknown";
    const limit = read(item.over[0]);
    if (compare(reading.high, limit) <= 0n) return "below";
    return compare(reading.low, limit) > 0n ? "holds" : "at times";
  };

  /** To hundredths below one, to tenths below ten, to ones above; half up. */
  const rounded = (value) => {
    const places = compare(value, of(1)) < 0n ? 2 : compare(value, of(10)) < 0n ? 1 : 0;
    const { n, d } = add(multiply(value, of(2n * 10n ** BigInt(places))), of(1));
    const digits = (n / d / 2n).toString().padStart(places + 1, "0");
    if (places === 0) return digits;
    return `${digits.slice(0, -places)}.${digits.slice(-places)}`.replace(/0+$/, "").replace(/\.$/, "");
  };

  const fill = (template, words) => template.replace(/\{(\w+)\}/g, (_, name) => words[name]);

  const ends = (low, high) => (low === high ? low : `${low}–${high}`);

  /** So many times a reading, rounded at both ends. */
  const amountText = ({ low, high }, per) => ends(...[low, high].map((end) => rounded(multiply(end, read(per)))));

  /** A reading in another unit, rounded. */
  const inUnit = ({ low, high }, { symbol, per }) =>
    `${ends(...[low, high].map((end) => rounded(divide(end, read(per)))))} ${symbol}`;

  const amountOf = (sum, water) => {
    const reading = water.readings[sum.measure];
    return reading ? amountText(reading, sum.per) : null;
  };

  const stateWords = (item, water, words) => {
    const name = item.measure ? words.measures[item.measure].name : "";
    const written = water.readings[item.measure]?.written ?? "";
    return fill(words.states[state(item, water)], { name, written, over: item.over?.[1] ?? "" });
  };

  const figureWords = (item, water, words) => {
    const say = (kind, missing) => {
      const sum = item[kind];
      const amount = amountOf(sum, water);
      return amount === null ? words.figures[missing] : fill(words.figures[kind], { ...sum, amount, aim: words.aim });
    };
    const found = [];
    if (item.acid) found.push(say("acid", water.readings.hardness ? "acid hardness" : "acid unknown"));
    if (item.lost) found.push(say("lost", "lost unknown"));
    return found;
  };

  root.traysideWater = Object.freeze({
    amountText, figureWords, inUnit, parseRange, readWater, readingOf, rounded, state, stateWords,
  });
})(globalThis);
