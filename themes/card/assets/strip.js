"use strict";
/*
 * Test strips: bands of rising exposure, when the card moves, and the time a chosen band stands for. Exact
 * fractions of seconds. Pure: no DOM, no clock. Twin of sitegen/compute/strip.py: the same codes and words.
 */
(function (root) {
  const { Refusal, add, compare, divide, exactText, isPositive, multiply, of, parseCount, subtract } = root.traysideRatio;
  const { factorOfStops, middleInStops, parseStops, readTime, shownSeconds } = root.traysideExpose;

  const FEWEST = 2n;
  const MOST = 30n;
  const SURE_HAND = 10n; // seconds below which a slip of one is more than a tenth
  const NOTHING = of(0);

  /** How bands follow each other: by `seconds` more each, or by `stops` more each; the other is null. */
  const readRise = (typed, unit) =>
    unit === "stop" ? { stops: parseStops(typed), seconds: null } : { stops: null, seconds: readTime(typed, unit, true)[0] };

  const secondsAfter = (first, rise, steps) =>
    rise.seconds ? add(first, multiply(rise.seconds, steps)) : multiply(first, factorOfStops(multiply(rise.stops, steps)));

  const sensible = (rise, count) => {
    if (!isPositive(rise.seconds ?? rise.stops)) {
      const says = "a strip rises by equal times or by equal parts of a stop";
      throw new Refusal("ask-one-way", says, "give one of the two, above zero");
    }
    if (count < FEWEST || count > MOST) {
      throw new Refusal("strip-length", `a strip of ${count} bands is not cut`, `ask for ${FEWEST} to ${MOST} bands`);
    }
    if (rise.stops && compare(multiply(rise.stops, of(count)), of(20)) > 0n) {
      const says = "the strip runs over a millionfold";
      throw new Refusal("stops-out-of-reach", says, "take fewer bands or a smaller step");
    }
  };

  /**
   * A strip whose shortest band gets `first` seconds. Its bands are `{number, seconds, stretch, bareAt}` in
   * whole seconds: what each gets, how much more than the band before, and when a card that is drawn back
   * bares it.
   */
  const stripFrom = (first, rise, count) => {
    sensible(rise, count);
    const steps = Array.from({ length: Number(count) }, (_, at) => of(at));
    const seconds = steps.map((step) => {
      const { n, d } = shownSeconds(secondsAfter(first, rise, step));
      return n / d;
    });
    const last = seconds.at(-1);
    const bands = seconds.map((each, at) => ({
      number: at + 1, seconds: each, stretch: at === 0 ? each : each - seconds[at - 1], bareAt: last - each,
    }));
    const shortest = bands.map((band) => band.stretch).reduce((a, b) => (b < a ? b : a));
    if (shortest < 1n) {
      const says = "two bands of the strip are less than a second apart";
      throw new Refusal("strip-too-fine", says, "take larger steps, or dim the light and lengthen all times");
    }
    return { first, rise, bands, warnings: slips(shortest) };
  };

  const slips = (shortest) => {
    if (shortest >= SURE_HAND) return [];
    const percent = (200n + shortest) / (2n * shortest); // of one second, halves up
    return [`the shortest stretch is ${shortest} s: a slip of one second is ${percent} % of it`];
  };

  /** A strip around a time, or around the middle of a range: in stops where the bands rise by stops. */
  const stripAbout = ([low, high], rise, count) => {
    sensible(rise, count);
    const middle = rise.seconds ? divide(add(low, high), of(2)) : middleInStops(low, high);
    if (count % 2n === 0n) {
      const says = `${count} bands have no middle one`;
      throw new Refusal("strip-without-middle", says, `ask for ${count - 1n} or ${count + 1n} bands`);
    }
    const below = count / 2n;
    const first = secondsAfter(middle, rise, subtract(NOTHING, of(below)));
    if (!isPositive(first)) {
      const steps = `${below} steps of ${exactText(rise.seconds)} s`;
      const says = `${steps} below ${exactText(middle)} s are less than nothing`;
      throw new Refusal("strip-below-nothing", says, "take smaller or fewer steps, or steps of a stop");
    }
    return stripFrom(first, rise, count);
  };

  /** The exact time of a place on the strip: 1 is the first band, 1 1/2 lies between it and the next. */
  const secondsAt = (strip, place) => secondsAfter(strip.first, strip.rise, subtract(place, of(1)));

  const countOf = (typed) => parseCount(typed, "bands").n;

  root.traysideStrip = Object.freeze({ countOf, readRise, secondsAt, stripAbout, stripFrom });
})(globalThis);
