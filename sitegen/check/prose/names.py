"""Names: a substance that a step names is one its mixtures hold, by its right name; mixtures are used.

Names of at least five letters count. Tools and vessels are in `needs`, and what is named there is known.
"""

from collections.abc import Iterator
from typing import Final

from sitegen.check.prose.passages import Passage
from sitegen.check.prose.setting import Setting
from sitegen.check.prose.words import Meaning, Mention, key_of
from sitegen.model.layers import Layer
from sitegen.model.recipe import Mixture
from sitegen.model.reference import AmountRef
from sitegen.model.substance import Substance
from sitegen.problems import Problem

FIELDS: Final = frozenset({"do", "mixing"})
LETTERS: Final = 5

# Which names of substances are ordinary words in a step: colours, tools, what plants and smells are called?
ORDINARY: Final = frozenset(
    key_of(name)
    for name in (
        "aluminium", "aluminum", "copper", "copper plate", "copper sheet", "zinc plate", "zinc sheet",
        "steel plate", "steel wool", "aluminium plate", "aluminium sheet", "iron nails", "iron water",
        "Prussian blue", "indigo", "red earth", "red ochre", "titanium white", "lead white", "flake white",
        "carbon black", "lamp black", "chrome yellow", "cadmium yellow",
        "beeswax", "chalk", "whiting", "starch", "sugar", "honey", "coffee", "instant coffee", "tannin",
        "bitumen", "neutral soap", "soap flakes", "castile soap", "quartz dust",
    )
)  # fmt: skip

# Which words say that a sentence warns of a name instead of asking for it?
_WARNING: Final = frozenset({
    "avoid", "confuse", "confused", "confusing", "forms", "instead", "mistake", "mistaken", "never", "no",
    "nor", "not", "smell", "smells", "than", "unlike", "without",
})  # fmt: skip


def names_are_of_ingredients(passage: Passage, setting: Setting) -> None:
    """Every substance named in a step or a mixing text is held, or said to be needed."""
    if passage.field not in FIELDS or setting.recipe is None:
        return
    for mention in (*setting.names.mentions(passage), *_strange_heads(passage, setting)):
        meaning = mention.meaning
        if not meaning.forms or meaning.mixtures or meaning.head or _is_ordinary(mention, setting):
            continue
        linked = any(link.start <= mention.start < link.end for link in passage.links)
        if not (linked or _warns(passage, mention) or meaning.forms & setting.known):
            _judge(mention, passage, setting)


def _judge(mention: Mention, passage: Passage, setting: Setting) -> None:
    where = (mention.start, mention.end)
    cards = {setting.archive.substance_of[form].id for form in mention.meaning.forms}
    if same := cards & setting.names.substances:
        setting.problems.add(
            Problem(
                code="other-form-named",
                at=setting.span(passage, where),
                message=f"`{mention.text}` is another form than the mixtures hold",
                help="name the form that is weighed, or change the mixture: the two weigh differently",
                notes=(f"the mixtures hold {' and '.join(_held_forms(same, setting))}",),
                level="warning",
            )
        )
    elif meant := _alike(cards, setting):
        setting.problems.add(
            Problem(
                code="look-alike-name",
                at=setting.span(passage, where),
                message=f"`{mention.text}` is named here, and the mixtures hold {meant.name}",
                help=f"write `{meant.name}`, or add `{min(cards)}` to a mixture or name it in `needs`",
                notes=("the names look alike, the substances are not the same",),
            )
        )
    else:
        setting.problems.add(
            Problem(
                code="prose-unknown-ingredient",
                at=setting.span(passage, where),
                message=f"no mixture of this recipe holds `{mention.text}`",
                help="add it to a mixture, name it in `needs`, or link to the recipe it comes from",
                level="warning",
            )
        )


def _held_forms(cards: set[str], setting: Setting) -> list[str]:
    held = (form for form in setting.names.held if setting.archive.substance_of[form].id in cards)
    return sorted(setting.archive.forms[form].name for form in held)


def _alike(cards: set[str], setting: Setting) -> Substance | None:
    """The held substance that one of these is taken for, by either card's word."""
    archive = setting.archive
    for id_ in sorted(setting.names.substances):
        card = archive.substance_of[id_]
        if cards & set(card.look_alikes) or any(id_ in archive.substance_of[c].look_alikes for c in cards):
            return card
    return None


def _strange_heads(passage: Passage, setting: Setting) -> Iterator[Mention]:
    """`the ferrocyanide`, alone, where the recipe holds ferricyanide and nothing that ends so."""
    named = [(m.start, m.end) for m in setting.names.mentions(passage)] if setting.strange else []
    for word in passage.words if setting.strange else ():
        forms = setting.strange.get(word.key)
        if forms and not any(start <= word.start < end for start, end in named):
            text = passage.bare[word.start : word.end]
            yield Mention(text=text, key=(word.key,), start=word.start, end=word.end, meaning=Meaning(forms=forms))


def _is_ordinary(mention: Mention, setting: Setting) -> bool:
    cards = [setting.archive.substance_of[form] for form in mention.meaning.forms]
    plain = any(card.state == "plant" or card.id == "water" for card in cards)
    return plain or mention.key in ORDINARY or sum(map(str.isalpha, mention.text)) < LETTERS


def _warns(passage: Passage, mention: Mention) -> bool:
    start, end = passage.sentence(mention.start)
    return bool(_WARNING & set(passage.words_between(start, end)))


def mixtures_are_used(setting: Setting) -> None:
    """A mixture that no other one takes is named or linked somewhere in a recipe that has stages."""
    recipe = setting.recipe
    if recipe is None or not recipe.stages:
        return
    layered = {bath for layer in recipe.layers for bath in _baths(layer)}
    for mixture in recipe.mixtures:
        if mixture.id in layered:
            continue
        others = (p for p in setting.read if p.mixture != mixture and p.field != "hazards")
        if mixture.id not in setting.shared.taken and not any(_speaks(p, mixture, setting) for p in others):
            setting.problems.add(
                Problem(
                    code="mixture-unused",
                    at=mixture.at,
                    message=f"`{mixture.local}` is mixed, and no step says what it is for",
                    help=f"link to it in a step: `[{mixture.name}](mixture:{mixture.local})`",
                    level="warning",
                )
            )


def _baths(layer: Layer) -> tuple[str, ...]:
    return (layer.coat, *(bath.mixture for bath in (layer.bleach, layer.tone) if bath))


def _speaks(passage: Passage, mixture: Mixture, setting: Setting) -> bool:
    """Whether a link leads to the mixture or a line of it, or a telling word of its name is there."""
    telling = {word for word in (*key_of(mixture.name), *key_of(mixture.local)) if len(word) >= LETTERS}
    if any(word.key in telling for word in passage.words):
        return True
    leads = (setting.leads_to(link) for link in passage.links)
    return any(mixture.id == (ref.mixture if isinstance(ref, AmountRef) else ref.id) for ref in leads if ref)
