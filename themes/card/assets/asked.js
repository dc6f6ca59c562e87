"use strict";
/*
 * Asked: where a recipe page says what is asked of its mixtures: in one list beside the sentence and in the section of
 * each mixture, with the way to change it and the way back to as written.
 */
(function (root) {
  const { shareText } = root.traysideTogether;
  const { alike, phrase } = root.traysideAsking;
  const { element } = root.traysidePlaces;

  const plain = (refusal) => `${refusal.message}: ${refusal.help}`.replaceAll("`", "");

  /** A button that does something (`data-what`) to the mixture of that local id. */
  const button = (what, local, words) => {
    const made = element("button", "plain no-print", words);
    made.type = "button";
    made.dataset[what] = local;
    return made;
  };

  /** The mixtures that the sentence does not show, each with what is asked of it. */
  const showAlso = (list, { asked, refused }, current) => {
    const said = [
      ...asked.map(({ target, blanks }) => [target, phrase(blanks, target)]),
      ...refused.map(({ target }) => [target, `${target.name}: no answer`]),
    ];
    const others = said.filter(([target]) => target !== current);
    list.replaceChildren(...others.map(([{ local, name }, words]) => {
      const [row, change, not] = [element("li", "", ""), button("change", local, "Change"), button("unask", local, "Not this")];
      change.setAttribute("aria-label", `Change: ${name}`);
      not.setAttribute("aria-label", `Not this: ${name}`);
      row.append(element("b", "", words), " ", change, " ", not);
      return row;
    }));
    list.hidden = others.length === 0;
  };

  /** Put the buttons into the section of a mixture that can be asked for. */
  const offer = (section, { local, name }) => {
    const [change, back] = [button("change", local, "Another amount"), button("unask", local, "Back to as written")];
    change.setAttribute("aria-label", `Another amount of ${name}`);
    back.setAttribute("aria-label", `Back to as written: ${name}`);
    section.querySelector("[data-offer]").append(change, " ", back);
  };

  /** Say in a section what its amounts are for; '' where nothing is asked of the mixture. */
  const stateOf = (id, { asked, all }) => {
    const shares = all?.shares.get(id) ?? [];
    if (shares.some((share) => share.taker !== id)) return shares.map((share) => shareText(share, id)).join(", ");
    const own = asked.find(({ target }) => target.id === id);
    return own ? phrase(own.blanks, own.target) : "";
  };

  const showState = (section, id, answer) => {
    const words = section.querySelector("[data-state]");
    words.textContent = stateOf(id, answer);
    words.hidden = words.textContent === "";
    const back = section.querySelector("[data-unask]");
    if (back) back.hidden = ![...answer.asked, ...answer.refused].some(({ target }) => target.id === id);
  };

  /** Offer to go on from the question of the sentence: another mixture, or the same of one that it suits. */
  const showOnward = (form, { asked, refused }, current, targets) => {
    const open = targets.filter((each) => ![...asked, ...refused].some(({ target }) => target === each));
    const own = asked.find(({ target }) => target === current);
    const suited = own ? alike(own.blanks, current, targets).filter((each) => open.includes(each)) : [];
    const another = form.querySelector("[data-another]");
    another.hidden = !own || open.length === 0;
    another.dataset.another = [...open, ...open].find((each) => targets.indexOf(each) > targets.indexOf(current))?.local
      ?? open[0]?.local ?? "";
    const place = form.querySelector("[data-alikes]");
    const wanted = suited.map(({ local }) => local).join();
    if (place.dataset.alikes === wanted) return; // a button keeps its focus while the reader types
    place.dataset.alikes = wanted;
    place.replaceChildren(...suited.map(({ local, name }) => button("alike", local, `The same for ${name}`)));
  };

  root.traysideAsked = Object.freeze({ plain, showAlso, offer, showState, showOnward });
})(globalThis);
