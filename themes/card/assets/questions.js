"use strict";
/*
 * Questions: what is asked of each mixture of a recipe, as the blanks its reader left, and the answer to all of them.
 * A mixture has one question. No DOM; the sums are together.js, the blanks asking.js.
 */
(function (root) {
  const { Refusal } = root.traysideRatio;
  const { factorOf } = root.traysideCalc;
  const { together } = root.traysideTogether;
  const { questionOf } = root.traysideAsking;

  const unlessRefused = (action, refused) => {
    try {
      return action();
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      return refused(error);
    }
  };

  class Questions {
    constructor(targets, things, measures) {
      Object.assign(this, { targets, things, measures, held: new Map() });
    }

    /** The blanks of the question about a mixture, by its local id; undefined where none were filled in. */
    of(local) {
      return this.held.get(local);
    }

    hold(blanks) {
      this.held.set(blanks.mix, blanks);
    }

    drop(local) {
      this.held.delete(local);
    }

    clear() {
      this.held.clear();
    }

    /**
     * `{asked, refused, all, metric}`: the questions as `{target, question, blanks}`, those that are refused as
     * `{target, error}`, and the answer to all, or null; in metric measures, too, where others are chosen.
     */
    answer(system) {
      const [asked, refused] = [[], []];
      for (const target of this.targets.filter(({ local }) => this.held.has(local))) {
        const blanks = this.of(target.local);
        unlessRefused(() => {
          const question = questionOf(blanks, target, this.measures);
          if (question === null) return;
          factorOf(question, target);
          asked.push({ target, question, blanks });
        }, (error) => refused.push({ target, error }));
      }
      return unlessRefused(() => ({ asked, refused, ...this.together(asked, system) }), (error) => {
        const every = asked.map(({ target }) => ({ target, error }));
        return { asked: [], refused: [...refused, ...every], all: null, metric: null };
      });
    }

    together(asked, system) {
      if (asked.length === 0) return { all: null, metric: null };
      const all = together(asked, this.things, this.measures, system);
      return { all, metric: system === "metric" ? null : together(asked, this.things, this.measures) };
    }
  }

  root.traysideQuestions = Object.freeze({ Questions });
})(globalThis);
