"use strict";
/*
 * Words: how a text is cut and folded, and how a query is read. Pure: no page, no clock.
 * Twin of sitegen/search/words.py and query.py, without their stems: the index tells the forms of a word.
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

  /** What a word shares with all that is filed with it, so that it can be looked up without a stemmer. */
  const beginning = (word) => word.slice(0, Math.max(2, Math.min(3, word.length - 1), Math.ceil(word.length / 2)));

  /** A word without the ending of a plural or participle: how a form that was never filed is looked up. */
  const unbent = (word) => word.replace(/^([a-z]{3,}?)(?:(?:ing|e)?s|e?d|ing|e)$/, "$1");

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

  const isTold = (word) => !SMALL.has(word);

  /** Each word of a row but the small ones with the next such word, small ones that stand between them included. */
  const neighbours = (row) => {
    const told = row.flatMap((word, at) => isTold(word) ? [at] : []);
    return told.slice(1).map((at, before) => row.slice(told[before], at + 1));
  };

  /** What was typed, taken apart: words, words left out, phrases, phrases left out. Any text is a query. */
  const parse = (typed) => {
    const [quoted, without, phrases, notPhrases] = [[], [], [], []];
    const put = (all, before, minus, text) => {
      const row = wordsOf(text).slice(0, MOST);
      const told = row.filter(isTold);
      if (told.length > 1) (minus ? notPhrases : phrases).push(row.slice(row.indexOf(told[0]), row.findLastIndex(isTold) + 1));
      else (minus ? without : quoted).push(...told);
      return " ";
    };
    const loose = typed.normalize("NFC").replace(/(^|\s)([-−]?)"([^"]*)"?/g, put).replace(/(^|\s)([-−])(\p{L}\S*)/gu, put);
    const found = wordsOf(loose);
    const last = /\S$/.test(loose) ? found.length - 1 : -1;
    const words = found.map((text, at) => ({ text, unfinished: at === last }))
      .filter(({ text, unfinished }) => isTold(text) || (unfinished && found.length === 1))
      .concat(quoted.map((text) => ({ text, quoted: true })));
    return { words: words.slice(0, MOST), without, phrases, notPhrases };
  };

  root.traysideWords = Object.freeze({ beginning, unbent, pieces, neighbours, parse });
})(globalThis);
