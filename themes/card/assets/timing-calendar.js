"use strict";
/*
 * Calendar files of a timeline (RFC 5545), made in the page: one event a stage and one a wait, at the longest
 * times, on a floating clock. Pure: no DOM; `stamp` is now. Twin of sitegen/render/calendar.py: the same bytes.
 */
(function (root) {
  const { moment, clock } = root.traysideTiming;

  /** Of one line, its end not counted. */
  const OCTETS = 75;
  const CRLF = "\r\n";

  const plain = (date) => date.toISOString().slice(0, 19).replace(/[-:]/g, "");

  /** The calendar of a timeline whose times count from `day`. */
  const calendar = (line, day, stamp) => {
    const lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Trayside//Timeline//EN", "CALSCALE:GREGORIAN"];
    lines.push(`NAME:${escaped(line.plan.name)}`);
    const numbers = new Map();
    for (const placed of line.placed) {
      numbers.set(placed.print, (numbers.get(placed.print) ?? 0) + 1);
      lines.push(...eventOf(placed, numbers.get(placed.print), line, day, stamp));
    }
    lines.push("END:VCALENDAR");
    return lines.map((each) => folded(each) + CRLF).join("");
  };

  const eventOf = (placed, number, line, day, stamp) => {
    const { plan } = line;
    const [start, end, begun] = [placed.start[1], placed.end[1], line.start].map((at) => moment(plan, day, at));
    const several = line.placed.at(-1).print > 1;
    return [
      "BEGIN:VEVENT",
      `UID:${plan.recipe}-${plain(begun)}-${placed.print}-${number}@trayside`,
      `DTSTAMP:${plain(stamp)}Z`,
      `DTSTART:${plain(start)}`,
      // Without an end it takes no time; an end that is no later is not allowed.
      ...(end > start ? [`DTEND:${plain(end)}`] : []),
      `SUMMARY:${escaped(placed.piece.summary + (several ? `, print ${placed.print}` : ""))}`,
      `DESCRIPTION:${escaped(descriptionOf(placed, plan, day))}`,
      `TRANSP:${placed.piece.kind === "work" ? "OPAQUE" : "TRANSPARENT"}`,
      "END:VEVENT",
    ];
  };

  const descriptionOf = ({ piece, start, end }, plan, day) =>
    [`Begins ${when(plan, day, start)}.`, `Ends ${when(plan, day, end)}.`, ...piece.remarks].join("\n");

  const when = (plan, day, ends) => {
    const [early, late] = ends.map((at) => clock(plan, day, at));
    return early === late ? early : `between ${early} and ${late}`;
  };

  /** A TEXT value: backslash, semicolon, comma and line ends escaped, other control characters left out. */
  const escaped = (text) =>
    text
      .replace(/[\\;,]/g, "\\$&")
      .replace(/\r\n|\r|\n/g, "\\n")
      .replace(/[\u0000-\u0008\u000a-\u001f\u007f]/g, "");

  const octetsOf = (character) => new TextEncoder().encode(character).length;

  /** The line in pieces of at most 75 octets, no character cut in two, each but the first after a space. */
  const folded = (line) => {
    const pieces = [""];
    let size = 0;
    for (const character of line) {
      const octets = octetsOf(character);
      if (size + octets > OCTETS) {
        pieces.push(" ");
        size = 1;
      }
      pieces[pieces.length - 1] += character;
      size += octets;
    }
    return pieces.join(CRLF);
  };

  root.traysideCalendar = Object.freeze({ calendar });
})(globalThis);
