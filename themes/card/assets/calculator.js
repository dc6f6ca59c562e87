"use strict";
/*
 * The calculator of a recipe page: listens to its sentence and sets every amount on the page, in tables and in
 * sentences. Each mixture keeps its own question; the sentence shows that of the mixture it names, and the address
 * keeps all of them. The answer is questions.js, the blanks blanks.js, the places places.js, total.js and asked.js.
 */
(function (root) {
  const { Refusal } = root.traysideRatio;
  const { readMeasures, readTarget, readThings, asWritten } = root.traysideCalc;
  const { phrase, toHash, fromHash } = root.traysideAsking;
  const { Questions } = root.traysideQuestions;
  const { prepare, follow, showClauses, addRow, dropRow, readBlanks, writeBlanks } = root.traysideBlanks;
  const { element, placesOf, everyPlace, restore, showMixture, sayWritten, showNothing } = root.traysidePlaces;
  const { showTotal } = root.traysideTotal;
  const { plain, showAlso, offer, showState, showOnward } = root.traysideAsked;

  /** Browsers refuse an address that changes at every key: it follows when the reader pauses, in ms. */
  const PAUSE = 300;

  /** Where each ingredient and mixture is told of, by its id: what the rows of the page link to. */
  const waysOf = (targets, where) => {
    const lines = targets.flatMap(({ mixtures }) => mixtures.flatMap(({ id, lines: all }) => all.map((line) => [id, line])));
    return new Map(lines.map(([id, { of, key }]) => [of, where.get(id).ways.get(key)]));
  };

  class Calculator {
    constructor(form, block) {
      this.form = form;
      this.measures = readMeasures(block);
      this.targets = block.targets.map(readTarget);
      this.plans = new Map(this.targets.flatMap(({ mixtures }) => mixtures.map((plan) => [plan.id, plan])));
      this.others = (block.others ?? []).map(readTarget);
      this.questions = new Questions(this.targets, readThings(block.things), this.measures);
      const sections = [...document.querySelectorAll("section[data-mixture]")];
      this.where = new Map(sections.map((section) => [section.dataset.mixture, placesOf(section)]));
      this.ways = waysOf(this.targets, this.where);
      const ids = ["asked", "also", "refused", "said", "total", "to-total"];
      this.page = Object.fromEntries(ids.map((id) => [id, document.getElementById(id)]));
      prepare(form, this.targets, this.measures);
    }

    start() {
      for (const { makes } of this.where.values()) {
        // Only the sentence that names the target is read out while the reader types, not every number.
        for (const { node } of makes) node.setAttribute("aria-live", "off");
      }
      for (const target of this.targets) offer(this.where.get(target.id).section, target);
      this.form.addEventListener("input", (event) => this.changed(event.target));
      this.form.addEventListener("submit", (event) => event.preventDefault());
      this.form.addEventListener("askfor", ({ detail }) => this.ask(detail));
      document.addEventListener("click", (event) => this.pressed(event.target.closest("button")));
      this.page.refused.addEventListener("click", (event) => this.corrected(event.target.closest("button")));
      root.addEventListener("hashchange", () => this.recall());
      this.form.hidden = false;
      writeBlanks(this.form, { left: [] }, this.targets, this.measures);
      this.recall();
    }

    get target() {
      return this.targets.find((target) => target.local === this.form.elements.mix.value);
    }

    get system() {
      return this.form.elements.measures.value;
    }

    changed(field) {
      this.field = field;
      if (field.name === "mix") this.turnTo(field.value);
      if (field.name === "left-of") follow(this.form, this.target, this.measures);
      showClauses(this.form);
      this.hold();
    }

    /** Keep what the sentence asks, and answer it with the rest. */
    hold() {
      this.questions.hold(readBlanks(this.form));
      this.answerAnew();
    }

    answerAnew() {
      this.lost = null;
      this.answer();
      this.keep();
    }

    /** Let the sentence show a mixture's question, or the blanks of one. */
    turnTo(local, blanks = this.questions.of(local)) {
      writeBlanks(this.form, { ...blanks, mix: local, measures: this.system }, this.targets, this.measures);
    }

    /** Ask a question that is filled in elsewhere, in place of what was asked of its mixture. */
    ask(blanks) {
      this.turnTo(blanks.mix, blanks);
      this.hold();
    }

    pressed(button) {
      if (!button) return;
      const { form, page } = this;
      const { dataset } = button;
      if (button === page["to-total"]) page.total.scrollIntoView();
      if ("change" in dataset) this.show(dataset.change);
      if ("another" in dataset) this.show(dataset.another);
      if ("unask" in dataset) this.unask(dataset.unask);
      if ("alike" in dataset) this.askAlike(dataset.alike);
      if ("reset" in dataset) this.reset();
      if ("more" in dataset) addRow(form, this.target, this.measures).focus();
      if ("drop" in dataset) dropRow(form, button.closest("[data-one]"));
      if ("more" in dataset || "drop" in dataset) this.hold();
      if (["unask", "alike", "reset"].some((what) => what in dataset)) this.goOnFrom(button);
    }

    /** Where the reader goes on when the button that was pressed is gone. */
    goOnFrom(button) {
      const near = button.closest("[data-offer]")?.querySelector("button");
      (near ?? this.form.querySelector("[name=ask]:checked")).focus({ preventScroll: true });
    }

    /** Ask the same of another mixture. */
    askAlike(local) {
      this.questions.hold({ ...readBlanks(this.form), mix: local });
      this.answerAnew();
    }

    reset() {
      this.questions.clear();
      writeBlanks(this.form, { mix: this.target.local }, this.targets, this.measures);
      this.answerAnew();
    }

    /** Bring a mixture's question into the sentence, and the sentence before the reader. */
    show(local) {
      this.turnTo(local);
      this.answer();
      this.form.scrollIntoView();
      this.form.querySelector(".sentence [data-way]:not([hidden]) input")?.focus({ preventScroll: true });
    }

    unask(local) {
      this.questions.drop(local);
      if (local === this.target.local) this.turnTo(local);
      this.answerAnew();
    }

    /** Take one of the readings that a refusal offers. */
    corrected(button) {
      if (!button) return;
      this.field.value = button.value;
      this.field.focus();
      this.changed(this.field);
    }

    /**
     * Take the questions of the address. A hash that names a place on the page is not ours: once the reader is there,
     * what is asked goes back into the address, so that a reload does not show other amounts.
     */
    recall() {
      root.clearTimeout(this.pause);
      const found = fromHash(root.location.hash);
      if (found) this.recallAll(found);
      this.answer();
      if (!found && this.state === "asked") this.keep();
    }

    recallAll({ asked, measures }) {
      const { form, targets, questions } = this;
      const locals = targets.map(({ local }) => local);
      const [first, ...rest] = asked.filter(({ mix = locals[0] }) => locals.includes(mix));
      const unknown = asked.find(({ mix = locals[0] }) => !locals.includes(mix));
      this.lost = unknown
        ? new Refusal("unknown-mixture", `\`${unknown.mix.slice(0, 40)}\` is not mixed here`, "choose a mixture from the list")
        : null;
      this.field = null;
      questions.clear();
      writeBlanks(form, { left: [], measures }, targets, this.measures);
      for (const blanks of [...rest, ...(first ? [first] : [])]) {
        this.turnTo(blanks.mix ?? locals[0], blanks);
        questions.hold(readBlanks(form));
      }
    }

    /** Put what is asked into the address, so that a reload or a bookmark asks it again. */
    keep() {
      root.clearTimeout(this.pause);
      if (this.state !== "refused") this.pause = root.setTimeout(() => this.write(), PAUSE);
    }

    write() {
      const { found, system } = this;
      const asked = found.asked.map(({ blanks }) => blanks);
      const plainly = asked.length === 0 && system === "metric";
      const hash = plainly ? "" : `#${toHash(asked.length > 0 ? asked : [readBlanks(this.form)], system)}`;
      root.history.replaceState(null, "", hash || root.location.href.replace(/#.*$/, ""));
    }

    answer() {
      const { form, page, target, targets, system } = this;
      const found = this.questions.answer(system);
      const { asked, refused, all, metric } = found;
      this.found = found;
      if (refused.length > 0 || this.lost) this.state = "refused";
      else this.state = all ? "asked" : "written";
      const needed = [...(all?.batches ?? []).map(({ plan }) => plan), ...refused.flatMap((one) => one.target.mixtures)];
      for (const where of this.where.values()) everyPlace(where).forEach(restore);
      this.setBack(needed.length > 0 ? new Set(needed.map(({ id }) => id)) : null);
      if (needed.length === 0) this.showWritten(system);
      for (const [at, batch] of (all?.batches ?? []).entries()) {
        showMixture(this.where.get(batch.plan.id), batch, metric?.batches[at]);
      }
      // What a refused question takes part in has no amount, not even that which the others take.
      for (const plan of refused.flatMap((one) => one.target.mixtures)) showNothing(this.where.get(plan.id), plan);
      for (const [id, { section }] of this.where) showState(section, id, found);
      const own = asked.find((one) => one.target === target);
      page.asked.textContent = own ? phrase(own.blanks, target) : "";
      showAlso(page.also, found, target);
      showOnward(form, found, target, targets);
      showTotal(page.total, this.state === "asked" ? all : null, metric, this.ways);
      page["to-total"].parentElement.hidden = page.total.hidden;
      this.say(all?.warnings ?? []);
      this.refuse(refused.find((one) => one.target === target) ?? refused[0]);
      form.querySelector("[data-reset]").hidden = this.state === "written" && system === "metric";
    }

    /** In other measures, the recipe as its author wrote it; every mixture at its own size. */
    showWritten(system) {
      if (system === "metric") return;
      for (const target of [...this.targets, ...this.others]) {
        const [here, metric] = [system, "metric"].map((each) =>
          asWritten(target, this.measures, each).mixtures.at(-1));
        const where = this.where.get(target.id);
        if (where) showMixture(where, here, metric);
      }
    }

    /** Set back what nothing asked needs, and say so; null where nothing is asked. */
    setBack(needed) {
      for (const [id, where] of this.where) {
        const back = needed !== null && !needed.has(id);
        where.section.classList.toggle("not-needed", back);
        if (back) sayWritten(where, this.plans.get(id));
      }
    }

    say(warnings) {
      const { said } = this.page;
      said.replaceChildren(...warnings.map((words) => element("li", "", words)));
      said.hidden = warnings.length === 0;
    }

    /** Say why a question has no answer; of another mixture than the sentence's, whose it is. */
    refuse(found) {
      const { refused } = this.page;
      const error = found?.error ?? this.lost;
      const lead = found && found.target !== this.target ? `${found.target.name}: ` : "";
      const words = error ? lead + plain(error) : "";
      if (refused.dataset.words === words) return; // said once, not again at every key
      refused.dataset.words = words;
      const fixes = (this.field && !lead ? error?.fixes ?? [] : []).map((fix) => {
        const button = element("button", "plain", `Use ${fix}`);
        button.type = "button";
        button.value = fix;
        return button;
      });
      refused.replaceChildren(...(words ? [words, ...fixes.flatMap((fix) => [" ", fix])] : []));
    }
  }

  const form = document.getElementById("calculator");
  const block = document.getElementById("plan");
  if (form && block) {
    const plan = JSON.parse(block.textContent);
    if (plan.targets.length > 0) new Calculator(form, plan).start();
  }
})(globalThis);
