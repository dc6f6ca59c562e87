"""Sources: the texts of an archive, composed. Pure; reading them from a folder is `folder`."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from sitegen.problems import Problem, Problems
from sitegen.read.compose import compose
from sitegen.read.nodes import MapNode

SETTINGS = "archive.yaml"
_LAST: Final[dict[str, tuple[str, MapNode | None, tuple[Problem, ...]]]] = {}
"""Each file's text as it was last read, composed: a preview composes only what was saved, of however many files."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sources:
    """What was read: `texts` by path within the archive, built-in cards as `base/<id>.yaml`.

    `documents` holds a tree for each text, or None where the text could not be composed (a problem
    has been added then). `unreadable` names files that exist but gave no text. `pictures` are paths
    below `images/`.
    """

    texts: Mapping[str, str]
    documents: Mapping[str, MapNode | None]
    pictures: frozenset[str] = frozenset()
    unreadable: frozenset[str] = frozenset()

    def below(self, folder: str) -> Mapping[str, MapNode | None]:
        """The documents of one folder by file name without `.yaml`, sorted; None for what is unreadable."""
        paths = {*self.documents, *self.unreadable}
        below = (p for p in paths if p.startswith(f"{folder}/") and p.endswith(".yaml"))
        slugs = {path[len(folder) + 1 : -len(".yaml")]: path for path in below}
        return {slug: self.documents.get(slugs[slug]) for slug in sorted(slugs)}


def compose_sources(
    texts: Mapping[str, str],
    problems: Problems,
    *,
    pictures: frozenset[str] = frozenset(),
    unreadable: frozenset[str] = frozenset(),
) -> Sources:
    """Compose every text; what cannot be is None and has its problem."""
    documents = {file: _composed(texts[file], file, problems) for file in sorted(texts)}
    return Sources(texts=texts, documents=documents, pictures=pictures, unreadable=unreadable)


def _composed(text: str, file: str, problems: Problems) -> MapNode | None:
    last = _LAST.get(file)
    if last is None or last[0] != text:
        found = Problems()
        root = compose(text, file, found)
        last = _LAST[file] = text, root, tuple(found.found)
    for problem in last[2]:
        problems.add(problem)
    return last[1]
