"use strict";
/*
 * Exact numbers: fractions of BigInt, read from what a reader types and written as decimals.
 * Pure: no DOM, no clock. Twin of sitegen/model/quantity.py; rounding to a balance is calc.js.
 */
(function (root) {
  /** Decimals shown of a number that never ends, far below any balance. */
  const PLACES = 12;
  /** Characters of a number that anyone would type. */
  const LONGEST = 200;

  /**
   * What cannot be answered. `code` is that of the Python twin; `message` states the fact, `help` what
   * to write instead, `fixes` whole texts that would be read in place of the one refused.
   */
  class Refusal extends Error {
    constructor(code, message, help, fixes = []) {
      super(message);
      this.name = "Refusal";
      this.code = code;
      this.help = help;
      this.fixes = Object.freeze([...fixes]);
    }
  }

  const gcd = (a, b) => {
    while (b !== 0n) [a, b] = [b, a % b];
    return a < 0n ? -a : a;
  };

  /** The fraction n/d in lowest terms, d > 0 (BigInt or whole Number). */
  const of = (n, d = 1) => {
    let [top, bottom] = [BigInt(n), BigInt(d)];
    if (bottom === 0n) throw new RangeError("a fraction over nothing");
    if (bottom < 0n) [top, bottom] = [-top, -bottom];
    const common = gcd(top, bottom);
    return Object.freeze({ n: top / common, d: bottom / common });
  };

  /** The fraction of the plan's exact text: `7/2`, `40`. */
  const read = (text) => {
    const [top, bottom] = text.split("/");
    return of(top, bottom ?? 1);
  };

  const add = (a, b) => of(a.n * b.d + b.n * a.d, a.d * b.d);
  const subtract = (a, b) => of(a.n * b.d - b.n * a.d, a.d * b.d);
  const multiply = (a, b) => of(a.n * b.n, a.d * b.d);
  const divide = (a, b) => of(a.n * b.d, a.d * b.n);

  /** Negative, zero or positive (BigInt) as a is below, at or above b. */
  const compare = (a, b) => a.n * b.d - b.n * a.d;
  const isPositive = (a) => a.n > 0n;
  const isWhole = (a) => a.d === 1n;
  const least = (values) => values.reduce((a, b) => (compare(b, a) < 0n ? b : a));

  /** The next whole number upwards, a >= 0, as BigInt. */
  const ceiling = (a) => (a.n + a.d - 1n) / a.d;

  /** A decimal, exact where it ends within twelve places, else cut there by rounding half up. */
  const exactText = (value) => {
    const size = value.n < 0n ? -value.n : value.n;
    const whole = (2n * size * 10n ** BigInt(PLACES) + value.d) / (2n * value.d);
    const digits = whole.toString().padStart(PLACES + 1, "0");
    const text = `${digits.slice(0, -PLACES)}.${digits.slice(-PLACES)}`.replace(/\.?0+$/, "");
    return value.n < 0n && text !== "0" ? `-${text}` : text;
  };

  /** Text that `parseNumber` reads back to the very same value: a decimal, else a fraction. */
  const exactNumber = (value) => {
    const text = exactText(value);
    return compare(decimal(text), value) === 0n ? text : `${value.n}/${value.d}`;
  };

  /** The fraction of a plain decimal: `3.5`. */
  const decimal = (text) => {
    const [whole, part = ""] = text.split(".");
    return of(BigInt(whole + part), 10n ** BigInt(part.length));
  };

  const NUMBER = /^-?(?:[0-9]+ [0-9]+\/[0-9]+|[0-9]+\/[0-9]+|[0-9]+(?:\.[0-9]+)?)$/;

  /**
   * An exact number as a reader types it: `12`, `1.5`, `1/2`, `1 1/2`. A Refusal for every other way of
   * writing one, so that no figure is guessed.
   */
  const parseNumber = (typed) => {
    const text = typed.trim();
    if (text.length > LONGEST || !NUMBER.test(text)) throw notANumber(text);
    if (/^-?0[0-9]/.test(text)) {
      const plain = text.replace(/^(-?)0+(?=[0-9])/, "$1");
      throw new Refusal("number-leading-zero", `\`${text}\` starts with a zero`, `write \`${plain}\``, [plain]);
    }
    if (/\/0+$/.test(text)) {
      throw new Refusal("number-not-read", `\`${text}\` divides by zero`, "write a number such as `1/2`");
    }
    const parts = text.replace(/^-/, "").split(" ");
    const total = parts.map((part) => (part.includes("/") ? read(part) : decimal(part))).reduce(add);
    return text.startsWith("-") ? of(-total.n, total.d) : total;
  };

  const notANumber = (text) => {
    if (text.length > LONGEST) {
      const says = `\`${text.slice(0, 20)}…\` is too long for a number`;
      return new Refusal("number-not-read", says, "write a number such as `12`, `1.5` or `1/2`");
    }
    if (/^[0-9]{1,3}(,[0-9]{3})+(\.[0-9]+)?$/.test(text)) return twoReadings(text);
    if (/^[0-9]+,[0-9]+$/.test(text)) {
      const point = text.replace(",", ".");
      return new Refusal("number-comma", `\`${text}\` has a comma`, `write \`${point}\``, [point]);
    }
    if (/^-?[0-9]+(\.[0-9]+)?[eE][+-]?[0-9]{1,2}$/.test(text)) {
      const plain = exactText(withExponent(text));
      const says = `\`${text}\` is written with an exponent`;
      return new Refusal("number-exponent", says, `write \`${plain}\``, [plain]);
    }
    if (/^[0-9]+:[0-9]+(:[0-9]+)?$/.test(text)) return colon(text);
    if (/^\.[0-9]+$/.test(text)) {
      return new Refusal("number-not-read", `\`${text}\` has nothing before its point`, `write \`0${text}\``, [`0${text}`]);
    }
    const says = text ? `\`${text}\` is not a number` : "the number is missing";
    return new Refusal("number-not-read", says, "write a number such as `12`, `1.5` or `1/2`");
  };

  const twoReadings = (text) => {
    const fixes = [text.replaceAll(",", "")];
    // Beside a full stop the comma can only be thousands.
    if (text.split(",").length === 2 && !text.includes(".")) fixes.push(text.replace(",", "."));
    const help = `write ${fixes.map((fix) => `\`${fix}\``).join(" or ")}`;
    const says = `the comma in \`${text}\` can be read in two ways`;
    return new Refusal("number-two-readings", says, help, fixes.filter((fix) => NUMBER.test(fix)));
  };

  const colon = (text) => {
    const [first, second] = text.split(":");
    const rest = BigInt(second) - BigInt(first);
    const help = `write \`${first}+${second}\`${rest > 0n ? ` or \`${first}+${rest}\`` : ""}`;
    return new Refusal("ratio-two-readings", `\`${text}\` can be read in two ways`, help);
  };

  const withExponent = (text) => {
    const [number, exponent] = text.toLowerCase().split("e");
    const power = 10n ** BigInt(exponent.replace(/^[+-]/, ""));
    const value = decimal(number);
    return exponent.startsWith("-") ? of(value.n, value.d * power) : of(value.n * power, value.d);
  };

  /** A number above nothing; `example` is what the refusal tells to write. */
  const parsePositive = (typed, example = "an amount above zero") => {
    const value = parseNumber(typed);
    if (isPositive(value)) return value;
    throw new Refusal("quantity-not-positive", `\`${typed.trim()}\` is not more than nothing`, `write ${example}`);
  };

  /** A whole number above nothing; `what` names the things counted. */
  const parseCount = (typed, what) => {
    const value = parseNumber(typed);
    if (isPositive(value) && isWhole(value)) return value;
    const says = `\`${typed.trim()}\` is not a number of ${what}`;
    throw new Refusal("count-not-whole", says, `write a whole number of ${what}`);
  };

  root.traysideRatio = Object.freeze({
    Refusal, of, read, add, subtract, multiply, divide, compare, isPositive, isWhole, least, ceiling,
    exactText, exactNumber, parseNumber, parsePositive, parseCount,
  });
})(globalThis);
