"""A shelf to test from: forms, mixtures and archives made from short text, and the built-in cards."""

from collections.abc import Callable, Mapping
from datetime import date
from fractions import Fraction
from functools import cache
from typing import Any, TypeVar

import pytest

from sitegen.check import check_archive
from sitegen.compute.batch import Batch, batches
from sitegen.compute.plan import Target, targets
from sitegen.compute.strength import Strength, strengths
from sitegen.model.amount import parse_amount, parse_percent
from sitegen.model.archive import Archive, Process, Settings
from sitegen.model.quantity import Quantity, parse_quantity
from sitegen.model.recipe import Hazards, Line, Mixture, Recipe
from sitegen.model.substance import Form, Solubility, State, Substance, SubstanceHazards
from sitegen.problems import Problems, Refusal, Span
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards

Answer = TypeVar("Answer")
HERE = Span(file="test.yaml")


def form(
    id_: str,
    *,
    state: State = "solid",
    formula: str = "",
    density: str = "",
    assay: str = "",
    content: Mapping[str, str] | None = None,
    supplies: Mapping[str, int] | None = None,
    **more: Any,
) -> Form:
    """A form, its figures as a card would write them."""
    return Form(
        id=id_,
        name=more.pop("name", id_.replace("-", " ")),
        state=state,
        formula=formula,
        density=parse_quantity(density) if density else None,
        assay=parse_percent(assay) if assay else None,
        content=tuple((part, parse_percent(f"{share} w/w")) for part, share in (content or {}).items()),
        supplies=tuple((part, Fraction(moles)) for part, moles in (supplies or {}).items()),
        **more,
    )


def card(*forms: Form, id_: str = "", limit: str = "", limit_form: str = "", **more: Any) -> Substance:
    """A card of some forms, with what dissolves of the first (or `limit_form`) in 100 ml of water at 20 °C."""
    return Substance(
        id=id_ or forms[0].id,
        name=more.pop("name", id_ or forms[0].name),
        state=forms[0].state,
        forms=forms,
        solubility=(_dissolves(limit, limit_form or forms[0].id),) if limit else (),
        hazards=SubstanceHazards(classes=(), basis="no data", source="test"),
        at=HERE,
        **more,
    )


def _dissolves(limit: str, of: str) -> Solubility:
    return Solubility(at=parse_quantity("20 °C"), limit=parse_quantity(limit), form=of, source="test")


WATER = form("water", state="liquid", formula="H2O", density="0.998 g/ml")


def line(key: str, written: str, known: frozenset[str], **more: Any) -> Line:
    """A line; a key that is no form is a mixture of the recipe `r`, unless it names its own."""
    is_form = key in known
    return Line(
        key=key,
        amount=parse_amount(written),
        written=written,
        form=key if is_form else "",
        mixture="" if is_form else key if "/" in key else f"r/{key}",
        at=HERE,
        **more,
    )


def mixture(local: str, contains: Mapping[str, str], known: frozenset[str], **more: Any) -> Mixture:
    """A mixture of the recipe `r`; `makes`, `density`, `coverage` and `per_person` as they are written."""
    for name in ("makes", "density", "coverage", "per_person", "keeps"):
        if name in more:
            more[name] = parse_quantity(more[name])
    return Mixture(
        id=f"r/{local}",
        name=more.pop("name", local),
        lines=tuple(line(key, written, known) for key, written in contains.items()),
        at=HERE,
        **more,
    )


def recipe_of(*mixtures: Mixture, slug: str = "r", **more: Any) -> Recipe:
    """A recipe that is nothing but its mixtures."""
    return Recipe(
        slug=slug, title=slug, code=more.pop("code", "TE-01"), summary="", process="test",
        edition=more.pop("edition", "public"), revision=1, revised=date(2026, 1, 1), mixtures=mixtures,
        hazards=Hazards(at=HERE), at=HERE, **more,
    )  # fmt: skip


