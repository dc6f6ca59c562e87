"""`python -m tests.bench.quality`: how well searches are answered, against two general ranking libraries.

Two texts. The demo archive with its judged queries (`tests/search/queries.yaml`). And, independent of us, the news
texts of Lee, Pincombe and Welsh (An empirical evaluation of models of text document similarity, CogSci 2005): fifty
documents whose likeness readers judged pair by pair, among three hundred others, as the PyPI package `gensim` carries
them for its tests. There a query is the first ten words of a document, or three long words out of it; it is graded 3
for the document, 2 and 1 for others that readers found very or rather like it. Mistyped: three of the words with one
slip each.

The libraries rank the same whole texts: rank-bm25 (BM25Okapi) on lower-case words, bm25s with its stop words and the
Snowball stemmer.
"""

import random
import re
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from importlib.resources import files
from statistics import fmean

import bm25s
from rank_bm25 import BM25Okapi
from snowballstemmer.english_stemmer import EnglishStemmer

from sitegen.compute.whole import Computed, compute
from sitegen.problems import Problems
from sitegen.read.synonyms import synonyms
from sitegen.render.search_documents import documents
from sitegen.render.search_index import shelf
from sitegen.search.document import Document, Field
from sitegen.search.index import DAMPING, Index
from sitegen.search.query import parse_query
from sitegen.search.rank import Finder
from tests.bench.many import demo
from tests.search.judged import Graded, graded, key_of, ndcg, success

AT = 10
VERY, RATHER = 0.75, 0.5  # of 1: shares of the five steps readers chose from
SEED = 1842
Ranker = Callable[[str], list[str]]


def ours(computed: Computed) -> Ranker:
    """This package over an archive."""
    finder = Finder(shelf(computed).__getitem__)
    return lambda text: [key_of(number, finder) for number, _ in finder.rank(parse_query(text)).order[:AT]]


def ours_plain(texts: Mapping[str, str]) -> Ranker:
    """This package over plain texts: one field of their usual length, damped as BM25 usually is (k1 = 1.2)."""
    usual = round(fmean(len(text.split()) for text in texts.values()))
    field = Field(weight=DAMPING / 1.2, usual=usual, evens=0.75)
    index = Index(fields={name: replace(field) for name in ("title", "about")})
    for key, text in texts.items():
        index.add(Document(kind="process", title="", path=key, texts=(("about", text),)))
    held = {shard.name: shard.data for shard in index.shards()}
    finder, keys = Finder(held.__getitem__), list(texts)
    return lambda text: [keys[number] for number, _ in finder.rank(parse_query(f"{text} ")).order[:AT]]


def okapi(texts: Mapping[str, str]) -> Ranker:
    """rank-bm25; documents without any of the words are left out."""
    keys = list(texts)
    library = BM25Okapi([_lower(text) for text in texts.values()])

    def rank(text: str) -> list[str]:
        scores = library.get_scores(_lower(text))
        return [keys[n] for n in sorted(range(len(keys)), key=lambda n: -scores[n])[:AT] if scores[n] > 0]

    return rank


def sparse(texts: Mapping[str, str]) -> Ranker:
    """bm25s with stop words and stemmer."""
    keys = list(texts)
    stemmer = EnglishStemmer()
    settings = {"stopwords": "en", "stemmer": stemmer.stemWords, "show_progress": False}
    library = bm25s.BM25()
    library.index(bm25s.tokenize(list(texts.values()), **settings), show_progress=False)

    def rank(text: str) -> list[str]:
        tokens = bm25s.tokenize([text], return_ids=False, **settings)
        if not tokens[0]:
            return []
        found, scores = library.retrieve(tokens, k=AT, show_progress=False)
        return [keys[n] for n, score in zip(found[0], scores[0], strict=True) if score > 0]

    return rank


def _lower(text: str) -> list[str]:
    return re.findall(r"\w+", text.lower())


