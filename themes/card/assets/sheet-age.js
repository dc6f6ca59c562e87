"use strict";
/*
 * Sheet age: a code and a revision, typed or in the address, and whether a sheet of it may still be used. What each
 * revision is stands in the rows of the page (sitegen/compute/sheet_age.py); here they are only found and said. Without
 * this file the rows are read by hand.
 */
(function (root) {
  const form = document.getElementById("lookup");
  const answer = document.getElementById("answer");
  if (!form) return;

  /* What is printed: `IB-07`, then a revision after a dot, a dash, a stroke, a blank, `r` or `rev`. More may follow, as
     in a batch code. */
  const BETWEEN = "[\\s.,:;/·_\\-\\u2010-\\u2015]*";
  const REVISION = "(?:r(?:ev(?:ision)?)?\\.?\\s*)?";
  const CODE = new RegExp(`^\\s*(\\p{L}{2,4})${BETWEEN}(\\d{1,3})(?!\\d)(?:${BETWEEN}${REVISION}(\\d{1,6})(?!\\d))?`, "iu");
  const NUMBER = new RegExp(`^\\s*${REVISION}(\\d{1,6})\\s*$`, "iu");

  const histories = new Map([...document.querySelectorAll(".revisions tbody")].map((body) => [body.id, body]));

  /** The code and the revision in a text; null where it holds no code, revision null where it holds none. */
  const read = (text) => {
    const found = CODE.exec(text.normalize("NFKC"));
    if (!found) return null;
    const [, letters, digits, revision] = found;
    return { code: `${letters.toUpperCase()}-${digits}`, revision: revision === undefined ? null : Number(revision) };
  };

  /** The code as it stands here, also where noughts were left out or added; as typed where it is not here. */
  const known = (code) => {
    if (histories.has(code)) return code;
    const [letters, digits] = code.split("-");
    const alike = [...histories.keys()].filter((id) => id.startsWith(`${letters}-`) &&
      Number(id.slice(letters.length + 1)) === Number(digits));
    return alike.length === 1 ? alike[0] : code;
  };

  const make = (name, words, className = "") => {
    const node = document.createElement(name);
    node.append(...[words].flat());
    if (className) node.className = className;
    return node;
  };

  const several = (first, last) => (first === last ? `Revision ${last}` : `Revisions ${first} to ${last}`);

  /** The rows of the revisions after this one, each with its name. */
  const later = (body, revision) =>
    [...body.querySelectorAll("[data-last]")].filter((row) => Number(row.dataset.last) > revision).map((row) => ({
      name: several(Math.max(Number(row.dataset.first), revision + 1), Number(row.dataset.last)),
      what: row.querySelector(".what")?.textContent ?? "what it changed is not written down",
      mistake: row.querySelector(".mistake")?.textContent ?? "",
    }));

  const facts = (pairs) =>
    make("dl", pairs.map(([name, text]) => make("div", [make("dt", name), make("dd", text)])), "facts");

  const titled = (body) => body.querySelector(".of a").textContent;
  const newest = (body) => `revision ${body.dataset.revision}, ${body.querySelector(".of time").textContent}`;

  /** What a code and a revision mean: a class, a headline, what is said. `body` is the recipe's history. */
  const judge = (body, revision) => {
    const row = [...body.querySelectorAll("[data-last]")].find(
      ({ dataset }) => Number(dataset.first) <= revision && revision <= Number(dataset.last));
    const after = later(body, revision);
    const changed = after.map(({ name, what }) => [name, what]);
    const here = `${titled(body)}, revision ${revision}`;
    switch (row?.dataset.standing) {
      case "current": {
        const retired = body.dataset.status === "retired";
        return {
          kind: retired ? "superseded" : "",
          head: retired ? "The last revision of a retired recipe" : "Current",
          said: [make("p", `${here}, is the newest that this copy of the archive holds.`)],
        };
      }
      case "corrected":
        return {
          kind: "forbidden",
          head: "Do not use this sheet",
          said: [
            make("p", [make("strong", "It holds a mistake that was found later."), ` ${here}.`]),
            facts(after.filter((one) => one.mistake).map((one) => [`Put right in ${one.name.toLowerCase()}`, one.mistake])),
            make("p", make("strong", `All that changed since; the newest is ${newest(body)}:`)),
            facts(changed),
          ],
        };
      case "superseded":
        return {
          kind: "superseded",
          head: "Superseded",
          said: [make("p", `${here}. A newer one exists: ${newest(body)}. What changed since:`), facts(changed)],
        };
      default:
        return {
          kind: "superseded",
          head: "Newer than this copy of the archive",
          said: [make("p", `Your copy of the archive is old: of ${titled(body)} it holds ${newest(body)}, and nothing of ` +
            `revision ${revision}. Open a newer copy, or the archive on the web, before you go by either.`)],
        };
    }
  };

  const links = (body) => {
    const recipe = body.querySelector(".of a");
    const link = make("a", `Open ${recipe.textContent}`);
    link.href = recipe.getAttribute("href");
    return make("p", link);
  };

  const show = ({ kind, head, said }) => {
    answer.replaceChildren(make("section", [make("h2", head), ...said], `verdict ${kind}`.trim()));
  };

  const ask = (words) => answer.replaceChildren(make("p", words, "plain-note"));

  /** What the fields hold: `{code, revision}`, null for nothing, or a sentence where it cannot be read. */
  const asked = () => {
    const code = form.elements.code.value.trim();
    const number = form.elements.revision.value.trim();
    if (!code) return null;
    const found = read(code);
    if (!found) return "Write the code as it is printed: two to four letters and a number.";
    if (!number) return { ...found, code: known(found.code) };
    const revision = NUMBER.exec(number.normalize("NFKC"));
    return revision ? { code: known(found.code), revision: Number(revision[1]) } : "Write the revision as a number.";
  };

  const tell = () => {
    const found = asked();
    if (found === null) answer.replaceChildren();
    else if (typeof found === "string") ask(found);
    else if (!histories.has(found.code)) {
      show({
        kind: "superseded",
        head: `This edition does not know ${found.code}`,
        said: [make("p", "Read the code once more. If it is printed so, ask whoever gave you the sheet before you use it.")],
      });
    } else if (found.revision === null) ask(`Which revision is printed beside ${found.code}? The newest here is ${
      newest(histories.get(found.code))}.`);
    else if (found.revision === 0) ask("The first revision is 1. Read the number once more.");
    else {
      const body = histories.get(found.code);
      const verdict = judge(body, found.revision);
      if (body.dataset.status === "retired") verdict.said.push(make("p", make("strong",
        "This recipe is retired. It is kept so that old prints can be traced, not to be worked from.")));
      else if (body.dataset.status === "trial") verdict.said.push(make("p", "This recipe is on trial: expect it to change."));
      verdict.said.push(links(body));
      show(verdict);
    }
    return found;
  };

  /** The question in the address, so that it can be sent on. */
  const keep = () => {
    const found = tell();
    if (!found?.code || found.revision === null) return;
    const wanted = `#${found.code}.${found.revision}`;
    if (root.location.hash !== wanted) root.history.replaceState(null, "", wanted);
  };

  const place = () => {
    try {
      return decodeURIComponent(root.location.hash.slice(1));
    } catch {
      return ""; // a lone percent sign
    }
  };

  /** The question that the address holds: whoever comes by a sheet's QR code sees the answer, not the table. */
  const recall = () => {
    const found = read(place());
    if (!found) return;
    form.elements.code.value = known(found.code);
    form.elements.revision.value = found.revision ?? "";
    tell();
    (found.revision === null ? form : answer).scrollIntoView({ block: "start", behavior: "instant" });
    (found.revision === null ? form.elements.revision : answer).focus({ preventScroll: true });
  };

  // Anchors of codes and revisions are for readers without this file: nothing may scroll past the answer.
  for (const anchor of document.querySelectorAll(".revisions :is(tbody, [id*='.'])")) anchor.removeAttribute("id");
  form.addEventListener("input", keep);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    keep();
  });
  root.addEventListener("hashchange", recall);
  form.hidden = false;
  recall();
})(globalThis);
