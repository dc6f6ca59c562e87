"""What can be found of waters: each place's, by its name and what is in it, and the page of the rules."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from sitegen.compute.water_table import water_table
from sitegen.model.water import Water
from sitegen.render.links import WATERS, water_place
from sitegen.render.water import NAMES
from sitegen.search.document import Document

_SOFT, _HARD = Fraction("1.5"), Fraction("2.5")
"""mmol/l up to which water is soft and from which it is hard (German detergents act, WRMG 2007, section 9)."""
_WORDS: Final = "hard water · soft water · tap water · well water · rain water · lime · chlorinated water · pH"


def water_documents(waters: tuple[Water, ...]) -> Iterator[Document]:
    """The waters of an edition and, where it has any, the rules."""
    if not waters:
        return
    rules = " · ".join(rule.title for rule in water_table().rules.values())
    yield Document(kind="water", title="Water", path=WATERS, texts=(("names", _WORDS), ("about", rules)))
    for water in waters:
        known = ", ".join(f"{NAMES[m]} {reading.written}" for m, reading in water.readings.items())
        texts = [("names", " · ".join((water.id.replace("-", " "), *_kinds(water)))), ("summary", known)]
        texts += [("about", text) for text in (water.note, water.source) if text]
        path = water_place(water.id)
        yield Document(kind="water", title=water.name, path=path, texts=tuple((n, t) for n, t in texts if t))


def _kinds(water: Water) -> Iterator[str]:
    """What people call such a water."""
    hardness, ph, chlorine = (water.readings.get(m) for m in ("hardness", "pH", "chlorine"))
    if hardness and hardness.high > _HARD:
        yield "hard water"
    if hardness and hardness.low < _SOFT:
        yield "soft water"
    if ph and ph.high > Fraction(7):
        yield "alkaline water"
    if chlorine and chlorine.high > 0:
        yield "chlorinated water"
