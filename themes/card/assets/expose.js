"use strict";
/*
 * Exposure: what a stop, a lamp's distance, the light and an earlier layer do to a time. Exact fractions of
 * seconds; what is no fraction is kept to forty figures, rounded as the Python rounds it, so that no shown
 * second differs. Pure: no DOM, no clock. Twin of sitegen/compute/exposure.py: the same codes and words.
 */
(function (root) {
  const {
    Refusal, add, compare, divide, exactText, isPositive, multiply, of, parseNumber, subtract,
  } = root.traysideRatio;
  const { toFigures, toStep } = root.traysideCalc;

  const FIGURES = 40;
  const MOST_STOPS = of(20);
  const FAR_ENOUGH = of(5); // widths of the lamp
  const ONE = of(1);
  const HALF = of(1, 2);
  const NOTHING = of(0);
  /** Seconds of each unit that a time may be typed in. */
  const TIMES = Object.freeze({ s: of(1), min: of(60), h: of(3600) });

  const SMALL_SOURCE =
    "inverse square holds for a small lamp far off: not close to a wide bank of tubes or a panel, and not for the sun; " +
    "make a strip after a lamp was moved";
  const MEASURED_IN_UV =
    "the density counts as the printing light sees it: the eye, or a visual densitometer, may be far off in ultraviolet";

  const size = (value) => (value.n < 0n ? of(-value.n, value.d) : value);
  const square = (value) => multiply(value, value);

  // Powers and logarithms, in whole numbers of 10^-80.

  const SCALE = 10n ** 80n;
  const UP = of(4, 3);
  const DOWN = of(2, 3);

  /** The logarithm of a fraction near one: 2 artanh((x - 1) / (x + 1)). */
  const nearLog = ({ n, d }) => {
    const z = ((n - d) * SCALE) / (n + d);
    const zz = (z * z) / SCALE;
    let [sum, term] = [0n, z];
    for (let i = 1n; term !== 0n; i += 2n) {
      sum += term / i;
      term = (term * zz) / SCALE;
    }
    return 2n * sum;
  };

  const LOG_TWO = nearLog(of(2));

  /** The natural logarithm of a fraction above nothing. */
  const log = (value) => {
    let [near, halvings] = [value, 0n];
    for (; compare(near, UP) >= 0n; halvings += 1n) near = multiply(near, HALF);
    for (; compare(near, DOWN) < 0n; halvings -= 1n) near = multiply(near, of(2));
    return nearLog(near) + halvings * LOG_TWO;
  };

  /** e to that many 10^-80, as a fraction. */
  const exponential = (x) => {
    const doublings = x / LOG_TWO;
    const rest = x - doublings * LOG_TWO;
    let [sum, term] = [0n, SCALE];
    for (let i = 1n; term !== 0n; i += 1n) {
      sum += term;
      term = (term * rest) / (SCALE * i);
    }
    return doublings < 0n ? of(sum, SCALE * 2n ** -doublings) : of(sum * 2n ** doublings, SCALE);
  };

  /** Forty significant figures, halves to even: as Python's decimals round. */
  const figured = (value) => {
    if (value.n === 0n) return value;
    const { n, d } = size(value);
    let places = BigInt(FIGURES + String(d).length - String(n).length);
    const scaled = () => (places < 0n ? [n, d * 10n ** -places] : [n * 10n ** places, d]);
    if (scaled()[0] >= scaled()[1] * 10n ** BigInt(FIGURES)) places -= 1n;
    const [top, bottom] = scaled();
    let whole = top / bottom;
    const rest = 2n * (top % bottom);
    if (rest > bottom || (rest === bottom && whole % 2n === 1n)) whole += 1n;
    const signed = value.n < 0n ? -whole : whole;
    return places < 0n ? of(signed * 10n ** -places) : of(signed, 10n ** places);
  };

  const power = (base, exponent) => {
    const { n, d } = figured(exponent);
    return figured(exponential((log(figured(base)) * n) / d));
  };

  const floor = ({ n, d }) => (n < 0n ? -((-n + d - 1n) / d) : n / d);

  /** Two to the power of the stops: exact for whole stops, else to forty figures. */
  const factorOfStops = (stops) => {
    const whole = floor(stops);
    const part = subtract(stops, of(whole));
    const doubled = whole < 0n ? of(1, 2n ** -whole) : of(2n ** whole);
    return part.n === 0n ? doubled : multiply(doubled, power(of(2), part));
  };

  /** How many stops a factor is, to a hundredth, halves away from nothing. */
  const stopsOfFactor = (factor) => {
    const [top, bottom] = [log(figured(factor)), LOG_TWO].map((each) => figured(of(each, SCALE)));
    const ratio = figured(divide(top, bottom));
    const hundredths = toStep(size(ratio), of(1, 100));
    return ratio.n < 0n ? subtract(NOTHING, hundredths) : hundredths;
  };

  const rootOf = (whole) => {
    let [low, high] = [0n, whole + 1n];
    while (high - low > 1n) {
      const middle = (low + high) / 2n;
      if (middle * middle <= whole) low = middle;
      else high = middle;
    }
    return low;
  };

  /** The time as many stops above `low` as below `high`: exact where it is a fraction. */
  const middleInStops = (low, high) => {
    const product = multiply(low, high);
    const found = of(rootOf(product.n), rootOf(product.d));
    return compare(square(found), product) === 0n ? found : power(product, HALF);
  };

  // What is typed.

  const RANGE = /^(-?[0-9][0-9./ ]*?)\s*(?:-|–|to )\s*(-?[0-9][0-9./ ]*)$/;

  /** A time above nothing, or a range of them, as `[low, high]` seconds; `single` refuses ranges. */
  const readTime = (typed, unit, single = false) => {
    const text = typed.trim().replace(/\s+/g, " ");
    const match = RANGE.exec(text);
    const [from, to] = match ? [match[1], match[2]] : [text, text];
    const [low, high] = [from, to].map(parseNumber);
    if (compare(low, high) > 0n) {
      throw new Refusal("range-backwards", `the range \`${from}-${to}\` runs backwards`, `write \`${to}-${from}\``);
    }
    if (!isPositive(low)) {
      throw new Refusal("quantity-not-positive", `\`${text} ${unit}\` is not more than nothing`, "write an amount above zero");
    }
    if (single && compare(low, high) !== 0n) {
      const says = `\`${text} ${unit}\` is a range; one figure is needed here`;
      throw new Refusal("range-not-here", says, "write the one figure the amounts were weighed for");
    }
    return [low, high].map((each) => multiply(each, TIMES[unit]));
  };

  /** Stops more or less: `1/3`, `+1 1/2`, `-1/2 stop`. */
  const parseStops = (typed) => {
    const stops = parseNumber(typed.trim().replace(/stops?$/, "").trim().replace(/^\+/, ""));
    if (compare(size(stops), MOST_STOPS) <= 0n) return stops;
    throw new Refusal(
      "stops-out-of-reach", `\`${typed.trim()}\` is more than a millionfold`, "write stops, such as `1/3` or `-1`",
    );
  };

  // What changes: `{factor, warnings}`.

  const byStops = (stops) => ({ factor: factorOfStops(stops), warnings: [] });

  /** The lamp moved (mm); `source` is small, wide or sun, `width` that of its shining face, or null. */
  const byLamp = (source, was, now, width) => {
    if (source === "sun") {
      throw new Refusal(
        "sun-has-no-distance", "the sun is as far off wherever the frame stands", "make a test strip in the light there is",
      );
    }
    if (source === "wide" && width === null) {
      throw new Refusal(
        "lamp-width-missing", "how far tubes or a panel can be trusted depends on their width",
        "measure across the whole shining face",
      );
    }
    return byDistance(was, now, width);
  };

  const byDistance = (was, now, width) => {
    const factor = square(divide(now, was));
    if (width === null) return { factor, warnings: [SMALL_SOURCE] };
    const near = compare(was, now) < 0n ? was : now;
    const cm = (length) => exactText(divide(length, of(10)));
    if (compare(near, width) < 0n) {
      const says = `the lamp is ${cm(width)} cm wide and ${cm(near)} cm off: so near, its light does not fall with the ` +
        "square of the distance";
      throw new Refusal("lamp-too-wide", says, "make a test strip at the new distance");
    }
    if (compare(near, multiply(FAR_ENOUGH, width)) >= 0n) return { factor, warnings: [] };
    const radius = square(multiply(width, HALF));
    const disk = divide(add(square(now), radius), add(square(was), radius));
    const off = toStep(multiply(size(subtract(divide(factor, disk), ONE)), of(100)), of(1, 10));
    const side = compare(factor, disk) > 0n ? "long" : "short";
    const warning = `nearer than five times the lamp's width, inverse square is too ${side}: by ${exactText(off)} % for ` +
      "an even disk of that width; make a strip";
    return { factor, warnings: [warning] };
  };

  /** The same meter read `was` and reads `now`, in a unit that doubles with the light. */
  const byLight = (was, now) => {
    if (isPositive(was) && isPositive(now)) return { factor: divide(was, now), warnings: [] };
    throw new Refusal(
      "quantity-not-positive", "a meter that reads nothing says nothing", "write two readings above zero",
    );
  };

  const layer = (factor, words, ...warnings) => {
    if (compare(factor, ONE) >= 0n) return { factor, warnings };
    throw new Refusal(
      "layer-adds-light", `${words}: a layer holds light back`, "write what it takes more than bare paper, the bare paper first",
    );
  };

  const throughStops = (typed) => {
    const words = `${typed.trim()} stops`;
    return layer(factorOfStops(parseStops(words)), words);
  };

  const throughDensity = (typed) => {
    const density = parseNumber(typed);
    if (compare(density, NOTHING) >= 0n && compare(density, of(5)) <= 0n) {
      return layer(power(of(10), density), `density ${typed.trim()}`, MEASURED_IN_UV);
    }
    const says = `\`density ${typed.trim()}\` is no layer's density`;
    throw new Refusal("density-out-of-reach", says, "write one of 0 to 5");
  };

  /** The times of two strips that gave one tone; `words` is how both were typed. */
  const throughTimes = (bare, through, words) => {
    const factor = divide(through, bare);
    return layer(factor, `${exactText(stopsOfFactor(factor))} stops, ${words}`);
  };

  /** A camera film's time from the metered one; unchanged up to one second. */
  const filmTime = (seconds, exponent) => {
    if (compare(exponent, ONE) < 0n || compare(exponent, of(2)) > 0n) {
      const says = `\`${exactText(exponent)}\` is no film's power`;
      throw new Refusal("power-out-of-reach", says, "write the maker's figure, such as `1.31`");
    }
    return compare(seconds, ONE) <= 0n ? seconds : power(seconds, exponent);
  };

  // What is shown.

  /** Whole seconds, halves up; two figures below one second, so that a time never becomes none. */
  const shownSeconds = (seconds) =>
    isPositive(seconds) && compare(seconds, ONE) < 0n ? toFigures(seconds, 2) : toStep(seconds, ONE);

  /** Seconds as a darkroom clock is read: `45 s`, `12'42`, `1 h 00'05`. */
  const clock = (seconds) => {
    const shown = shownSeconds(seconds);
    if (compare(shown, of(60)) < 0n) return `${exactText(shown)} s`;
    const two = (whole) => String(whole).padStart(2, "0");
    const [minutes, rest] = [shown.n / 60n, shown.n % 60n];
    const hours = minutes / 60n;
    return hours > 0n ? `${hours} h ${two(minutes % 60n)}'${two(rest)}` : `${minutes}'${two(rest)}`;
  };

  /** A time or a range of them: `5'00 to 10'00`. */
  const clocks = ([low, high]) => {
    const [from, to] = [low, high].map(clock);
    return from === to ? from : `${from} to ${to}`;
  };

  root.traysideExpose = Object.freeze({
    TIMES, byLamp, byLight, byStops, clock, clocks, factorOfStops, filmTime, middleInStops, parseStops, readTime,
    shownSeconds, stopsOfFactor, throughDensity, throughStops, throughTimes,
  });
})(globalThis);
