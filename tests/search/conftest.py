"""The demo archive, and a small one with planted words, as indexes that are read shard by shard."""

from collections.abc import Mapping
from typing import Any

import pytest

from sitegen.compute.whole import Computed, compute
from sitegen.problems import Problems
from sitegen.render.search_index import shelf
from sitegen.search.document import Document
from sitegen.search.index import Index, document_shards
from sitegen.search.rank import Finder
from tests.bench.many import demo


@pytest.fixture(scope="session")
def computed() -> Computed:
    """The demo archive, all of it."""
    archive = demo()
    return compute(archive.edition(archive.settings.editions[-1]), Problems())


@pytest.fixture(scope="session")
def shards(computed: Computed) -> Mapping[str, Any]:
    """Its shards by name."""
    return shelf(computed)


@pytest.fixture(scope="session")
def finder(shards: Mapping[str, Any]) -> Finder:
    """A reader of its index."""
    return Finder(shards.__getitem__)


def count_of(shards: Mapping[str, Any]) -> int:
    """How many documents an index has."""
    return sum(len(data) for name, data in shards.items() if name[0] == "d")


def small(*documents: Document) -> Finder:
    """A reader of an index of a few documents, in the order of their kinds."""
    index = Index()
    for document in documents:
        index.add(document)
    held: dict[str, Any] = {shard.name: shard.data for shard in document_shards(documents)}
    held |= {shard.name: shard.data for shard in index.shards()}
    return Finder(held.__getitem__)


def recipe(title: str, *texts: tuple[str, str], code: str = "") -> Document:
    """A recipe of that title."""
    return Document(kind="recipe", title=title, code=code, path=f"{title}.html", texts=texts)