def archive_of(*mixtures: Mixture, cards: tuple[Any, ...], settings: Settings | None = None) -> Archive:
    """An archive of one recipe."""
    return Archive(
        settings=settings or Settings(title="test", processes=(Process(id="test", name="Test"),)),
        recipes=(recipe_of(*mixtures),),
        substances=cards,
    )


class Kitchen:
    """Mixtures of one recipe, worked out: cards first, then `mix` each, then ask."""

    def __init__(self, *forms: Form | Substance) -> None:
        given = tuple(card(f) if isinstance(f, Form) else f for f in forms)
        has_water = any(f.id == "water" for c in given for f in c.forms)
        self.cards = given if has_water else (*given, card(WATER))
        self.known = frozenset(f.id for c in self.cards for f in c.forms)
        self.mixtures: list[Mixture] = []

    def mix(self, local: str = "m", contains: Mapping[str, str] | None = None, **more: Any) -> "Kitchen":
        """Add a mixture."""
        self.mixtures.append(mixture(local, contains or {}, self.known, **more))
        return self

    @property
    def archive(self) -> Archive:
        """The archive so far."""
        return archive_of(*self.mixtures, cards=self.cards)

    def batches(self) -> dict[str, Batch]:
        """Every batch; the test fails when a mixture is refused."""
        problems = Problems()
        found = batches(self.archive, problems)
        assert not problems.found, problems.found
        return found

    def batch(self, local: str = "m") -> Batch:
        """One batch."""
        return self.batches()[f"r/{local}"]

    def target(self, local: str = "m") -> Target:
        """The plan of one mixture."""
        problems = Problems()
        archive = self.archive
        plans = targets(archive.recipes[0], archive, self.batches(), problems)
        assert not problems.found, problems.found
        return next(t for t in plans if t.local == local)

    def strengths(self, local: str = "m") -> dict[str, Strength]:
        """Strengths by form."""
        found = self.batches()
        return {s.of: s for s in strengths(found[f"r/{local}"], self.archive, found)}

    def strength(self, of: str, local: str = "m") -> Strength:
        """The strength of one form."""
        return self.strengths(local)[of]

    def refusal(self) -> tuple[str, str, str]:
        """Code, message and help of the one mixture that is refused, in batches or in plans."""
        problems = Problems()
        archive = self.archive
        found = batches(archive, problems)
        targets(archive.recipes[0], archive, found, problems)
        (problem,) = problems.found
        return problem.code, problem.message, problem.help


def single(pair: tuple[Fraction, Fraction] | None) -> Fraction:
    """The one figure of a pair that is known and no range."""
    assert pair is not None
    assert pair[0] == pair[1]
    return pair[0]


def value(quantity: Quantity, unit: str = "") -> Fraction:
    """The one figure of a quantity, in a unit."""
    got = quantity.in_unit(unit) if unit else quantity
    assert not got.is_range
    return got.low


def refused(ask: Callable[..., object], *given: object, **named: object) -> tuple[str, str, str]:
    """Code, message and help of what a question is refused with."""
    with pytest.raises(Refusal) as caught:
        ask(*given, **named)
    return caught.value.code, caught.value.message, caught.value.help


def answered(ask: Callable[[str], Answer], text: str) -> Answer | None:
    """The answer, or None for a refusal that says what to write; any other exception fails the test."""
    try:
        return ask(text)
    except Refusal as refusal:
        said = (refusal.code, refusal.message, refusal.help)
    assert all(said), said
    return None


def q(text: str) -> Quantity:
    """A quantity from text."""
    return parse_quantity(text)


@cache
def base_shelf() -> Archive:
    """The built-in cards, as the program itself reads them."""
    problems = Problems()
    archive = check_archive(compose_sources({**base_cards(), "archive.yaml": "title: base set"}, problems), problems)
    assert archive is not None
    assert not problems.failed, problems.found
    return archive


def base_card(id_: str) -> Substance:
    """One built-in card."""
    return base_shelf().substance_of[id_]
