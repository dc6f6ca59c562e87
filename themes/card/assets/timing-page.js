"use strict";
/*
 * The timeline on a recipe page: listens to its sentence, shows days and clock times in place of the times
 * from the start, draws the prints below each other, and saves a calendar file. The sums are timing.js.
 */
(function (root) {
  const {
    readTiming, readMoment, readHours, lineFrom, lineUntil, overnight, clock, span, bathWarnings, clockWarnings, floor, DAY,
  } = root.traysideTiming;
  const { calendar } = root.traysideCalendar;

  const SVG = "http://www.w3.org/2000/svg";
  const NIGHT = { yes: "overnight", perhaps: "perhaps overnight", no: "" };
  /** Percent of the drawing for a break; minutes of idle bench from which there is one, as on the printed strip. */
  const GAP = 6;
  const IDLE = 480n;
  const HIGH = 30;

  const element = (name, text = "", className = "") => {
    const made = document.createElement(name);
    made.textContent = text;
    if (className) made.className = className;
    return made;
  };

  const drawn = (name, attributes) => {
    const made = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    return made;
  };

  /** Where each moment stands, in percent: to scale at the longest times but where no print is worked on. */
  const axisOf = (line) => {
    const { perMinute } = line.plan;
    const works = line.placed.filter(({ piece }) => piece.kind === "work");
    const edges = [line.start, line.finish[1], ...works.flatMap(({ start, end }) => [start[1], end[1]])];
    const marks = [...new Set(edges)].sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
    const stretches = marks.slice(1).map((end, at) => {
      const start = marks[at];
      const busy = works.some((work) => work.start[1] < end && work.end[1] > start);
      return { start, end, broken: !busy && end - start >= IDLE * perMinute };
    });
    const gaps = stretches.filter((each) => each.broken).length;
    const gap = Math.min(GAP, gaps ? 50 / gaps : GAP);
    const shown = stretches.filter((each) => !each.broken).reduce((sum, each) => sum + Number(each.end - each.start), 0);
    let left = 0;
    for (const each of stretches) {
      each.left = left;
      each.width = each.broken ? gap : (Number(each.end - each.start) / (shown || 1)) * (100 - gaps * gap);
      left += each.width;
    }
    const place = (at) => {
      const on = stretches.find((each) => at <= each.end) ?? stretches.at(-1);
      return on ? on.left + (Number(at - on.start) / Number(on.end - on.start)) * on.width : 0;
    };
    return { place, gaps: stretches.filter((each) => each.broken) };
  };

  const percent = (number) => `${number.toFixed(3)}%`;

  /** One print on the common axis; midnights are dashed. */
  const stripOf = (line, print, axis, words) => {
    const svg = drawn("svg", { class: "strip", width: "100%", height: HIGH, role: "img", "aria-label": words });
    for (const { piece, start, end } of line.placed.filter((each) => each.print === print)) {
      const [left, right] = [start[1], end[1]].map(axis.place);
      const width = Math.max(right - left, piece.kind === "work" ? 0.8 : 0);
      svg.append(drawn("rect", { class: piece.kind, x: percent(left), y: 1, width: percent(width), height: HIGH - 2 }));
      if (piece.kind === "work" && width >= 4 * String(piece.stage).length) {
        const at = { x: percent(left + width / 2), y: 21, "text-anchor": "middle" };
        svg.append(drawn("text", at));
        svg.lastChild.textContent = piece.stage;
      }
    }
    for (const { left, width } of axis.gaps) svg.append(gapAt(left, width));
    const day = DAY * line.plan.perMinute;
    for (let at = (floor(line.start, day) + 1n) * day; at < line.finish[1]; at += day) {
      if (axis.gaps.some((gap) => gap.start < at && at < gap.end)) continue;
      const x = percent(axis.place(at));
      svg.append(drawn("line", { class: "midnight", x1: x, x2: x, y1: 0, y2: HIGH }));
    }
    return svg;
  };

  const gapAt = (left, width) => {
    const box = { class: "gap", x: percent(left), y: 0, width: percent(width), height: HIGH, viewBox: `0 0 24 ${HIGH}` };
    const svg = drawn("svg", box);
    svg.append(drawn("path", { class: "ground", d: `M4 ${HIGH}L12 0H24L16 ${HIGH}z` }));
    svg.append(drawn("path", { d: `M4 ${HIGH}L12 0M16 ${HIGH}L24 0` }));
    return svg;
  };

  const nameOf = (piece) => {
    if (piece.kind === "wait" && !piece.alone) return "wait";
    return `${piece.stage} ${piece.title}${piece.alone ? ", left alone" : ""}`;
  };

  /** One print: its strip and its table. */
  const rowsOf = (line, print, day, axis) => {
    const { plan } = line;
    const several = line.placed.at(-1).print > 1;
    const placed = line.placed.filter((each) => each.print === print);
    const began = clock(plan, day, placed[0].start[0]);
    const table = element("table", "", "times");
    table.append(element("caption", several ? `Print ${print}` : "Earliest and latest"));
    const head = element("tr");
    head.append(...["Stage", "Begins", "Takes", "Night"].map((name) => {
      const cell = element("th", name);
      cell.scope = "col";
      return cell;
    }));
    table.createTHead().append(head);
    table.createTBody().append(...placed.map((each) => rowOf(each, plan, day)));
    const scrolls = element("div", "", "scrolls");
    scrolls.append(table);
    const words = `${several ? `Print ${print}: begun` : "Begun"} ${began}; the table below says the same`;
    return { strip: stripOf(line, print, axis, words), table: scrolls, name: `Print ${print}, from ${began}` };
  };

  const rowOf = (placed, plan, day) => {
    const { piece } = placed;
    const row = element("tr", "", piece.kind === "wait" ? "waits" : "");
    const name = element("th", nameOf(piece));
    name.scope = "row";
    row.append(name, ...[span(plan, day, placed.start), piece.takes].map((text) => element("td", text, "figure")));
    row.append(element("td", NIGHT[overnight(plan, placed)]));
    return row;
  };

  const summaryOf = (line, day) => {
    const { plan } = line;
    const least = plan.pieces.some((piece) => piece.untimed > 0) ? "at least " : "";
    const ready = `Ready ${least}${span(plan, day, line.finish)}.`;
    if (!line.until && !line.hours) return ready;
    const begin = `Start ${clock(plan, day, line.start)}. ${ready}`;
    if (line.lastStart === null) return begin;
    return `${begin} After ${clock(plan, day, line.lastStart)} even the shortest times are too long.`;
  };

  class Timing {
    constructor(form, block) {
      this.form = form;
      this.plan = readTiming(block);
      this.dated = document.querySelector("[data-dated]");
      this.relative = document.querySelector("[data-relative]");
    }

    start() {
      this.form.addEventListener("input", () => this.show());
      this.form.addEventListener("submit", (event) => event.preventDefault());
      this.dated.querySelector("[data-save]").addEventListener("click", () => this.save());
      this.form.hidden = false;
      this.show();
    }

    /** The number of prints, or null with the reason shown. */
    prints() {
      const typed = this.form.elements.prints.value.trim();
      const most = this.plan.mostPrints;
      const count = /^[0-9]{1,3}$/.test(typed) ? Number(typed) : 0;
      const fine = count >= 1 && count <= most;
      const words = fine ? "" : `${typed || "No"} prints are not planned: ask for 1 to ${most} prints`;
      this.refuse(words);
      return fine ? count : null;
    }

    /** The hours of the day, null for any hour, undefined with the reason shown. */
    hours() {
      const [from, to] = ["opens", "closes"].map((name) => this.form.elements[name].value);
      if (!from && !to) return null;
      const hours = readHours(from, to, this.plan);
      if (hours) return hours;
      this.refuse("These are no hours of one day: write opening and closing, such as 08:00 and 22:00, or leave both empty");
      return undefined;
    }

    refuse(words) {
      const refused = this.form.querySelector(".refused");
      if (refused.textContent !== words) refused.textContent = words;
    }

    show() {
      const { elements } = this.form;
      const prints = this.prints();
      const hours = prints === null ? undefined : this.hours();
      const asked = readMoment(elements.moment.value, this.plan);
      this.line = null;
      if (asked && hours !== undefined) {
        const plan = elements.end.value === "start" ? lineFrom : lineUntil;
        this.line = plan(this.plan, asked.at, prints, hours);
        this.day = asked.day;
        this.fill();
      }
      this.dated.hidden = this.line === null;
      this.relative.hidden = this.line !== null;
    }

    fill() {
      const { line, day, dated } = this;
      const axis = axisOf(line);
      const count = line.placed.at(-1).print;
      const each = Array.from({ length: count }, (_, at) => rowsOf(line, at + 1, day, axis));
      const strips = each.flatMap(({ strip, name }) => [element("p", name, "strip-name"), strip]);
      dated.querySelector("output").textContent = summaryOf(line, day);
      dated.querySelector("[data-rows]").replaceChildren(
        ...(count > 1 ? strips : []), ...each.map(({ table }) => table),
      );
      const notes = [...bathWarnings(line, day), ...clockWarnings(line)];
      dated.querySelector("[data-notes]").replaceChildren(...notes.map((words) => element("li", words)));
    }

    save() {
      const { line, day } = this;
      const text = calendar(line, day, new Date());
      const way = element("a");
      way.href = URL.createObjectURL(new Blob([text], { type: "text/calendar;charset=utf-8" }));
      way.download = `${this.plan.recipe}-${new Date(day).toISOString().slice(0, 10)}.ics`;
      document.body.append(way);
      way.click();
      way.remove();
      root.setTimeout(() => URL.revokeObjectURL(way.href), 60_000);
    }
  }

  const form = document.getElementById("timing");
  const block = document.getElementById("timing-plan");
  if (form && block) new Timing(form, JSON.parse(block.textContent)).start();
})(globalThis);
