"use strict";
/*
 * Finding: which filed words are meant, and which documents answer best. Only the shards that a query
 * needs are loaded, as scripts that put themselves on the shelf. Whole numbers throughout, so that the
 * order is that of sitegen/search/ (lexicon.py, near.py, rank.py, shards.py), its twin.
 */
(function (root) {
  const { beginning, unbent, neighbours } = root.traysideWords;
  const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const VALUE = Object.fromEntries([...SIGNS].map((sign, value) => [sign, value]));
  const [SURE, BEGUN, SLIPPED, JOINED] = [100, 60, [0, 64, 40], 90];
  const [MOST_BEGUN, MOST_NEAR, SHARDS, FAR, LAST] = [12, 6, 8, 9, "\uffff"];

  const shelf = root.traysideShelf ??= {};
  const coming = {};

  /** Loads a script of the edition; of a sealed one whoever opened it knows where it lies. */
  const load = async (path) => {
    const src = await (root.traysideAddressOf?.(path) ?? document.documentElement.dataset.root + path);
    return new Promise((onload, failed) => {
      const onerror = () => failed(new Error(path));
      document.head.append(Object.assign(document.createElement("script"), { src, onload, onerror }));
    });
  };

  /** Loads a script once; one that did not come is asked for again. */
  const once = (path) => coming[path] ??= load(path).catch((error) => {
    delete coming[path];
    throw error;
  });

  const all = (awaited) => Promise.all(awaited);

  /** What a shard holds. */
  const need = async (name) => {
    if (!(name in shelf)) await once(`search/${name}.js`);
    return shelf[name];
  };

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

  const slipsAllowed = (word) => /^\p{L}{4,}$/u.test(word) ? word.length < 8 ? 1 : 2 : 0;

  /** Slips between two words, FAR when over `most`; unfinished: to the nearest beginning of `meant`. */
  const slips = (typed, meant, most, unfinished) => {
    if (!unfinished && meant.length - typed.length > most) return FAR;
    const width = Math.min(meant.length, typed.length + most);
    let [earlier, before, row] = [[], [], [...Array(width + 1).keys()]];
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

  /** The shards that may hold words with that start, those around `about` when they are too many. */
  const shardsOf = (starts, start, about, most) => {
    if (!starts.length) return [];
    const [first, middle, last] = [start, about, start + LAST]
      .map((word) => starts.findLastIndex((begins) => begins <= word));
    const low = Math.max(first, Math.min(middle - (most >> 1), last - most + 1));
    return Array.from({ length: Math.min(last - low + 1, most) }, (_, at) => low + at);
  };

  const read = {};

  /** The words of a `w` shard: stem, forms, rarity in hundredths, number of documents, places of its postings. */
  const entries = async (shard) => read[shard] ??= (await need(`w${shard}`)).split("\n").map((line) => {
    const [word, forms, rarity, count, place, whole] = line.split("\t");
    const spelled = forms.split(",").map((form) => form[0] === "!" ? form.slice(1) : word + form);
    return { stem: word, forms: spelled, rarity: Number(rarity), count: Number(count), place, whole };
  });

  /** The words that begin so, those next to `text` when they are in more than `most` shards. */
  const around = async (text, start = beginning(text), most = SHARDS) => {
    const { words } = await need("index");
    return (await all(shardsOf(words, start, text, most).map(entries))).flat();
  };

  /** The most frequent of some entries. */
  const frequent = (most, found) =>
    found.sort((one, other) => other.count - one.count || (one.stem < other.stem ? -1 : 1)).slice(0, most);

  /**
   * The entry that the word is a form of; failing that, one with a form that only ends otherwise. It nearly always
   * lies where the word itself or its stem would be filed, so those shards are asked for first.
   */
  const exactly = async (text, most) => {
    const own = ({ forms }) => forms.includes(text);
    const alike = ({ forms }) => forms.some((form) => unbent(form) === unbent(text));
    const near = (await all([text, unbent(text)].map((word) => around(word, word, 1)))).flat();
    const held = near.some(own) ? near : await around(text, beginning(text), most);
    return held.find(own) ?? held.find(alike);
  };

  /** Words other than `own` that the letters begin; one letter begins too many. */
  const begun = async (text, own) => {
    if (text.length < 2) return [];
    const found = (await around(text, beginning(text + LAST))).filter((entry) => entry !== own && entry.forms.some((form) => form.startsWith(text)));
    return frequent(MOST_BEGUN, found).map((entry) => ({ entry, surely: BEGUN }));
  };

  /** Those with the fewest slips only. */
  const nearest = ({ text, unfinished }, most, held) => {
    const far = held.map(({ forms }) => Math.min(...forms.map((form) => slips(text, form, most, unfinished))));
    const least = Math.min(FAR, ...far);
    return frequent(MOST_NEAR, held.filter((_, at) => far[at] === least && least < FAR))
      .map((entry) => ({ entry, surely: SLIPPED[least] }));
  };

  const backwards = (word) => [...word].reverse().join("");

  /** Words with a slip in their first letters. */
  const byEnding = async (text, most) => {
    const turned = backwards(text);
    const shards = shardsOf((await need("index")).ends, turned.slice(0, 3), turned, 2);
    const held = (await all(shards.map((shard) => need(`e${shard}`)))).flatMap((text) => text.split("\n"));
    const near = held.map((form) => [slips(turned, form, most, false), form]).filter(([far]) => far < FAR)
      .sort(([far, form], [other, beside]) => far - other || (form < beside ? -1 : 1)).slice(0, MOST_NEAR);
    return [...new Set(await all(near.map(([, form]) => exactly(backwards(form)))))].filter(Boolean);
  };

  const sure = (entry) => entry ? [{ entry, surely: SURE }] : [];

  /** What a typed word may mean: itself, what it may become, failing both what is a slip or two away. */
  const meanings = async (word) => {
    const { text, quoted, unfinished } = word;
    const own = await exactly(text);
    const found = sure(own);
    if (quoted) return found;
    if (unfinished || !own) found.push(...await begun(text, own));
    const most = slipsAllowed(text);
    if (found.length || !most) return found;
    const slipped = nearest(word, most, await around(text, text.slice(0, 2)));
    return slipped.length ? slipped : nearest(word, most, await byEnding(text, most));
  };

  const asOne = async (one, other) => {
    if (one.quoted || other.quoted) return [];
    const text = one.text + other.text;
    const entry = await exactly(text, 1);
    if (entry) return [{ entry, surely: JOINED }];
    return other.unfinished ? (await begun(text)).slice(0, 2) : [];
  };

  const groupsOf = async (words) => {
    const [groups, pairs] = await all([
      all(words.map(meanings)),
      all(words.slice(1).map((other, at) => asOne(words[at], other))),
    ]);
    pairs.forEach((pair, at) => {
      for (const meant of pair) {
        for (const group of groups.slice(at, at + 2)) {
          if (group.every(({ entry }) => entry !== meant.entry)) group.push(meant);
        }
      }
    });
    return groups;
  };

  /** What a shard says of a word or an id. */
  const lineOf = async (shard, key) =>
    (await need(shard)).split("\n").find((line) => line.startsWith(`${key}\t`))?.slice(key.length + 1);

  /** The two neighbours as an entry, where they stand so anywhere. Rarities are logarithms, so both have the sum. */
  const entryOf = async (row) => {
    const [one, other] = await all([row[0], row.at(-1)].map((word) => exactly(word)));
    if (!one || !other) return null;
    const stem = [one.stem, ...row.slice(1, -1), other.stem].join(" ");
    const { near } = await need("index");
    const shard = new TextEncoder().encode(stem).reduce((number, byte) => (number * 256 + byte) % near, 0);
    const [place, whole] = (await lineOf(`n${shard}`, stem))?.split("\t") ?? [];
    return place && { stem, forms: [...one.forms, ...other.forms], rarity: one.rarity + other.rarity, place, whole };
  };


  /**
   * For each document the best of the meanings; guesses count no rarer than the commonest of them.
   * Of the commonest words the weightiest documents, and where `every` one is asked for, the others as the lightest.
   */
  const bestOf = async (group, every) => {
    const rarity = Math.min(...group.filter(({ surely }) => surely !== JOINED).map(({ entry }) => entry.rarity));
    const best = new Map();
    await all(group.map(async ({ entry, surely }) => {
      const { place, whole } = entry;
      const worth = surely * (surely < JOINED ? rarity : entry.rarity);
      const put = (number, weight) => {
        if (worth * weight > (best.get(number) ?? 0)) best.set(number, worth * weight);
      };
      numbers(place[0] === "@" ? await lineOf(place.slice(1), entry.stem) : place, true, put);
      if (every && whole) numbers(await lineOf(whole, entry.stem), false, put);
    }));
    return best;
  };

  /** What is shown of a document: kind, title, code, path, texts, what it holds. */
  const documentOf = async (number) => {
    const { places } = await need("index");
    const [first, shard, together] = places.findLast(([begins]) => begins <= number);
    const at = number - first;
    return (await need(`d${shard + Math.floor(at / together)}`))[at % together];
  };

  /** The documents that have every one of some entries. */
  const having = async (entries) => {
    const [first, ...others] = await all(entries.map(async (entry) => bestOf(sure(await entry), true)));
    return [...first.keys()].filter((number) => others.every((found) => found.has(number)));
  };

  /**
   * Every document that answers: order of [number, score], best first and equal ones by number, with the
   * forms of what each word (and each two of a phrase) was taken to mean and those that are like nothing filed.
   * `more` tells that not every document was looked at, but of a common word the weightiest.
   */
  const rank = async ({ words, without, phrases, notPhrases }) => {
    const together = phrases.flatMap(neighbours);
    const sought = [...words, ...together.map((row) => ({ text: row.join(" "), quoted: true }))];
    const groups = [...await groupsOf(words), ...(await all(together.map(entryOf))).map(sure)];
    const best = await all(groups.map((group, at) => bestOf(group, sought[at].quoted)));
    const weights = groups.map((group) => Math.max(0, ...group.map(({ entry }) => entry.rarity)));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const unwanted = [...without.map((word) => [exactly(word)]), ...notPhrases.map((row) => neighbours(row).map(entryOf))];
    const out = new Set((await all(unwanted.map(having))).flat());
    const scores = new Map();
    best.forEach((found, at) => {
      for (const [number, score] of found) {
        const [sum, share] = scores.get(number) ?? [0, 0];
        scores.set(number, [sum + score, share + weights[at]]);
      }
    });
    const needed = best.filter((_, at) => sought[at].quoted);
    const order = [...scores].filter(([number]) => !out.has(number) && needed.every((found) => found.has(number)))
      .map(([number, [sum, share]]) => [number, Math.floor(sum * (2 * total + share) / (3 * total))])
      .sort((one, other) => other[1] - one[1] || one[0] - other[0]);
    const more = groups.some((group, at) => !sought[at].quoted && group.some(({ entry }) => entry.whole));
    const meant = groups.map((group) => group.flatMap(({ entry }) => entry.forms));
    const unknown = sought.filter((_, at) => !groups[at].length).map(({ text }) => text);
    return { order, meant, unknown, more };
  };

  root.traysideRank = Object.freeze({ rank, once, need, lineOf, numbers, documentOf, VALUE });
})(globalThis);
