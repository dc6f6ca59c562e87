"use strict";
/*
 * Baths over a run of prints: fillings, what is mixed in all, and topping up. Pure: no DOM; exact fractions.
 * Twin of sitegen/compute/needed.py: the same codes, the same words.
 */
(function (root) {
  const { Refusal, add, ceiling, compare, divide, multiply, of, subtract } = root.traysideRatio;

  const UNTESTED = "a capacity found with factory paper does not hold untested for hand-coated sheets: "
    + "they can carry far more metal";
  const AGED = "its keeping time ends before it is spent: mix each filling when the one before is thrown out";

  const whole = (value) => of(value.n / value.d); // value >= 0
  const least = (values) => values.reduce((a, b) => (compare(b, a) < 0n ? b : a));

  /**
   * A bath of `volume` ml for `prints` of `area` mm² over `minutes` (or null), of a `capacity` in mm² a ml and
   * with a keeping time `keeps` in minutes (or null each).
   */
  const bath = ({ volume, prints, area, minutes, capacity, keeps }) => {
    const byUse = capacity === null ? prints : printsByUse({ volume, area, capacity });
    const byAge = printsByAge({ prints, minutes, keeps });
    const lasts = least([byUse, byAge, prints]);
    const fillings = of(ceiling(divide(prints, lasts)));
    const toppedUp = capacity !== null && compare(byAge, prints) >= 0n;
    const perPrint = toppedUp ? divide(area, capacity) : null;
    const aged = compare(byAge, least([byUse, prints])) < 0n;
    return {
      lasts,
      fillings,
      replaced: multiply(volume, fillings),
      perPrint,
      replenished: toppedUp ? add(volume, multiply(perPrint, subtract(prints, of(1)))) : null,
      warnings: [...(capacity === null ? [] : [UNTESTED]), ...(aged ? [AGED] : [])],
    };
  };

  const printsByUse = ({ volume, area, capacity }) => {
    const prints = whole(divide(multiply(volume, capacity), area));
    if (compare(prints, of(1)) >= 0n) return prints;
    const says = "one filling is spent before the first print is done";
    throw new Refusal("bath-too-small", says, `fill the tray with ${ceiling(divide(area, capacity))} ml at least`);
  };

  /** Prints within its keeping time, when they follow each other evenly. */
  const printsByAge = ({ prints, minutes, keeps }) => {
    if (keeps === null || minutes === null || compare(keeps, minutes) >= 0n) return prints;
    const some = whole(divide(multiply(prints, keeps), minutes));
    return compare(some, of(1)) < 0n ? of(1) : some;
  };

  root.traysideBaths = Object.freeze({ bath });
})(globalThis);
