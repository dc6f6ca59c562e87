"use strict";
/*
 * Words: how a text is cut, folded and stemmed, and how a query is read. Pure: no page, no clock.
 * Twin of sitegen/search/words.py and query.py; stems are those of the Snowball project's English stemmer.
 */
(function (root) {
  const NUMBER = "[0-9]+(?:[.,][0-9]+)?";
  const LETTER = "[\\p{L}\\p{N}]";
  // In this order, since the first that fits wins: CAS number, ratio, measure; a word may be a formula or a compound.
  const PIECE = new RegExp(
    `([0-9]{2,7}-[0-9]{2}-[0-9](?!${LETTER}))` +
    `|(${NUMBER}(?:\\+${NUMBER})+(?!${LETTER}))` +
    `|(${NUMBER}(?:[-–]${NUMBER})?[ \\u00a0\\u202f]?(?:%|°[cf]|(?:mg|kg|g|ml|l|cm|mm|min|h|s)(?!${LETTER})))` +
    `|${LETTER}+(?:((?:(?:[[(][a-z0-9()]{1,12}[\\])][0-9]*)+(?:[.·][0-9]*H2O)?|[.·][0-9]*H2O)(?!${LETTER}))` +
    `|((?:[\\-‐‑]${LETTER}+)+)|(?:['’]${LETTER}+)+)?`, "giu");
  const APART = { ß: "ss", æ: "ae", œ: "oe", ø: "o", ł: "l", đ: "d" };
  const SPELLINGS = [["sulph", "sulf"], ["colour", "color"], ["grey", "gray"], ["aluminum", "aluminium"],
    ["gelatine", "gelatin"], ["mould", "mold"], ["iz", "is"], ["yz", "ys"]];
  const SMALL = new Set(("a an and are as at be but by can did do does for from had has have how i if in into is it its me " +
    "my of on or so that the their them then there these they thing this those to was we were what when where which who " +
    "why will with you your").split(" "));
  const MOST = 12;

  /** A word as it is compared: no case, accents, apostrophes or brackets, one spelling. */
  const fold = (word) => {
    const bare = word.replace(/['’]s$/i, "").toLowerCase().replace(/[ßæœøłđ]/g, (sign) => APART[sign])
      .normalize("NFKD").toLowerCase().replace(/\p{M}/gu, "").replace(/[^\p{L}\p{N}]+/gu, "");
    return SPELLINGS.reduce((text, [other, own]) => text.replaceAll(other, own), bare);
  };

  const KEPT = new Set(["andes", "atlas", "bias", "cosmos", "howe", "news", "sky"]);
  const IRREGULAR = { early: "earli", gently: "gentl", idly: "idl", only: "onli", singly: "singl", skies: "sky", skis: "ski",
    ugly: "ugli" };
  const SECOND = { tional: "tion", enci: "ence", anci: "ance", abli: "able", entli: "ent", izer: "ize", ization: "ize",
    ational: "ate", ation: "ate", ator: "ate", alism: "al", aliti: "al", alli: "al", fulli: "ful", fulness: "ful",
    ousli: "ous", ousness: "ous", iveness: "ive", iviti: "ive", biliti: "ble", bli: "ble", ogist: "og", lessli: "less",
    ogi: "og", li: "" };
  const THIRD = { tional: "tion", ational: "ate", alize: "al", icate: "ic", iciti: "ic", ical: "ic", ful: "", ness: "",
    ative: "" };
  const ending = (table) => new RegExp(`(?:${table})$`);
  const SECONDS = ending(Object.keys(SECOND).join("|"));
  const THIRDS = ending(Object.keys(THIRD).join("|"));
  const FOURTHS = ending("al|ance|ence|er|ic|able|ible|ant|ement|ment|ent|ism|ate|iti|ous|ive|ize|ion");
  const SHORT = /(?:[^aeiouy][aeiouy][^aeiouywxY]|^[aeiouy][^aeiouy]|past)$/;

  /** Where the part after the first vowel and its consonant begins, from `at` on. */
  const region = (word, at) => {
    const found = word.slice(at).match(/[aeiouy][^aeiouy]/);
    return found ? at + found.index + 2 : word.length;
  };

  /** Plurals (step 1a). */
  const singular = (word) => {
    if (word.endsWith("sses")) return word.slice(0, -2);
    if (/ie[ds]$/.test(word)) return word.slice(0, word.length > 4 ? -2 : -1);
    return !/[us]s$/.test(word) && /[aeiouy].+s$/.test(word) ? word.slice(0, -1) : word;
  };

  /** Past and present participles (step 1b). */
  const unbent = (word, first) => {
    const found = word.match(/(?:eedly|ingly|edly|eed|ing|ed)$/);
    if (!found) return word;
    const rest = word.slice(0, found.index);
    if (found[0].startsWith("eed")) return found.index >= first && !/^(?:succ|proc|exc)$/.test(rest) ? `${rest}ee` : word;
    if (found[0] === "ing" && /^[^aeiouy]y$/.test(rest)) return `${rest[0]}ie`;
    if (found[0] === "ing" && /^(?:even|cann|inn|earr|herr|out)$/.test(rest)) return word;
    if (!/[aeiouy]/.test(rest)) return word;
    if (/(?:at|bl|iz)$/.test(rest)) return `${rest}e`;
    if (/(?:bb|dd|ff|gg|mm|nn|pp|rr|tt)$/.test(rest)) return /^[aeo]..$/.test(rest) ? rest : rest.slice(0, -1);
    return rest.length === first && SHORT.test(rest) ? `${rest}e` : rest;
  };

  /** The word with its ending (in the first region) put as the table says; `asked` may refuse. */
  const put = (word, endings, first, asked, table) => {
    const found = word.match(endings);
    if (!found || found.index < first) return word;
    const rest = word.slice(0, found.index);
    return asked(found[0], rest) ? rest + (table[found[0]] ?? "") : word;
  };

  const bare = (word) => {
    let text = word.replace(/^y/, "Y").replace(/([aeiouy])y/g, "$1Y");
    const own = text.match(/^(?:arsen|commun|emerg|gener|inter|later|organ|past|univers)/);
    const first = own ? own[0].length : region(text, 0);
    const second = region(text, first);
    text = unbent(singular(text), first).replace(/(.[^aeiouy])[yY]$/, "$1i");
    text = put(text, SECONDS, first, (end, rest) =>
      end === "li" ? /[cdeghkmnrt]$/.test(rest) : end !== "ogi" || rest.endsWith("l"), SECOND);
    text = put(text, THIRDS, first, (end, rest) => end !== "ative" || rest.length >= second, THIRD);
    text = put(text, FOURTHS, second, (end, rest) => end !== "ion" || /[st]$/.test(rest), {});
    const last = text.length - 1;
    const short = text.slice(0, -1);
    if (text.endsWith("e") && (last >= second || (last >= first && !SHORT.test(short)))) text = short;
    else if (text.endsWith("ll") && last >= second) text = short;
    return text.replaceAll("Y", "y");
  };

  const stems = new Map();

  /** The stem of a folded word; what is not plain letters stays as it is. */
  const stem = (word) => {
    if (!/^[a-z]{3,}$/.test(word) || KEPT.has(word)) return word;
    if (!stems.has(word)) stems.set(word, Object.hasOwn(IRREGULAR, word) ? IRREGULAR[word] : bare(word));
    return stems.get(word);
  };

  const named = ([text, cas, ratio, measure, formula, compound]) => {
    if (cas || ratio) return [[text.replaceAll(",", ".")], []];
    if (measure) {
      const unit = text.replace(/[0-9., \u00a0\u202f–-]/g, "").toLowerCase();
      return [text.match(new RegExp(NUMBER, "g")).map((number) => number.replaceAll(",", ".") + unit), []];
    }
    if (formula) {
      const [whole, dry] = [fold(text), fold(text.replace(/[.·][0-9]*H2O$/i, ""))];
      return [[whole], dry === whole ? [] : [dry]];
    }
    if (!compound) return [[fold(text)].filter(Boolean), []];
    const parts = text.split(/[-‐‑]/).map(fold).filter(Boolean);
    return [parts, parts.length > 1 ? [parts.join("")] : []];
  };

  /** Everything in a composed text (NFC) that can be sought: start, end, words in a row, words beside them. */
  const pieces = (text) => [...text.matchAll(PIECE)].map((match) => {
    const [words, beside] = named(match);
    return { start: match.index, end: match.index + match[0].length, words, beside };
  }).filter(({ words }) => words.length);

  const wordsOf = (text) => pieces(text).flatMap(({ words }) => words);
  const phrase = (text) => wordsOf(text).map(stem);

  /** What was typed, taken apart: words, words left out, phrases, phrases left out. Any text is a query. */
  const parse = (typed) => {
    const [quoted, phrases, notPhrases] = [[], [], []];
    const loose = typed.normalize("NFC").replace(/(^|\s)([-−]?)"([^"]*)"?/g, (all, before, minus, text) => {
      const row = phrase(text);
      if (minus) notPhrases.push(...(row.length ? [row] : []));
      else {
        if (row.length > 1) phrases.push(row);
        quoted.push(...wordsOf(text).map((word) => ({ text: word, quoted: true })));
      }
      return " ";
    });
    const minus = /(^|\s)[-−](\p{L}\S*)/gu;
    const without = [...loose.matchAll(minus)].flatMap((match) => wordsOf(match[2]));
    const found = wordsOf(loose.replace(minus, " "));
    const last = /\S$/.test(loose) ? found.length - 1 : -1;
    const words = [...found.map((text, at) => ({ text, unfinished: at === last })), ...quoted]
      .filter(({ text, unfinished }) => !SMALL.has(text) || (unfinished && found.length === 1));
    return { words: words.slice(0, MOST), without, phrases, notPhrases };
  };

  root.traysideWords = Object.freeze({ fold, stem, pieces, phrase, parse });
})(globalThis);
