"""The judged queries of `queries.yaml`, and how well an order of documents answers them."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import log2
from pathlib import Path

import yaml

from sitegen.search.rank import Finder

QUERIES = Path(__file__).with_name("queries.yaml")


@dataclass(frozen=True, slots=True, kw_only=True)
class Graded:
    """A query of a kind, and the grade of each document that answers it."""

    kind: str
    text: str
    grades: dict[str, int]


def graded() -> list[Graded]:
    """Every query, in the order of the file."""
    kinds = yaml.safe_load(QUERIES.read_text(encoding="utf-8"))
    return [
        Graded(kind=kind, text=str(text), grades=grades)
        for kind, queries in kinds.items()
        for text, grades in queries.items()
    ]


def key_of(number: int, finder: Finder) -> str:
    """A document's name in `queries.yaml`."""
    kind, _, code, path, _, _ = finder.document(number)
    if kind == "recipe":
        return str(code)
    if kind == "trouble":
        return f"#{path.partition('#')[2]}"
    if kind == "water":
        return f"water:{path.partition('#')[2]}"
    if kind == "page":
        return f"page:{path.split('/')[0]}"
    name = str(path.split("/")[1])
    return f"process:{name}" if kind == "process" else name


def ndcg(order: Sequence[str], grades: dict[str, int], at: int = 10) -> float:
    """Normalised discounted cumulative gain, gain 2^grade - 1 (Jarvelin and Kekalainen 2002, Burges 2005)."""

    def gain(found: Sequence[int]) -> float:
        return sum((2**grade - 1) / log2(place + 2) for place, grade in enumerate(found[:at]))

    return gain([grades.get(key, 0) for key in order]) / gain(sorted(grades.values(), reverse=True))


def success(order: Sequence[str], grades: dict[str, int], at: int = 3) -> bool:
    """Whether one of the first is of the best grade there is."""
    return any(grades.get(key, 0) == max(grades.values()) for key in order[:at])
