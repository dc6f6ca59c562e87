"use strict";
/*
 * Shrink: what paper has lost between two measurements, and the side of a film that falls on it then. Exact
 * fractions of millimetres. Pure: no DOM, no clock. Twin of sitegen/compute/shrink.py: the same codes and words.
 */
(function (root) {
  const { Refusal, compare, divide, exactText, multiply, of, subtract } = root.traysideRatio;
  const { toStep } = root.traysideCalc;

  const NOTHING = of(0);
  const MOST = of(1, 10);
  const TENTH = of(1, 10);
  const HUNDREDTH = of(1, 100);

  const inPercent = (share, step) => exactText(toStep(multiply(share, of(100)), step));

  /** The share that a length has lost; a Refusal where it has grown, and over a tenth. */
  const measuredShrink = (before, after) => {
    const share = divide(subtract(before, after), before);
    if (compare(share, NOTHING) < 0n) {
      throw new Refusal(
        "paper-grew",
        "the paper has grown, not shrunk: it is still damp, or the figures are in each other's place",
        "dry the sheet, measure again, and write what it was before what it is now",
      );
    }
    if (compare(share, MOST) > 0n) {
      throw new Refusal("shrink-too-much", `no paper shrinks by ${inPercent(share, TENTH)} %`, "measure again, in one unit");
    }
    return share;
  };

  /** A film's side after a shrink. */
  const fittedSide = (side, share) => multiply(side, subtract(of(1), share));

  const millimetres = (length) => exactText(toStep(length, TENTH));
  const percent = (share) => inPercent(share, HUNDREDTH);

  root.traysideShrink = Object.freeze({ measuredShrink, fittedSide, millimetres, percent });
})(globalThis);
