"""Asks: which fields of a hazard block one ingredient asks for, and why.

Hazard classes are those of the European list (CLP), groups the reactive groups on the cards. A card
without data asks for nothing here; that it has none is said by `check`.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final, Literal, get_args

from sitegen.check.borrowed import borrowed_mixtures
from sitegen.check.held import forms_held
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.model.substance import Form, Substance

BlockField = Literal["wear", "air", "never", "first aid", "disposal"]
BLOCK: Final[tuple[BlockField, ...]] = get_args(BlockField)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """A form that goes into a recipe, with its card."""

    form: Form
    card: Substance


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """A field, and the class, group or warning of the card that asks for it."""

    field: BlockField
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardClass:
    """A class taken apart: `Acute Tox. 4 (inhalation)` is name, category and route."""

    text: str
    name: str
    route: str


_CLASS: Final = re.compile(r"(?P<name>[^\d(]*?)\s*(?P<category>\d\S*)?\s*(?:\((?P<route>[^)]*)\))?\s*")


def read_class(text: str) -> HazardClass:
    """A class as a card writes it; name and route in small letters.

    >>> read_class("STOT SE 3 (respiratory irritation)").name
    'stot se'
    """
    match = _CLASS.fullmatch(text)
    name, route = (match["name"], match["route"] or "") if match else (text, "")
    return HazardClass(text=text, name=name.strip().casefold(), route=route.casefold())


# Which fields does a class of this name ask for, whatever its category and whatever the form's state?
BY_CLASS: Final[dict[str, tuple[BlockField, ...]]] = {
    "skin corr.": ("wear", "first aid"),
    "skin irrit.": ("wear", "first aid"),
    "skin sens.": ("wear", "first aid"),
    "eye dam.": ("wear", "first aid"),
    "eye irrit.": ("wear", "first aid"),
    "resp. sens.": ("wear", "air", "first aid"),
    "acute tox.": ("wear", "air", "first aid", "disposal"),
    "asp. tox.": ("first aid",),
    "carc.": ("wear", "air", "first aid", "disposal"),
    "muta.": ("wear", "air", "first aid", "disposal"),
    "repr.": ("wear", "air", "first aid", "disposal"),
    "lact.": ("wear", "air", "first aid", "disposal"),
    "stot re": ("wear", "air", "first aid"),
    "aquatic acute": ("disposal",),
    "aquatic chronic": ("disposal",),
    "ozone": ("disposal",),
    "flam. liq.": ("air", "never"),
    "flam. gas": ("air", "never"),
    "flam. sol.": ("never",),
    "aerosol": ("air", "never"),
    "press. gas": ("air", "never"),
    "self-heat.": ("never",),
    "self-react.": ("never",),
    "pyr. sol.": ("never",),
    "pyr. liq.": ("never",),
    "water-react.": ("never",),
    "org. perox.": ("never",),
    "expl.": ("never",),
    "ox. sol.": ("never",),
    "ox. liq.": ("never",),
    "ox. gas": ("air", "never"),
}

# Which reactive groups hold a metal, or another poison of waters, that no drain takes?
FOR_COLLECTION: Final = frozenset({
    "silver_salt", "gold_salt", "platinum_group", "copper_salt", "chromium_vi", "chromium_iii", "dichromate",
    "mercury_salt", "lead_salt", "barium_salt", "zinc_salt", "cadmium_pigment", "toxic_metal", "selenium",
    "cyanometallate",
})  # fmt: skip

# Which reactive groups must be kept from something that a studio has? What from, in a few words.
KEPT_FROM: Final = {
    "ammonia": "chlorine bleach (toxic gas), silver or gold salts left to stand (explosive)",
    "chlorate": "acid, sulfur, sugar (fire, explosion)",
    "combustible_dust": "flames and sparks while it is in the air (fire)",
    "cyanometallate": "hot or strong acid (hydrogen cyanide)",
    "dichromate": "reducing agents, alcohol, dry organic matter (fire)",
    "dithionite": "acid, damp (toxic gas, fire)",
    "drying_oil": "heaped rags (fire)",
    "flammable_solvent": "flames, sparks, hot plates (fire)",
    "gold_salt": "ammonia (explosive gold)",
    "halide_acid": "chlorine bleach, chlorates (chlorine)",
    "hypochlorite": "any acid, ammonia (toxic gas)",
    "iodine": "ammonia (explosive)",
    "mercury_salt": "ammonia (explosive)",
    "mineral_acid": "chlorine bleach, sulfides, cyano complexes (toxic gas)",
    "nitrite": "acid, ammonium salts (toxic gas, explosion)",
    "oxidiser": "dry organic matter, solvents, sulfur (fire)",
    "oxidising_acid": "alcohol, acetone, organic waste (toxic gas, fire)",
    "permanganate": "glycerol, strong acid (fire)",
    "peroxide": "acetone, metal salts, closed bottles (explosion)",
    "persulfate": "dry organic matter (fire)",
    "self_heating": "damp, heaps (fire)",
    "silver_salt": "ammonia kept or dried (explosive silver)",
    "strong_acid": "chlorine bleach, sulfides, cyano complexes (toxic gas)",
    "strong_base": "ammonium salts, aluminium, zinc (gas)",
    "sulfide": "any acid (hydrogen sulfide)",
}


def by_class(ingredient: Ingredient) -> Iterator[Ask]:
    """The classes of the card, by the table; single-exposure organ classes by what they harm."""
    for hazard in map(read_class, ingredient.card.hazards.classes):
        fields = BY_CLASS.get(hazard.name, ())
        if hazard.name == "stot se":
            breathed = any(word in hazard.route for word in ("respiratory", "narcotic", "inhalation"))
            fields = ("air", "first aid") if breathed else ("wear", "air", "first aid")
        for field in fields:
            yield Ask(field=field, why=hazard.text)


def by_waste(ingredient: Ingredient) -> Iterator[Ask]:
    """Metals and their like are collected, classified or not."""
    for group in ingredient.card.hazards.groups:
        if group in FOR_COLLECTION:
            yield Ask(field="disposal", why=group.replace("_", " "))


def by_partner(ingredient: Ingredient) -> Iterator[Ask]:
    """What must not meet something says so: the card's own warnings, else its reactive groups."""
    for text in ingredient.card.hazards.never:
        yield Ask(field="never", why=text)
    if not ingredient.card.hazards.never:
        for group in ingredient.card.hazards.groups:
            if group in KEPT_FROM:
                yield Ask(field="never", why=group.replace("_", " "))


RULES: Final[tuple[Callable[[Ingredient], Iterator[Ask]], ...]] = (by_class, by_waste, by_partner)


def asks_of(ingredient: Ingredient) -> tuple[Ask, ...]:
    """All that one ingredient asks for."""
    return tuple(ask for rule in RULES for ask in rule(ingredient))


def ingredients(recipe: Recipe, archive: Archive) -> tuple[Ingredient, ...]:
    """The forms of all lines, through the mixtures they draw on, each once, in the order they are met.

    The mixtures of other recipes that its layers and steps work with are among them: they stand on its bench.
    """
    held = forms_held((*recipe.mixtures, *borrowed_mixtures(recipe, archive)), archive)
    return tuple(Ingredient(form=archive.forms[form], card=archive.substance_of[form]) for form in held)
