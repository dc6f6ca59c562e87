"use strict";
/*
 * Sums about exposure, on the bench and by the exposures of a recipe: listens to each sentence and answers below
 * it. On the bench what is asked is kept in the address. The arithmetic is expose.js and strip.js.
 */
(function (root) {
  const { Refusal, exactText, multiply, of, parseNumber, subtract } = root.traysideRatio;
  const { readMeasures, toStep } = root.traysideCalc;
  const { sideOf } = root.traysideAsking;
  const { fillUnits } = root.traysideBlanks;
  const { answerWith, noteOf, part } = root.traysideDilute;
  const {
    byLamp, byLight, byStops, clock, clocks, filmTime, parseStops, readTime, shownSeconds, stopsOfFactor, throughDensity,
    throughStops, throughTimes,
  } = root.traysideExpose;
  const { countOf, readRise, secondsAt, stripAbout, stripFrom } = root.traysideStrip;

  /** Browsers refuse an address that changes at every key: it follows when the reader pauses, in ms. */
  const PAUSE = 300;
  const NOTHING = of(0);
  const HOW =
    "Lamp on, all bands bare: cover each when the clock shows its time, the first one first. Or all covered: bare each " +
    "from the last one on, at the times of the last column, and put the lamp out at the end.";
  const EACH = "A timer that stops the lamp at every move is set to what is added.";

  const element = (name, text, attributes = {}) => {
    const made = document.createElement(name);
    made.textContent = text;
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    return made;
  };

  const isEmpty = (elements, ...names) => names.some((name) => !elements[name].value.trim());
  const timeIn = (elements, name, single = false) => readTime(elements[name].value, elements[`${name}-unit`].value, single);

  /** `1 stop more`, `0.81 stops less`. */
  const inStops = (stops) => {
    const words = exactText(stops.n < 0n ? subtract(NOTHING, stops) : stops);
    if (stops.n === 0n) return "0 stops";
    return `${words} ${words === "1" ? "stop" : "stops"} ${stops.n > 0n ? "more" : "less"}`;
  };

  /** `10'00 instead of 5'00: times 2, 1 stop more.` and what to mind. */
  const changed = (time, { factor, warnings }) => [
    part("time", clocks(time.map((each) => multiply(each, factor)))),
    ` instead of ${clocks(time)}: times `, part("factor", exactText(toStep(factor, of(1, 1000)))),
    ", ", part("stops", inStops(stopsOfFactor(factor))), ".",
    ...warnings.map(noteOf),
  ];

  /** The sums by name: `fill` their lists once, `shape` the sentence, `answer` with nodes or null. */
  const sumsOf = (measures) => ({
    strip: {
      shape: (form) => showStrip(form),
      answer: (elements, form) => {
        const strip = stripOf(elements);
        const place = form.querySelector("[name=band]:checked")?.value;
        if (strip === null || !place) return null;
        return [" Go on with ", part("time", clock(secondsAt(strip, parseNumber(place)))), ".", ...keeper(form, strip, place)];
      },
    },
    lamp: {
      fill: ({ "lamp-unit": unit }) => {
        fillUnits(unit, ["length"], measures);
        if (unit.dataset.first) unit.value = unit.dataset.first;
      },
      shape: (form) => {
        const source = form.elements.source.value;
        form.querySelector("[data-wide]").hidden = source !== "wide";
        form.querySelector("[data-lamp]").hidden = source === "sun";
      },
      answer: (elements) => {
        const source = elements.source.value;
        if (!source || isEmpty(elements, "time") || (source !== "sun" && isEmpty(elements, "was", "now"))) return null;
        const time = timeIn(elements, "time");
        const side = (name) => sideOf(elements[name].value, elements["lamp-unit"].value, measures);
        const width = source === "wide" && !isEmpty(elements, "width") ? side("width") : null;
        const [was, now] = source === "sun" ? [null, null] : ["was", "now"].map(side);
        return changed(time, byLamp(source, was, now, width));
      },
    },
    stops: {
      answer: (elements) => {
        if (isEmpty(elements, "time", "stops")) return null;
        const time = timeIn(elements, "time");
        const stops = parseStops(elements.stops.value);
        return changed(time, byStops(elements.way.value === "less" ? subtract(NOTHING, stops) : stops));
      },
    },
    layer: {
      shape: (form) => {
        for (const clause of form.querySelectorAll("[data-by]")) {
          clause.hidden = !clause.dataset.by.split(" ").includes(form.elements.by.value);
        }
      },
      answer: (elements) => {
        const by = elements.by.value;
        if (isEmpty(elements, "time", ...(by === "times" ? ["bare", "through"] : ["held"]))) return null;
        const time = timeIn(elements, "time");
        if (by !== "times") return changed(time, { stops: throughStops, density: throughDensity }[by](elements.held.value));
        const [[bare], [through]] = ["bare", "through"].map((name) => timeIn(elements, name, true));
        const words = ["bare", "through"].map((name) => `${elements[name].value.trim()} ${elements[`${name}-unit`].value}`);
        return changed(time, throughTimes(bare, through, words.join(" to ")));
      },
    },
    light: {
      answer: (elements) => {
        if (isEmpty(elements, "time", "was", "now")) return null;
        const time = timeIn(elements, "time");
        const [was, now] = ["was", "now"].map((name) => parseNumber(elements[name].value));
        return changed(time, byLight(was, now));
      },
    },
    film: {
      answer: (elements) => {
        if (isEmpty(elements, "time", "power")) return null;
        const time = timeIn(elements, "time");
        const power = parseNumber(elements.power.value);
        return [part("time", clocks(time.map((each) => filmTime(each, power)))), ` instead of ${clocks(time)}.`];
      },
    },
  });

  const stripOf = (elements) => {
    if (isEmpty(elements, "count", "time", "each")) return null;
    const around = elements.from.value === "middle";
    const time = timeIn(elements, "time", !around);
    const rise = readRise(elements.each.value, elements["each-unit"].value);
    return around ? stripAbout(time, rise, countOf(elements.count.value)) : stripFrom(time[0], rise, countOf(elements.count.value));
  };

  /** The strip's table, and a choice of its bands and of the places between two; nothing while it is refused. */
  const showStrip = (form) => {
    let strip = null;
    try {
      strip = stripOf(form.elements);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error; // answerWith says it
    }
    form.querySelector("[data-strip]").replaceChildren(...(strip ? tableOf(strip) : []));
    showBands(form.querySelector("[data-bands]"), strip ? strip.bands : []);
  };

  const tableOf = (strip) => {
    const table = element("table", "", { class: "strip-plan" });
    const head = element("tr", "");
    head.append(...["Band", "Gets", "Added", "Bare at"].map((words) => element("th", words, { scope: "col" })));
    const rows = strip.bands.map((band) => {
      const row = element("tr", "");
      const figures = [band.seconds, band.stretch, band.bareAt].map((seconds) => element("td", clock(of(seconds))));
      row.append(element("th", String(band.number), { scope: "row" }), ...figures);
      return row;
    });
    const [top, body] = [element("thead", ""), element("tbody", "")];
    top.append(head);
    body.append(...rows);
    table.append(top, body);
    return [table, element("p", `${HOW} ${EACH}`), ...strip.warnings.map(noteOf)];
  };

  /** Radios for every band and for between two, drawn anew only when there are more or fewer. */
  const showBands = (fieldset, bands) => {
    fieldset.hidden = bands.length === 0;
    const list = fieldset.querySelector("div");
    if (list.childElementCount === Math.max(0, 2 * bands.length - 1)) return;
    const places = bands.flatMap(({ number }) => [[`${number}`, `${number}`], [`${number} 1/2`, `${number}–${number + 1}`]]);
    list.replaceChildren(...places.slice(0, -1).map(([value, words]) => {
      const label = element("label", "", { class: "choice" });
      label.append(element("input", "", { type: "radio", name: "band", value }), element("span", words));
      return label;
    }));
  };

  /** On a recipe's page: a button that keeps the found time (yours.js listens). */
  const keeper = (form, strip, place) => {
    const exposure = form.closest("[data-exposure]");
    if (!exposure) return [];
    const button = element("button", "Keep it as my time", { type: "button", class: "plain" });
    const detail = exactText(shownSeconds(secondsAt(strip, parseNumber(place))));
    button.addEventListener("click", () => exposure.dispatchEvent(new CustomEvent("foundtime", { detail })));
    return [" ", button];
  };

  // The address of the bench.

  const hashOf = (section) => {
    const params = new URLSearchParams({ expose: section.dataset.expose });
    for (const [name, value] of new FormData(section.querySelector("form"))) if (value.trim()) params.append(name, value.trim());
    return `#${params}`;
  };

  let pause = 0;
  const keepAddress = (section) => {
    root.clearTimeout(pause);
    pause = root.setTimeout(() => root.history.replaceState(null, "", hashOf(section)), PAUSE);
  };

  /** Fill one sum from the address; what is not offered is passed over. */
  const recall = (updates) => {
    const params = new URLSearchParams(root.location.hash.replace(/^#/, ""));
    const section = document.querySelector(`[data-expose="${CSS.escape(params.get("expose") ?? "")}"]`);
    if (!section) return;
    const { elements } = section.querySelector("form");
    const set = (names) => {
      for (const name of names) {
        const [field, value] = [elements.namedItem(name), params.get(name)];
        if (value === null || field === null || name === "expose") continue;
        const offered = field instanceof HTMLSelectElement ? [...field.options].some((each) => each.value === value) : true;
        if (offered) field.value = value;
      }
    };
    set([...params.keys()].filter((name) => name !== "band"));
    updates.get(section)();
    set(["band"]); // its choices are there only now
    updates.get(section)();
    section.scrollIntoView();
  };

  /** Show one sum and keep its answer up to date; gives what answers it anew. */
  const begin = (section, sums, bench) => {
    const { fill, shape, answer } = sums[section.dataset.expose];
    const form = section.querySelector("form");
    const update = () => {
      shape?.(form);
      answerWith(form, () => answer(form.elements, form));
    };
    fill?.(form.elements);
    form.addEventListener("input", () => {
      update();
      if (bench) keepAddress(section);
    });
    form.addEventListener("submit", (event) => event.preventDefault());
    update();
    section.hidden = false;
    // On the screen the sum, which starts from the very same strip, takes its place.
    section.closest("[data-exposure]")?.querySelector("[data-printed]")?.classList.add("paper-only");
    return update;
  };

  const start = (sections, block) => {
    const sums = sumsOf(readMeasures(block));
    const bench = document.querySelector("[data-bench]") !== null;
    const updates = new Map(sections.map((section) => [section, begin(section, sums, bench)]));
    if (!bench) return;
    recall(updates);
    root.addEventListener("hashchange", () => recall(updates));
  };

  const block = document.getElementById("plan");
  const sections = [...document.querySelectorAll("[data-expose]")];
  if (block && sections.length > 0) start(sections, JSON.parse(block.textContent));
})(globalThis);
