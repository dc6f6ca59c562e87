"use strict";
/*
 * Yours: the time that a reader found for an exposure of this recipe, kept in this browser beside the author's,
 * which stays. It is kept by recipe and exposure, with the revision and the day it was found. Where storage is
 * refused it is shown, and not kept.
 */
(function (root) {
  const { Refusal, exactText, parsePositive } = root.traysideRatio;
  const { clocks, readTime, shownSeconds } = root.traysideExpose;

  const today = () => {
    const now = new Date();
    return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
  };

  class Found {
    constructor(details) {
      const { exposure, recipe, revision } = details.dataset;
      this.details = details;
      this.revision = revision;
      this.key = `trayside-time-${recipe}-${exposure}`;
      this.form = details.querySelector("[data-own]");
      this.places = [...document.querySelectorAll("[data-yours]")].filter((each) => each.dataset.yours === exposure);
    }

    start() {
      this.form.addEventListener("submit", (event) => {
        event.preventDefault();
        this.typed();
      });
      this.form.querySelector("[data-forget]").addEventListener("click", () => this.forget());
      this.details.addEventListener("foundtime", ({ detail }) => this.keep([detail, detail]));
      root.addEventListener("storage", ({ key }) => {
        if (key === this.key || key === null) this.show(this.recall());
      });
      this.show(this.recall());
      this.form.hidden = false;
    }

    /** What was kept, or null: also for what is not ours to read. */
    recall() {
      try {
        const kept = JSON.parse(root.localStorage.getItem(this.key) ?? "null");
        if (kept === null) return null;
        return { time: [kept.low, kept.high].map((each) => parsePositive(each)), revision: `${kept.revision}`, day: `${kept.day}` };
      } catch {
        return null; // refused, or not ours
      }
    }

    typed() {
      const refused = this.form.querySelector(".refused");
      const { own, "own-unit": unit } = this.form.elements;
      try {
        this.keep(readTime(own.value, unit.value).map((each) => exactText(shownSeconds(each))));
        refused.textContent = "";
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        refused.textContent = `${error.message}: ${error.help}`.replaceAll("`", "");
      }
    }

    /** Keep seconds, written as decimals. */
    keep([low, high]) {
      const kept = { low, high, revision: this.revision, day: today() };
      try {
        root.localStorage.setItem(this.key, JSON.stringify(kept));
      } catch {
        // refused: it is shown until the page is left
      }
      this.show({ ...kept, time: [low, high].map((each) => parsePositive(each)) });
    }

    forget() {
      try {
        root.localStorage.removeItem(this.key);
      } catch {
        // refused: nothing was kept
      }
      this.show(null);
      this.form.elements.own.value = "";
      this.form.elements.own.focus(); // the button goes away with the time
    }

    show(kept) {
      const older = kept && kept.revision !== this.revision ? `, with revision ${kept.revision}` : "";
      const words = kept ? `${clocks(kept.time)}, found ${kept.day}${older}` : "";
      for (const place of this.places) {
        place.hidden = kept === null;
        place.querySelector("dd").textContent = words;
      }
      this.form.querySelector("output").textContent = kept ? `Kept in this browser: ${words}.` : "";
      this.form.querySelector("[data-forget]").hidden = kept === null;
    }
  }

  for (const details of document.querySelectorAll("[data-exposure]")) new Found(details).start();
})(globalThis);
