"""Held: the forms that go into mixtures, through every mixture they draw on."""

from collections.abc import Iterable

from sitegen.model.archive import Archive
from sitegen.model.recipe import Mixture


def forms_held(mixtures: Iterable[Mixture], archive: Archive) -> tuple[str, ...]:
    """Ids of forms in the order they are met, each once; sub-mixtures of other recipes included."""
    waiting = list(mixtures)
    seen = {mixture.id for mixture in waiting}
    forms: dict[str, None] = {}
    for mixture in waiting:
        for line in mixture.lines:
            if line.form:
                forms[line.form] = None
            elif line.mixture not in seen and line.mixture in archive.mixtures:
                seen.add(line.mixture)
                waiting.append(archive.mixtures[line.mixture])
    return tuple(forms)
