"""Traits: what a recipe asks for, read off it: time, light, work, symbols on jars, things at hand.

Nothing here is the author's word: it is derived, and a page says so. What is not known is a choice of
its own and is never taken for harmless.
"""

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Final

from sitegen.model.recipe import Recipe
from sitegen.model.substance import Substance
from sitegen.search.facets import Facet

# How long may a recipe take to be done within that? In minutes, waits included.
_TIMES: Final = (
    ("half-hour", "half an hour", 30),
    ("hour", "an hour", 60),
    ("two-hours", "two hours", 120),
    ("half-day", "half a day", 360),
    ("day", "a day and a night", 1_440),
    ("week", "a week", 10_080),
)
_LONGER: Final = ("longer", "longer than a week")
_UNSAID: Final = ("unsaid", "time not said")
# How many steps may a recipe have, with one for every mixture, to be called that?
_WORK: Final = (("few", "up to 10 things to do", 10), ("some", "11 to 20", 20), ("many", "more than 20", None))
# Which words name which light? Looked for in the recipe's own words for its light.
_LIGHTS: Final = (
    ("sun", "sun or ultraviolet", r"(?<!no )(?<!not direct )(?<!out of the )(?<!out of )\bsun(?!k)|ultraviolet|\buv\b"),
    ("dim", "a dim room", r"\bdim|weak|subdued|tungsten|no daylight|safelight|yellow light|candle"),
    ("dark", "the dark", r"(?:^|· |in the )dark\b|darkness|dark ?room|light.?tight"),
    ("day", "daylight to judge by", r"(?<!no )(?<!subdued )daylight|open shade"),
)
_EXPOSES: Final = re.compile(r"\bexpose\b", re.IGNORECASE)
_SUN: Final = _LIGHTS[0][0]
_NO_SUN: Final = ("no-sun", "neither sun nor ultraviolet")
_ANY: Final = ("any", "any light")
# Which words in the list of needs mean which thing?
_NEEDS: Final = (
    ("frame", "a contact frame", r"\bframe"),
    ("lamp", "an ultraviolet lamp", r"ultraviolet|\buv\b|\blamp"),
    ("heat", "something to heat with", r"hot ?plate|stove|burner|kettle|\b(?:sauce)?pan\b|\bpot\b|water bath|boiler"),
    ("thermometer", "a thermometer", r"thermometer"),
    ("tray", "trays", r"\btrays?\b|\bdish"),
    ("brush", "a brush", r"\bbrush"),
    ("screen", "a screen or block", r"\bscreen|\bblock"),
    ("ph", "pH strips or a meter", r"\bph\b"),
    ("press", "a press", r"\bpress\b"),
    ("film", "a film tank", r"\btank\b|\breel"),
)
# Which hazard classes ask for which symbol (CLP, annex V)? The first that fits a class counts.
_SYMBOLS: Final = (
    ("skull", "skull: may kill in small amounts", r"Acute Tox\. [123]\b"),
    ("health", "figure: harms slowly, or by breathing", r"Carc|Muta|Repr|Resp\. Sens|STOT RE|STOT SE [12]|Asp\. Tox"),
    ("corrosive", "acid on a hand: burns skin or eyes", r"Skin Corr\.|Eye Dam\.|Met\. Corr\."),
    ("oxidising", "flame on a ring: feeds fire", r"Ox\. "),
    ("flame", "flame: catches fire", r"Flam\.|Pyr\.|Self-heat|Water-react|Org\. Perox\."),
    ("explosive", "bomb: may explode", r"Expl\.|Unst\. Expl"),
    ("gas", "cylinder: gas under pressure", r"Press\. Gas"),
    ("water", "fish and tree: harms water", r"Aquatic Acute 1|Aquatic Chronic [12]"),
    ("mark", "exclamation mark: irritates, or harms if swallowed", r"Acute Tox\. 4|Irrit|Skin Sens|STOT SE 3|Ozone"),
)
UNKNOWN: Final = ("unknown", "not enough data on an ingredient")
STATUS: Final = (("settled", "settled"), ("trial", "on trial"), ("retired", "retired"))