def news() -> tuple[dict[str, str], list[Graded]]:
    """The news texts and the queries made of them."""
    folder = files("gensim").joinpath("test", "test_data")
    judged = folder.joinpath("lee.cor").read_text(encoding="latin-1").splitlines()
    others = folder.joinpath("lee_background.cor").read_text(encoding="latin-1").splitlines()
    rows = folder.joinpath("similarities0-1.txt").read_text(encoding="utf-8").splitlines()
    likeness = [[float(cell) for cell in row.split()] for row in rows]
    texts = {f"news-{n}": text for n, text in enumerate((*judged, *others))}
    return texts, list(_asked(judged, likeness))


def _asked(judged: list[str], likeness: list[list[float]]) -> Iterator[Graded]:
    dice = random.Random(SEED)
    for at, text in enumerate(judged):
        like = {n: max(likeness[at][n], likeness[n][at]) for n in range(len(judged)) if n != at}
        grades = {f"news-{n}": 2 if share >= VERY else 1 for n, share in like.items() if share >= RATHER}
        grades[f"news-{at}"] = 3
        first = text.split()[:10]
        long = dice.sample(sorted(set(re.findall(r"[a-z]{6,}", text))), 3)
        for kind, words in (("ten words", first), ("three words", long)):
            yield Graded(kind=kind, text=" ".join(words), grades=grades)
            yield Graded(kind=f"{kind}, mistyped", text=" ".join(_slipped(words, dice)), grades=grades)


def _slipped(words: list[str], dice: random.Random) -> list[str]:
    """The three longest words with one slip each: letters exchanged, doubled, left out or changed."""
    longest = sorted(range(len(words)), key=lambda n: -len(words[n]))[:3]
    return [_slip(word, dice) if n in longest else word for n, word in enumerate(words)]


def _slip(word: str, dice: random.Random) -> str:
    at = dice.randrange(1, max(2, len(word) - 1))
    match dice.randrange(4):
        case 0:
            return word[: at - 1] + word[at : at + 1] + word[at - 1] + word[at + 1 :]
        case 1:
            return word[:at] + word[at - 1] + word[at:]
        case 2:
            return word[:at] + word[at + 1 :]
        case _:
            return word[:at] + dice.choice("aeiorstn") + word[at + 1 :]


def table(queries: list[Graded], rankers: Mapping[str, Ranker]) -> Iterator[str]:
    """One row a kind of query: nDCG@10 and success@3 of each ranker."""
    kinds = list(dict.fromkeys(query.kind for query in queries))
    yield "| queries | n | " + " | ".join(f"{name} nDCG@10 | S@3" for name in rankers) + " |"
    yield "|---|---|" + "---|---|" * len(rankers)
    for kind in (*kinds, "all"):
        asked = [query for query in queries if kind in (query.kind, "all")]
        cells = []
        for rank in rankers.values():
            orders = [(rank(query.text), query.grades) for query in asked]
            gained, succeeded = (fmean(measure(*each) for each in orders) for measure in (ndcg, success))
            cells.append(f"{gained:.3f} | {succeeded:.2f}")
        yield f"| {kind} | {len(asked)} | " + " | ".join(cells) + " |"


def main() -> None:
    """Print both tables and the demo's ten worst queries."""
    computed = compute(demo(), Problems())
    finder = Finder(shelf(computed).__getitem__)
    found = documents(computed, synonyms())
    texts = {key_of(n, finder): " ".join(text for _, text in document.filed()) for n, document in enumerate(found)}
    mine = ours(computed)
    rows = table(graded(), {"ours": mine, "rank-bm25": okapi(texts), "bm25s": sparse(texts)})
    sys.stdout.write("demo archive\n\n" + "\n".join(rows) + "\n\n")
    texts, queries = news()
    rows = table(queries, {"ours": ours_plain(texts), "rank-bm25": okapi(texts), "bm25s": sparse(texts)})
    sys.stdout.write("news (Lee and others, 2005)\n\n" + "\n".join(rows) + "\n\n")
    worst = sorted(graded(), key=lambda query: ndcg(mine(query.text), query.grades))[:10]
    for query in worst:
        order = mine(query.text)
        gained = f"{ndcg(order, query.grades):.2f}"
        sys.stdout.write(f"{gained} {query.text}: {', '.join(order[:4])}; wanted {query.grades}\n")


if __name__ == "__main__":
    main()
