"use strict";
/*
 * Timing: a recipe's pieces put on the clock, from a start or until a finish, for several prints; and which
 * baths do not keep. Pure: no DOM, no clock. All times are BigInt counts of one part of a minute, from the
 * midnight of the day asked for; ends are pairs [earliest, latest]. The clock is the reader's own, and a
 * change to or from summer time is not counted.
 * Twin of sitegen/compute/timeline.py, bath_life.py, moments.py and sitegen/render/dated.py: the same words.
 */
(function (root) {
  const DAY = 1440n;
  const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
  const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
  const [LOW, HIGH] = [0, 1];

  const pair = (ends) => ends.map(BigInt);

  /** A timeline's data block, its numbers read once. */
  const readTiming = (block) => ({
    ...block,
    perMinute: BigInt(block.perMinute),
    pieces: block.pieces.map((piece) => ({
      ...piece,
      lasts: pair(piece.lasts),
      uses: piece.uses.map((use) => ({ ...use, start: pair(use.start), end: pair(use.end) })),
    })),
    baths: block.baths.map((bath) => ({ ...bath, keeps: bath.keeps === null ? null : BigInt(bath.keeps) })),
  });

  const floor = (a, b) => {
    const whole = a / b;
    return a % b < 0n ? whole - 1n : whole;
  };
  const plus = (a, b) => [a[LOW] + b[LOW], a[HIGH] + b[HIGH]];
  const greatest = (values) => values.reduce((a, b) => (b > a ? b : a));

  /** The pieces of one print, one after the other. */
  const placeOne = (plan, start, print) => {
    let at = [start, start];
    return plan.pieces.map((piece) => {
      const placed = { piece, print, start: at, end: plus(at, piece.lasts) };
      at = placed.end;
      return placed;
    });
  };

  /** How long a print must be put off so that one meeting of its work with earlier work is past; or 0. */
  const meeting = (earlier, one) => {
    for (const mine of one) {
      if (mine.piece.kind !== "work") continue;
      for (const other of earlier) {
        if (other.piece.kind !== "work") continue;
        for (const end of [LOW, HIGH]) {
          if (mine.start[end] < other.end[end] && other.start[end] < mine.end[end]) {
            return other.end[end] - mine.start[end];
          }
        }
      }
    }
    return 0n;
  };

  /** Each print in turn, begun as soon as none of its work meets that of those before it. */
  const placeAll = (plan, first, prints) => {
    const done = [];
    let start = first;
    for (let print = 1; print <= prints; print += 1) {
      let one = placeOne(plan, start, print);
      for (let gap = meeting(done, one); gap !== 0n; gap = meeting(done, one)) {
        start += gap;
        one = placeOne(plan, start, print);
      }
      done.push(...one);
    }
    return done;
  };

  const finishOf = (placed) => [LOW, HIGH].map((end) => greatest(placed.map((each) => each.end[end])));

  const lineOf = (plan, placed, lastStart) =>
    ({ plan, placed, start: placed[0].start[LOW], finish: finishOf(placed), lastStart });

  const lineFrom = (plan, start, prints) => lineOf(plan, placeAll(plan, start, prints), null);

  /** Done by `finish` even with the longest times; `lastStart` is for the shortest. */
  const lineUntil = (plan, finish, prints) => {
    const starts = [HIGH, LOW].map((end) => startFor(plan, finish, prints, end));
    return lineOf(plan, placeAll(plan, starts[0], prints), starts[1]);
  };

  const startFor = (plan, finish, prints, end) => {
    let start = finish - plan.pieces.reduce((sum, piece) => sum + piece.lasts[end], 0n);
    for (;;) {
      const over = finishOf(placeAll(plan, start, prints))[end] - finish;
      if (over <= 0n) return start;
      start -= over;
    }
  };

  const midnightBetween = (plan, start, end) => (floor(start, DAY * plan.perMinute) + 1n) * DAY * plan.perMinute < end;

  /** Whether midnight falls into a piece: `yes`, `perhaps` or `no`. */
  const overnight = (plan, { start, end }) => {
    if (midnightBetween(plan, start[HIGH], end[LOW])) return "yes";
    return midnightBetween(plan, start[LOW], end[HIGH]) ? "perhaps" : "no";
  };

  /** `2026-11-28T09:00` as its day (a midnight) and the time since; null for anything else. */
  const readMoment = (text, plan) => {
    const match = /^(20[0-9]{2})-([0-9]{2})-([0-9]{2})T([0-9]{2}):([0-9]{2})/.exec(text);
    if (!match) return null;
    const [year, month, day, hours, minutes] = match.slice(1).map(Number);
    return { day: Date.UTC(year, month - 1, day), at: BigInt(hours * 60 + minutes) * plan.perMinute };
  };

  /** The moment to the nearest second, halves up, on a clock that knows no zone: read it as UTC. */
  const moment = (plan, day, at) => {
    const { perMinute } = plan;
    const days = floor(at, DAY * perMinute);
    const part = (at - days * DAY * perMinute) * 60n;
    const seconds = floor(2n * part + perMinute, 2n * perMinute);
    return new Date(day + Number(days) * 86_400_000 + Number(seconds) * 1000);
  };

  const two = (number) => String(number).padStart(2, "0");

  /** `Sun 29 Nov 01:00`. */
  const clock = (plan, day, at) => {
    const date = moment(plan, day, at);
    const on = `${DAYS[date.getUTCDay()]} ${two(date.getUTCDate())} ${MONTHS[date.getUTCMonth()]}`;
    return `${on} ${two(date.getUTCHours())}:${two(date.getUTCMinutes())}`;
  };

  const dayOf = (plan, day, at) => moment(plan, day, at).toISOString().slice(0, 10);

  /** From earliest to latest; the day is named once where it is one. */
  const span = (plan, day, ends) => {
    const [early, late] = ends.map((at) => clock(plan, day, at));
    if (early === late) return early;
    return `${early} to ${dayOf(plan, day, ends[LOW]) === dayOf(plan, day, ends[HIGH]) ? late.slice(-5) : late}`;
  };

  /** Every mixture that the steps name, in batches that keep: `{name, verdict, batches}`. */
  const bathLives = (line) => {
    const used = new Map();
    for (const { piece, start } of line.placed) {
      for (const use of piece.uses) {
        const on = { title: piece.title, alone: piece.kind === "wait", start: plus(start, use.start) };
        used.set(use.bath, [...(used.get(use.bath) ?? []), { ...on, end: plus(start, use.end) }]);
      }
    }
    return [...used].map(([bath, uses]) => lifeOf(line.plan.baths[bath], uses, line.start));
  };

  const sign = (a) => (a > 0n ? 1 : a < 0n ? -1 : 0);

  const lifeOf = ({ name, keeps }, uses, start) => {
    const ordered = [...uses].sort((a, b) => sign(a.start[HIGH] - b.start[HIGH]) || sign(a.end[HIGH] - b.end[HIGH]));
    if (keeps === null) return { name, verdict: "not said", batches: [{ uses: ordered, notBefore: null }] };
    const batches = [];
    for (const use of ordered) {
      const last = batches.at(-1);
      if (!last && use.alone) batches.push({ uses: [use], notBefore: null });
      else if (last && age(last, use) <= keeps) {
        last.uses.push(use);
        last.notBefore = last.uses[0].alone ? null : greatest(last.uses.map((each) => each.end[HIGH])) - keeps;
      } else batches.push({ uses: [use], notBefore: use.end[HIGH] - keeps });
    }
    return { name, verdict: verdictOn(batches, keeps, start), batches };
  };

  const verdictOn = (batches, keeps, start) => {
    const single = batches.filter((batch) => batch.uses.length === 1 && batch.notBefore !== null);
    if (single.some((batch) => age(batch, batch.uses[0]) > keeps)) return "too short";
    if (batches.length > 1) return "mix again";
    return batches[0].notBefore !== null && batches[0].notBefore > start ? "mix later" : "keeps";
  };

  /** From a batch's mixing to the end of a use, all times at their longest, or all at their shortest. */
  const age = (batch, use) => {
    const [first] = batch.uses;
    const mixed = batch.notBefore === null ? first.end : first.start;
    return greatest([HIGH, LOW].map((end) => use.end[end] - mixed[end]));
  };

  /** What does not keep if it is mixed at the start, and when to mix it instead. */
  const bathWarnings = (line, day) => {
    const { words } = line.plan;
    return bathLives(line)
      .filter(({ verdict }) => Object.hasOwn(words, verdict))
      .map(({ name, verdict, batches }) =>
        `${name} ${words[verdict]}: ${batches.map((batch) => mixAt(line.plan, day, batch)).join("; ")}`);
  };

  const mixAt = (plan, day, { uses, notBefore }) => {
    const stages = [...new Set(uses.map((use) => use.title))].join(", ");
    const needed = uses[0].start[LOW];
    const when = clock(plan, day, needed);
    if (notBefore === null || notBefore > needed) {
      return `mix it when it is needed, ${when} at the earliest, for ${stages}`;
    }
    return `mix between ${clock(plan, day, notBefore)} and ${when} for ${stages}`;
  };

  root.traysideTiming = Object.freeze({
    readTiming, readMoment, lineFrom, lineUntil, overnight, moment, clock, span, bathLives, bathWarnings, midnightBetween,
    floor, DAY,
  });
})(globalThis);
