"use strict";
/*
 * Timing: a recipe's pieces put on the clock, from a start or until a finish, for several prints, perhaps only in the
 * hours that a bench is open; and which baths do not keep. Pure: no DOM, no clock. All times are BigInt counts of one part of a minute, from the
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
    bright: { opens: BigInt(block.bright.opens), closes: BigInt(block.bright.closes) },
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

  /** The first start from `at` on that leaves `lasting` before closing; what is longer than a day starts at opening. */
  const nextStart = ({ opens, closes }, day, at, lasting) => {
    const midnight = floor(at, day) * day;
    const opening = midnight + opens;
    const begin = at > opening ? at : opening;
    const fits = begin + lasting <= midnight + closes;
    const never = lasting > closes - opens;
    return fits || (never && begin === opening) ? begin : opening + day;
  };

  /** The last start that is done by `end` and within hours; from opening, if it is longer than they are. */
  const lastStart = ({ opens, closes }, day, end, lasting) => {
    if (lasting > closes - opens) return floor(end - lasting - opens, day) * day + opens;
    const midnight = floor(end, day) * day;
    const begin = (end < midnight + closes ? end : midnight + closes) - lasting;
    return begin >= midnight + opens ? begin : midnight - day + closes - lasting;
  };

  const hold = ({ opens, closes }, day, start, end) => {
    const midnight = floor(start, day) * day;
    return midnight + opens <= start && end <= midnight + closes;
  };

  const dayOfParts = (plan) => DAY * plan.perMinute;
  const total = (values) => values.reduce((sum, each) => sum + each, 0n);

  /** Whether a sitting begins with a piece: work at the start, or after a wait. */
  const sitsDown = ({ pieces }, at) => pieces[at].kind === "work" && (at === 0 || pieces[at - 1].kind === "wait");

  /** How long the work from a piece to the next wait may take: it is not begun if it might be broken off. */
  const sitting = ({ pieces }, from) => {
    const wait = pieces.findIndex((piece, at) => at >= from && piece.kind === "wait");
    return total(pieces.slice(from, wait < 0 ? pieces.length : wait).map((piece) => piece.lasts[HIGH]));
  };

  /** Start and end of each piece at one end of all times; a wait is held on until its work fits the hours. */
  const forward = (plan, start, hours, end) => {
    let at = start;
    const spans = [];
    plan.pieces.forEach((piece, n) => {
      if (hours && sitsDown(plan, n)) {
        at = nextStart(hours, dayOfParts(plan), at, sitting(plan, n));
        if (spans.length > 0) spans.at(-1)[1] = at;
      }
      spans.push([at, at + piece.lasts[end]]);
      at += piece.lasts[end];
    });
    return spans;
  };

  /** The pieces of one print, one after the other. */
  const placeOne = (plan, start, print, hours) => {
    const [low, high] = [LOW, HIGH].map((end) => forward(plan, start, hours, end));
    return plan.pieces.map((piece, n) => ({
      piece,
      print,
      start: [low[n][0], high[n][0]],
      end: [low[n][1], high[n][1]],
      held: low[n][1] - low[n][0] > piece.lasts[LOW] || high[n][1] - high[n][0] > piece.lasts[HIGH],
    }));
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
  const placeAll = (plan, first, prints, hours) => {
    const done = [];
    let start = first;
    for (let print = 1; print <= prints; print += 1) {
      let one = placeOne(plan, start, print, hours);
      for (let gap = meeting(done, one); gap !== 0n; gap = meeting(done, one)) {
        start += gap;
        one = placeOne(plan, start, print, hours);
      }
      done.push(...one);
    }
    return done;
  };

  const finishOf = (placed) => [LOW, HIGH].map((end) => greatest(placed.map((each) => each.end[end])));

  const lineOf = (plan, placed, hours, until, lastStart) =>
    ({ plan, placed, hours, until, start: placed[0].start[LOW], finish: finishOf(placed), lastStart });

  /** From a start on; `hours` is `{opens, closes}` of each day, or null. */
  const lineFrom = (plan, start, prints, hours = null) =>
    lineOf(plan, placeAll(plan, start, prints, hours), hours, false, null);

  /** Done by `finish` even with the longest times; `lastStart` is for the shortest, and null with hours. */
  const lineUntil = (plan, finish, prints, hours = null) => {
    const start = startFor(plan, finish, prints, hours, HIGH);
    const last = hours ? null : startFor(plan, finish, prints, null, LOW);
    return lineOf(plan, placeAll(plan, start, prints, hours), hours, true, last);
  };

  const startFor = (plan, finish, prints, hours, end) => {
    let start = backward(plan, finish, hours, end);
    for (;;) {
      const placed = placeAll(plan, start, prints, hours);
      const over = finishOf(placed)[end] - finish;
      if (over <= 0n) return placed[0].start[LOW];
      start -= over;
    }
  };

  /** A start to begin the search from: each sitting as late as it may be. */
  const backward = ({ pieces, perMinute }, finish, hours, end) => {
    let at = finish;
    let last = pieces.length;
    while (last > 0) {
      const { kind } = pieces[last - 1];
      let first = last;
      while (first > 0 && pieces[first - 1].kind === kind) first -= 1;
      const lasting = total(pieces.slice(first, last).map((piece) => piece.lasts[end]));
      at = hours && kind === "work" ? lastStart(hours, DAY * perMinute, at, lasting) : at - lasting;
      last = first;
    }
    return at;
  };

  /** What is to be minded of the clock times: hours that are too short, waits held on, daylight that may be lacking. */
  const clockWarnings = ({ plan, placed, hours }) => {
    const { words, pieces, bright } = plan;
    const day = dayOfParts(plan);
    const said = [];
    const titles = (found) => [...new Set(found.map(({ piece }) => piece.title))];
    if (hours) {
      pieces.forEach((piece, n) => {
        if (sitsDown(plan, n) && sitting(plan, n) > hours.closes - hours.opens) {
          said.push(`${piece.title}: ${words["long day"]}`);
        }
      });
      said.push(...titles(placed.filter((each) => each.held)).map((title) => `${title}: ${words["drawn out"]}`));
    }
    const dark = placed.filter(({ piece, start, end }) =>
      piece.daylight && ![LOW, HIGH].every((at) => hold(bright, day, start[at], end[at])));
    if (dark.length > 0) said.push(`${titles(dark).join(", ")}: ${words.dark}`);
    if (floor(placed[0].start[LOW], day) !== floor(placed.at(-1).end[HIGH], day)) said.push(words["summer time"]);
    return said;
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

  /** `08:00` and `22:00` as the hours of a day; null for anything that is no stretch of one day. */
  const readHours = (from, to, plan) => {
    const [opens, closes] = [from, to].map((text) => {
      const match = /^([01][0-9]|2[0-3]):([0-5][0-9])/.exec(text);
      return match ? BigInt(Number(match[1]) * 60 + Number(match[2])) * plan.perMinute : null;
    });
    return opens === null || closes === null || opens >= closes ? null : { opens, closes };
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
    readTiming, readMoment, readHours, lineFrom, lineUntil, overnight, moment, clock, span, bathLives, bathWarnings,
    clockWarnings, midnightBetween, floor, DAY,
  });
})(globalThis);
