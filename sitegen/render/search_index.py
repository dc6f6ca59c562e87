"""The search index of one edition as classic scripts, each of which puts one shard on the shelf.

Scripts and not JSON files: a folder opened from a disk may load scripts but not fetch data. What a
shard holds is `search/`; `search*.js` in the theme loads the few that a query needs.
"""

import json
from collections.abc import Iterator, Mapping

from sitegen.compute.whole import Computed
from sitegen.read.synonyms import synonyms
from sitegen.render.page import Page
from sitegen.render.search_documents import documents, in_order, traits
from sitegen.search.document import Document
from sitegen.search.facets import facet_shards
from sitegen.search.index import Index, document_shards
from sitegen.search.shards import Shard
from sitegen.search.traits import facets


def search_pages(computed: Computed) -> Iterator[Page]:
    """Every shard as a file below `search/`."""
    return (Page(path=f"search/{shard.name}.js", content=script(shard)) for shard in shards(computed))


def shelf(computed: Computed) -> Mapping[str, object]:
    """Every shard by its name, as the terminal reads them."""
    return {shard.name: shard.data for shard in shards(computed)}


def script(shard: Shard) -> bytes:
    """A shard as the browser loads it. No `<`, so that nothing an author types looks like markup."""
    text = json.dumps(shard.data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return f'(globalThis.traysideShelf??={{}})["{shard.name}"]={text};\n'.encode()


def shards(computed: Computed) -> Iterator[Shard]:
    """The index of what this edition's readers may see."""
    index = Index()
    yield from document_shards(_filed(documents(computed, synonyms()), index))
    yield from index.shards()
    recipes = in_order(computed)
    processes = tuple((p.id, p.name) for p in computed.archive.settings.processes)
    names = {card.id: card.name for card in computed.archive.substances}
    yield from facet_shards([traits(r, computed) for r in recipes], facets(processes), names)


def _filed(found: Iterator[Document], index: Index) -> Iterator[Document]:
    """The documents as they pass, each filed; texts are not kept."""
    for document in found:
        index.add(document)
        yield document