def facets(processes: Iterable[tuple[str, str]]) -> tuple[Facet, ...]:
    """Every way to narrow, in the order of the page."""
    return (
        Facet(id="process", said="Process", choices=tuple(processes)),
        Facet(
            id="time",
            said="Done within, waits included",
            choices=(*_shown(_TIMES), _LONGER, _UNSAID),
        ),
        Facet(id="light", said="Light it needs", choices=(*_shown(_LIGHTS), _NO_SUN, _ANY)),
        Facet(id="work", said="How much there is to do", choices=_shown(_WORK)),
        Facet(id="status", said="Status", choices=STATUS),
        Facet(
            id="hazard",
            said="Leave out what has on a jar",
            choices=(*_shown(_SYMBOLS), UNKNOWN),
            leaves_out=True,
        ),
        Facet(id="needs", said="Leave out what needs", choices=_shown(_NEEDS), leaves_out=True),
    )


def choices(recipe: Recipe, cards: Iterable[Substance]) -> dict[str, tuple[str, ...]]:
    """A recipe's choices by facet; `cards` are all substances that go into it."""
    return {
        "process": (recipe.process,),
        "time": _times(recipe),
        "light": _light(recipe),
        "work": (_work(recipe),),
        "status": (recipe.status,),
        "hazard": symbols(cards),
        "needs": _named(_NEEDS, " · ".join(recipe.needs)),
    }


def minutes(recipe: Recipe) -> Fraction | None:
    """The longest it may take: as stated, else steps and waits added up; None when nothing is said."""
    if recipe.takes:
        return recipe.takes.base()[1]
    spans = [step.lasts for stage in recipe.stages for step in stage.steps]
    spans += [stage.then_wait for stage in recipe.stages]
    said = [span.base()[1] for span in spans if span]
    return sum(said, Fraction(0)) if said else None


def symbols(cards: Iterable[Substance]) -> tuple[str, ...]:
    """The symbols on the jars, and `unknown` where a card has not enough data."""
    found: dict[str, None] = {}
    for card in cards:
        if card.hazards.basis == "no data":
            found[UNKNOWN[0]] = None
        for name in card.hazards.classes:
            for symbol, _, words in _SYMBOLS:
                if re.search(words, name):
                    found[symbol] = None
                    break
    return tuple(found)


def _times(recipe: Recipe) -> tuple[str, ...]:
    """Every span it fits in, so that asking for two hours also finds what takes one."""
    longest = minutes(recipe)
    if longest is None:
        return (_UNSAID[0],)
    return tuple(i for i, _, most in _TIMES if longest <= most) or (_LONGER[0],)


def _work(recipe: Recipe) -> str:
    things = len(recipe.mixtures) + sum(len(stage.steps) for stage in recipe.stages)
    return next(i for i, _, most in _WORK if most is None or things <= most)


def _light(recipe: Recipe) -> tuple[str, ...]:
    said = [stage.light for stage in recipe.stages]
    said += [text for stage in recipe.stages for step in stage.steps for text in (step.light, step.look_in)]
    said += [layer.expose.to for layer in recipe.layers if layer.expose]
    done = (step.do.text for stage in recipe.stages for step in stage.steps)
    exposing = [text for text in done if _EXPOSES.search(text)]
    found = _named(_LIGHTS, " · ".join(said + exposing)) or (_ANY[0],)
    # A recipe that exposes by a light it does not name is not said to do without the sun.
    sunless = _SUN not in found and not exposing and not any(layer.expose for layer in recipe.layers)
    return (*found, _NO_SUN[0]) if sunless else found


def _shown(table: Iterable[tuple[str, str, object]]) -> tuple[tuple[str, str], ...]:
    return tuple((choice, said) for choice, said, _ in table)


def _named(table: tuple[tuple[str, str, str], ...], text: str) -> tuple[str, ...]:
    return tuple(i for i, _, words in table if re.search(words, text, re.IGNORECASE))
