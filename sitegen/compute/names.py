"""Names: which forms a word may mean. Household words often mean several, and then all are given."""

from functools import lru_cache

from sitegen.model.archive import Archive
from sitegen.model.substance import Form, Substance
from sitegen.problems import Refusal, did_you_mean


def forms_named(word: str, archive: Archive) -> tuple[Form, ...]:
    """Every form a word may mean: an id, a name, a formula or a CAS number. `Refusal` when none.

    A substance's own name means all its forms; none is picked.
    """
    names = _index(archive.substances)
    key = fold(word)
    if key not in names:
        raise Refusal(
            "unknown-substance",
            f"`{word}` is not the name of a substance here",
            did_you_mean(key, names) or "add a card for it in substances/, or use one of its other names",
        )
    return tuple(archive.forms[form] for form in names[key])


def fold(word: str) -> str:
    """A name as it is compared: case, hyphens and spaces do not count."""
    return " ".join(word.casefold().replace("-", " ").replace("·", ".").split())


@lru_cache(maxsize=8)
def _index(substances: tuple[Substance, ...]) -> dict[str, tuple[str, ...]]:
    """Forms by folded name, in the order of the cards."""
    found: dict[str, dict[str, None]] = {}
    for card in substances:
        for form in card.forms:
            own = (form.id, form.name, *form.names, form.formula, form.cas)
            for word in (card.id, card.name, *card.other_names, *own):
                if word:
                    found.setdefault(fold(word), {})[form.id] = None
    return {word: tuple(forms) for word, forms in found.items()}
