"use strict";
/*
 * How much for a run of prints, on a recipe page: answers its sentence for one of the recipe's baths, and
 * hands an amount to the calculator.
 */
(function (root) {
  const { read } = root.traysideRatio;
  const { readMeasures } = root.traysideCalc;
  const { option } = root.traysideBlanks;
  const { answerWith } = root.traysideDilute;
  const { fillBath, shapeBath, bathAnswer } = root.traysideBathWords;

  const optional = (text) => (text === null ? null : read(text));
  const chosenSystem = () => document.querySelector("input[name=measures]:checked")?.value ?? "metric";

  const start = (form, baths, measures) => {
    const { elements } = form;
    const known = new Map(baths.map(({ mix, capacity, keeps, spent }) =>
      [mix, { capacity: optional(capacity), keeps: optional(keeps), spent }]));
    /** A button that asks the calculator for so many ml. */
    const use = (ml) => {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = "Use this amount";
      button.addEventListener("click", () => {
        const detail = { mix: elements.bath.value, ask: "make", amount: String(ml), unit: "ml" };
        document.getElementById("calculator").dispatchEvent(new CustomEvent("askfor", { detail }));
        document.getElementById("asked").scrollIntoView({ block: "center" });
      });
      return [button];
    };
    const update = () => {
      shapeBath(form);
      const bath = known.get(elements.bath.value);
      answerWith(form, () => bathAnswer(elements, measures, chosenSystem(), bath, use));
    };
    fillBath(elements, measures);
    elements.bath.append(...baths.map(({ mix, name }) => option(mix, name)));
    document.addEventListener("input", (event) => {
      if (form.contains(event.target) || event.target.name === "measures") update();
    });
    form.addEventListener("submit", (event) => event.preventDefault());
    update();
    form.closest("section").hidden = false;
  };

  const form = document.getElementById("session");
  const [plan, block] = ["plan", "session-plan"].map((id) => document.getElementById(id));
  if (form && plan && block) start(form, JSON.parse(block.textContent), readMeasures(JSON.parse(plan.textContent)));
})(globalThis);
