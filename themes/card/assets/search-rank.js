"use strict";
/*
 * Finding: which filed words are meant, and which documents answer best. Only the shards that a query
 * needs are loaded, as scripts that put themselves on the shelf. Whole numbers throughout, so that the
 * order is that of sitegen/search/ (lexicon.py, near.py, rank.py, shards.py), its twin.
 */
(function (root) {
  const { beginning, unbent, wordsOf } = root.traysideWords;
  const SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
  const VALUE = Object.fromEntries([...SIGNS].map((sign, value) => [sign, value]));
  const [SURE, BEGUN, SLIPPED, JOINED] = [100, 60, [0, 64, 40], 90];
  const [MOST_BEGUN, MOST_NEAR, SHARDS, FAR, LAST] = [12, 6, 3, 9, "\uffff"];

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

  /** The shards that may hold words with that start, those around `about` when they are too many. */
  const shardsOf = (starts, start, about) => {
    if (!starts.length) return [];
    const [first, middle, last] = [start, about, start + LAST].map((word) =>
      Math.max(0, starts.findLastIndex((begins) => begins <= word)));
    const low = Math.max(first, Math.min(middle - (SHARDS >> 1), last - SHARDS + 1));
    return Array.from({ length: Math.min(last - low + 1, SHARDS) }, (_, at) => low + at);
  };

  const read = {};

  /** The words of a `w` shard: stem, forms, rarity in hundredths, number of documents, places of its postings. */
  const entries = async (shard) => read[shard] ??= (await need(`w${shard}`)).split("\n").map((line) => {
    const [word, forms, rarity, count, place, whole] = line.split("\t");
    const spelled = forms.split(",").map((form) => form[0] === "!" ? form.slice(1) : word + form);
    return { stem: word, forms: spelled, rarity: Number(rarity), count: Number(count), place, whole };
  });

  /** The words that begin so, those next to `text` when they are many. */
  const around = async (text, start = beginning(text)) => {
    const { words } = await need("index");
    return (await Promise.all(shardsOf(words, start, text).map(entries))).flat();
  };

  /** The most frequent of some entries. */
  const frequent = (most, found) =>
    found.sort((one, other) => other.count - one.count || (one.stem < other.stem ? -1 : 1)).slice(0, most);

  /** The entry that the word is a form of; failing that, one with a form that only ends otherwise. */
  const exactly = async (text) => {
    const held = await around(text);
    const bare = unbent(text);
    return held.find(({ forms }) => forms.includes(text)) ??
      held.find(({ forms }) => forms.some((form) => unbent(form) === bare));
  };

  /** Words other than `own` that the letters begin; one letter begins too many. */
  const begun = async (text, own) => {
    if (text.length < 2) return [];
    const found = (await around(text)).filter((entry) => entry !== own && entry.forms.some((form) => form.startsWith(text)));
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
    const shards = shardsOf((await need("index")).ends, turned.slice(0, 3), turned).slice(0, SHARDS - 1);
    const held = (await Promise.all(shards.map((shard) => need(`e${shard}`)))).flatMap((text) => text.split("\n"));
    const near = held.map((form) => [slips(turned, form, most, false), form]).filter(([far]) => far < FAR)
      .sort(([far, form], [other, beside]) => far - other || (form < beside ? -1 : 1)).slice(0, MOST_NEAR);
    return [...new Set(await Promise.all(near.map(([, form]) => exactly(backwards(form)))))].filter(Boolean);
  };

  /** What a typed word may mean: itself, what it may become, failing both what is a slip or two away. */
  const meanings = async (word) => {
    const { text, quoted, unfinished } = word;
    const own = await exactly(text);
    const found = own ? [{ entry: own, surely: SURE }] : [];
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
    const entry = await exactly(text);
    if (entry) return [{ entry, surely: JOINED }];
    return other.unfinished ? (await begun(text)).slice(0, 2) : [];
  };

  const groupsOf = async (words) => {
    const [groups, pairs] = await Promise.all([
      Promise.all(words.map(meanings)),
      Promise.all(words.slice(1).map((other, at) => asOne(words[at], other))),
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
    (await need(shard)).split("\n").find((line) => line.startsWith(`${key}\t`)).slice(key.length + 1);

  /** Goes through a word's postings; of the commonest words the weightiest only, unless `all`. */
  const postings = async ({ stem, place, whole }, all, take) => {
    const shard = all && whole ? `q${whole}` : place.replace("@", "p");
    numbers(shard === place ? place : await lineOf(shard, stem), true, take);
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
    const { places } = await need("index");
    const [first, shard, together] = places.findLast(([begins]) => begins <= number);
    const at = number - first;
    return (await need(`d${shard + Math.floor(at / together)}`))[at % together];
  };

  /** For each word of a phrase every form that stands for it; small words have no other. */
  const formsOf = (row) => Promise.all(row.map(async (word) => (await exactly(word))?.forms ?? [word]));

  const follow = (row, sought) => row.some((_, at) => sought.every((forms, by) => forms.includes(row[at + by])));

  /** Whether a document holds every phrase, and none that is to be left out. */
  const says = async (number, wanted, unwanted) => {
    const [, title, code, , texts] = await documentOf(number);
    const rows = [title, code, ...texts.map(([, text]) => text)].map(wordsOf);
    const said = (sought) => rows.some((row) => follow(row, sought));
    return wanted.every(said) && !unwanted.some(said);
  };

  /**
   * Every document that answers: order of [number, score], best first and equal ones by number, with the
   * forms of what each word was taken to mean and the words that are like nothing filed. `more` tells that not
   * every document was looked at: of a common word the weightiest, for a phrase the first (`left`: `times`
   * as many can be asked for).
   */
  const rank = async (query, times = 1) => {
    const { words, without, phrases, notPhrases } = query;
    const groups = await groupsOf(words);
    const best = await Promise.all(groups.map((group, at) => bestOf(group, words[at].quoted)));
    const weights = groups.map((group) => Math.max(0, ...group.map(({ entry }) => entry.rarity)));
    const total = weights.reduce((sum, weight) => sum + weight, 0) || 1;
    const out = new Set();
    for (const entry of await Promise.all(without.map(exactly))) {
      if (entry) await postings(entry, true, (number) => out.add(number));
    }
    const scores = new Map();
    best.forEach((found, at) => {
      for (const [number, score] of found) {
        const [sum, share] = scores.get(number) ?? [0, 0];
        scores.set(number, [sum + score, share + weights[at]]);
      }
    });
    const needed = best.filter((_, at) => words[at].quoted);
    let order = [...scores].filter(([number]) => !out.has(number) && needed.every((found) => found.has(number)))
      .map(([number, [sum, share]]) => [number, Math.floor(sum * (2 * total + share) / (3 * total))])
      .sort((one, other) => other[1] - one[1] || one[0] - other[0]);
    const checked = phrases.length + notPhrases.length > 0;
    const common = groups.some((group, at) => !words[at].quoted && group.some(({ entry }) => entry.whole));
    const looked = times * (await need("index")).looked;
    const left = checked && order.length > looked;
    if (checked) {
      const [wanted, unwanted] = await Promise.all([phrases, notPhrases].map((rows) => Promise.all(rows.map(formsOf))));
      order = order.slice(0, looked);
      const kept = await Promise.all(order.map(([number]) => says(number, wanted, unwanted)));
      order = order.filter((_, at) => kept[at]);
    }
    const meant = groups.map((group) => group.flatMap(({ entry }) => entry.forms));
    const unknown = words.filter((_, at) => !groups[at].length).map(({ text }) => text);
    return { order, meant, unknown, left, more: left || common };
  };

  root.traysideRank = Object.freeze({ rank, once, need, lineOf, numbers, documentOf, VALUE });
})(globalThis);
