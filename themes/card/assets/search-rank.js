"use strict";
/*
 * Finding: which filed words are meant, and which documents answer best. Only the shards that a query
 * needs are loaded, as scripts that put themselves on the shelf. Whole numbers throughout, so that the
 * order is that of sitegen/search/ (lexicon.py, near.py, rank.py, shards.py), its twin.
 */
(function (root) {
  const { stem, phrase } = root.traysideWords;
  const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const VALUE = Object.fromEntries([...SIGNS].map((sign, value) => [sign, value]));
  const [SURE, BEGUN, SLIPPED, JOINED] = [100, 60, [0, 64, 40], 90];
  const [MOST_BEGUN, MOST_NEAR, SHARDS, FAR, LAST] = [12, 6, 3, 9, "\uffff"];
  const [LOOKED_SMALL, LOOKED_LARGE, LARGE] = [20, 8, 5000];
  const KINDS = ["recipe", "substance", "process", "trouble", "water", "trial"];

  const shelf = root.traysideShelf ??= {};
  const coming = {};

  /** Where a shard lies; in a sealed edition, where `opening.js` has put it. */
  const addressOf = async (name) => {
    const sealed = await root.traysideAddressOf?.(`search/${name}.js`).catch(() => null);
    return sealed ?? `${document.documentElement.dataset.root}search/${name}.js`;
  };

  const load = async (name) => {
    const path = `search/${name}.js`;
    // In a sealed edition the script lies elsewhere, and whoever opened the edition knows where.
    const address = await (root.traysideAddressOf?.(path) ?? document.documentElement.dataset.root + path);
    await new Promise((done, failed) => {
      const script = document.createElement("script");
      script.src = address;
      script.onload = done;
      script.onerror = () => {
        delete coming[name];
        failed(new Error(name));
      };
      document.head.append(script);
    });
    return shelf[name];
  };

  /** What a shard holds; loads its script once. */
  const need = (name) => coming[name] ??= name in shelf ? Promise.resolve(shelf[name]) : load(name);

  /** The documents of a list of postings, each with its weight, or 1 where none is written. */
  const numbers = (text, weighed, take) => {
    let [number, at] = [-1, 0];
    while (at < text.length) {
      let [step, shift, value] = [0, 0, VALUE[text[at++]]];
      for (; value > 31; value = VALUE[text[at++]]) {
        step += (value & 31) << shift;
        shift += 5;
      }
      number += step + (value << shift) + 1;
      take(number, weighed ? VALUE[text[at++]] : 1);
    }
  };

  const slipsAllowed = (word) => word.length < 4 || !/^\p{L}+$/u.test(word) ? 0 : word.length < 8 ? 1 : 2;

  /** Slips between two words, FAR when over `most`; unfinished: to the nearest beginning of `meant`. */
  const slips = (typed, meant, most, unfinished) => {
    if (typed.length - meant.length > most || (!unfinished && meant.length - typed.length > most)) return FAR;
    const width = Math.min(meant.length, typed.length + most);
    let [earlier, before, row] = [[], [], Array.from({ length: width + 1 }, (_, at) => at)];
    for (let i = 1; i <= typed.length; i += 1) {
      [earlier, before, row] = [before, row, [i]];
      const sign = typed[i - 1];
      for (let j = 1; j <= width; j += 1) {
        let cost = Math.min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (sign === meant[j - 1] ? 0 : 1));
        const exchanged = i > 1 && j > 1 && sign === meant[j - 2] && typed[i - 2] === meant[j - 1];
        if (exchanged) cost = Math.min(cost, earlier[j - 2] + 1);
        row.push(cost);
      }
      if (Math.min(...row) > most) return FAR;
    }
    const found = unfinished ? Math.min(...row) : row[width];
    return found <= most ? found : FAR;
  };

  /** How many of the sorted starts are not after the word. */
  const upTo = (starts, word) => {
    let [low, high] = [0, starts.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (word < starts[middle]) high = middle;
      else low = middle + 1;
    }
    return low;
  };

  /** The shards that may hold words from low to high, those around `about` when they are too many. */
  const shardsOf = (starts, low, high, about) => {
    if (!starts.length) return [];
    let first = Math.max(0, upTo(starts, low) - 1);
    let last = Math.max(first, upTo(starts, high) - 1);
    if (last - first >= SHARDS) {
      const middle = Math.max(first, upTo(starts, about) - 1);
      first = Math.max(first, Math.min(middle - (SHARDS >> 1), last - SHARDS + 1));
      last = first + SHARDS - 1;
    }
    return Array.from({ length: last - first + 1 }, (_, at) => first + at);
  };

  const read = {};

  /** The words of a `w` shard: stem, forms, rarity in hundredths, number of documents, places of its postings. */
  const entries = async (shard) => read[shard] ??= (await need(`w${shard}`)).split("\n").map((line) => {
    const [word, forms, rarity, count, place, whole] = line.split("\t");
    const spelled = forms.split(",").map((form) => form[0] === "!" ? form.slice(1) : word + form);
    return { stem: word, forms: spelled, rarity: Number(rarity), count: Number(count), place, whole };
  });

  const between = async (low, high, about) => {
    const { words } = await need("index");
    return (await Promise.all(shardsOf(words, low, high, about).map(entries))).flat();
  };

  const byCount = (one, other) => other.count - one.count || (one.stem < other.stem ? -1 : 1);

  const exactly = async (text) => {
    const key = stem(text);
    return (await between(key, key, key)).find((entry) => entry.stem === key);
  };

  const begun = async (text) => {
    if (text.length < 2) return [];
    const own = stem(text);
    return (await between(text.slice(0, 3), text + LAST, text))
      .filter((entry) => entry.stem !== own && entry.forms.some((form) => form.startsWith(text)))
      .sort(byCount).slice(0, MOST_BEGUN).map((entry) => ({ entry, surely: BEGUN }));
  };

  /** Those with the fewest slips only, the most frequent first. */
  const nearest = (found) => {
    const least = Math.min(FAR, ...found.map(({ by }) => by));
    return found.filter(({ by }) => by === least && by < FAR).map(({ entry }) => entry)
      .sort(byCount).slice(0, MOST_NEAR).map((entry) => ({ entry, surely: SLIPPED[least] }));
  };

  const near = async ({ text, unfinished }, most) => {
    const held = await between(text.slice(0, 2), text.slice(0, 2) + LAST, text);
    return nearest(held.map((entry) =>
      ({ entry, by: Math.min(...entry.forms.map((form) => slips(text, form, most, unfinished))) })));
  };

  const nearByEnding = async ({ text }, most) => {
    const turned = [...text].reverse().join("");
    const { ends } = await need("index");
    const shards = shardsOf(ends, turned.slice(0, 3), turned.slice(0, 3) + LAST, turned).slice(0, SHARDS - 1);
    const found = new Map();
    for (const held of await Promise.all(shards.map((shard) => need(`e${shard}`)))) {
      for (const line of held.split("\n")) {
        const [form, key] = line.split("\t");
        const by = slips(turned, form, most, false);
        if (by !== FAR) found.set(key, Math.min(by, found.get(key) ?? FAR));
      }
    }
    const keys = [...found.keys()].sort((one, other) => found.get(one) - found.get(other) || (one < other ? -1 : 1));
    const met = await Promise.all(keys.slice(0, MOST_NEAR).map(async (key) =>
      ({ by: found.get(key), entry: (await between(key, key, key)).find((entry) => entry.stem === key) })));
    return nearest(met.filter(({ entry }) => entry));
  };

  /** What a typed word may mean: itself, what it may become, failing both what is a slip or two away. */
  const meanings = async (word) => {
    const own = await exactly(word.text);
    const sure = own ? [{ entry: own, surely: SURE }] : [];
    if (word.quoted) return sure;
    const found = [...sure, ...(word.unfinished || !own ? await begun(word.text) : [])];
    const most = slipsAllowed(word.text);
    if (found.length || !most) return found;
    const slipped = await near(word, most);
    return slipped.length ? slipped : nearByEnding(word, most);
  };

  const asOne = async (one, other) => {
    if (one.quoted || other.quoted) return [];
    const entry = await exactly(one.text + other.text);
    if (entry) return [{ entry, surely: JOINED }];
    return other.unfinished ? (await begun(one.text + other.text)).slice(0, 2) : [];
  };

  const groupsOf = async (words) => {
    const [groups, pairs] = await Promise.all([
      Promise.all(words.map(meanings)),
      Promise.all(words.slice(1).map((other, at) => asOne(words[at], other))),
    ]);
    pairs.forEach((pair, at) => {
      for (const meant of pair) {
        for (const group of groups.slice(at, at + 2)) {
          if (group.every(({ entry }) => entry.stem !== meant.entry.stem)) group.push(meant);
        }
      }
    });
    return groups;
  };

  /** Goes through a word's postings; of the commonest words the weightiest only, unless `all`. */
  const postings = async ({ stem: word, place, whole }, all, take) => {
    const shard = all && whole ? `q${whole}` : place.replace("@", "p");
    if (shard === place) return numbers(place, true, take);
    const start = `${word}\t`;
    const line = (await need(shard)).split("\n").find((each) => each.startsWith(start));
    return numbers(line.slice(start.length), true, take);
  };

  /** For each document the best of the meanings; guesses count no rarer than the commonest of them. */
  const bestOf = async (group, all) => {
    const rarity = Math.min(...group.filter(({ surely }) => surely !== JOINED).map(({ entry }) => entry.rarity));
    const best = new Map();
    await Promise.all(group.map(({ entry, surely }) => {
      const worth = surely * (surely === SURE || surely === JOINED ? entry.rarity : rarity);
      return postings(entry, all, (number, weight) => {
        if (worth * weight > (best.get(number) ?? 0)) best.set(number, worth * weight);
      });
    }));
    return best;
  };

  /** What is shown of a document: kind, title, code, path, texts, what it holds. */
  const documentOf = async (number) => {
    const { counts, together } = await need("index");
    let [shard, left] = [0, number];
    for (const kind of KINDS) {
      const count = counts[kind] ?? 0;
      if (left < count) return (await need(`d${shard + Math.floor(left / together[kind])}`))[left % together[kind]];
      left -= count;
      shard += Math.ceil(count / together[kind]);
    }
    throw new RangeError(number);
  };

  const holdsRow = (row, sought) => row.some((_, at) => sought.every((word, by) => row[at + by] === word));

  const says = async (number, { phrases, notPhrases }) => {
    const [, title, code, , texts] = await documentOf(number);
    const said = (sought) => [title, code, ...texts.map(([, text]) => text)].some((text) => holdsRow(phrase(text), sought));
    return phrases.every(said) && !notPhrases.some(said);
  };

  /**
   * Every document that answers: order of [number, score], best first and equal ones by number, with the
   * stems each word was taken to mean and the words that are like nothing filed. `more` tells that not
   * every document was looked at: of a common word the weightiest, for a phrase the first (`left`: `times`
   * as many can be asked for).
   */
  const rank = async (query, times = 1) => {
    const groups = await groupsOf(query.words);
    const best = await Promise.all(groups.map((group, at) => bestOf(group, query.words[at].quoted)));
    const weights = groups.map((group) => Math.max(0, ...group.map(({ entry }) => entry.rarity)));
    const total = weights.reduce((sum, weight) => sum + weight, 0) || 1;
    const out = new Set();
    for (const entry of await Promise.all(query.without.map(exactly))) {
      if (entry) await postings(entry, true, (number) => out.add(number));
    }
    const scores = new Map();
    best.forEach((found, at) => {
      for (const [number, score] of found) {
        const [sum, share] = scores.get(number) ?? [0, 0];
        scores.set(number, [sum + score, share + weights[at]]);
      }
    });
    const needed = best.filter((_, at) => query.words[at].quoted);
    let order = [...scores].filter(([number]) => !out.has(number) && needed.every((found) => found.has(number)))
      .map(([number, [sum, share]]) => [number, Math.floor(sum * (2 * total + share) / (3 * total))])
      .sort((one, other) => other[1] - one[1] || one[0] - other[0]);
    const checked = query.phrases.length + query.notPhrases.length > 0;
    const common = groups.some((group, at) => !query.words[at].quoted && group.some(({ entry }) => entry.whole));
    const { documents } = await need("index");
    const looked = times * (documents > LARGE ? LOOKED_LARGE : LOOKED_SMALL);
    const left = checked && order.length > looked;
    if (checked) {
      const first = order.slice(0, looked);
      const kept = await Promise.all(first.map(([number]) => says(number, query)));
      order = first.filter((_, at) => kept[at]);
    }
    const meant = groups.map((group) => group.map(({ entry }) => entry.stem));
    const unknown = query.words.filter((_, at) => !groups[at].length).map(({ text }) => text);
    return { order, meant, unknown, left, more: left || common };
  };

  root.traysideRank = Object.freeze({ rank, need, numbers, documentOf, VALUE });
})(globalThis);
