"""A bench for dangerous pairs: recipes of the built-in cards from a line of text, and what is found in them."""

import re
from collections.abc import Mapping, Sequence
from datetime import date

from sitegen.check.pairs import check_pairs
from sitegen.check.pairs.finding import Finding
from sitegen.check.pairs.findings import findings
from sitegen.model.amount import parse_amount
from sitegen.model.archive import Archive, Process, Settings
from sitegen.model.quantity import parse_quantity
from sitegen.model.recipe import Answer, Hazards, Intention, Line, Mixture, Prose, Recipe, Stage, Step
from sitegen.model.substance import Form, Substance, SubstanceHazards
from sitegen.problems import Problem, Problems, Span
from tests.check.bench import shelf

HERE = Span(file="recipes/r.yaml")
OWN = Substance(
    id="copper-nitrate",
    name="copper nitrate",
    state="solid",
    forms=(Form(id="copper-nitrate", name="copper nitrate", state="solid"),),
    hazards=SubstanceHazards(
        classes=(), basis="no data", source="test", groups=("copper_salt", "nitrate", "oxidiser", "acidic_salt")
    ),
    at=HERE,
)
"""A substance of two groups that no built-in card has together."""
UNKNOWN = Substance(
    id="nothing-known",
    name="nothing known",
    state="solid",
    forms=(Form(id="nothing-known", name="nothing known", state="solid"),),
    hazards=SubstanceHazards(classes=(), basis="no data", source="test"),
    at=HERE,
)
"""A substance without reactive groups."""
CARDS = (*shelf(), OWN, UNKNOWN)
FORMS = {form.id: form for card in CARDS for form in card.forms}


def mix(
    contains: str,
    local: str = "m",
    *,
    slug: str = "r",
    makes: str = "",
    keeps: str = "",
    store: str = "",
    mixing: Sequence[str] = (),
) -> Mixture:
    """A mixture from `form 5 g + form + part`: filled to 100 ml with water unless it begins with `dry:`."""
    dry = contains.startswith("dry:")
    items = [*contains.removeprefix("dry:").split("+"), *(() if dry else ("water to make 100 ml",))]
    return Mixture(
        id=f"{slug}/{local}",
        name=local,
        lines=tuple(_line(item.strip(), slug) for item in items),
        makes=parse_quantity(makes) if makes else None,
        keeps=parse_quantity(keeps) if keeps else None,
        store=store,
        mixing=tuple(Prose(text=text, at=HERE) for text in mixing),
        at=HERE,
    )


def _line(item: str, slug: str) -> Line:
    key, _, written = item.partition(" ")
    form = FORMS.get(key)
    written = written or ("5 ml" if form is None or form.state == "liquid" else "5 g")
    mixture = "" if form else key if "/" in key else f"{slug}/{key}"
    amount = parse_amount(written)
    return Line(key=key, amount=amount, written=written, form=form.id if form else "", mixture=mixture, at=HERE)


def stage(*steps: str, title: str = "Work") -> Stage:
    """A stage; a step may end in `@ 60 °C`."""
    made = []
    for text in steps:
        do, _, at = re.sub(r"\s*@\s*", "@", text).partition("@")
        made.append(Step(do=Prose(text=do, at=HERE), temperature=parse_quantity(at) if at else None))
    return Stage(title=title, steps=tuple(made))


def recipe(
    *mixtures: Mixture | str,
    slug: str = "r",
    stages: Sequence[Stage] = (),
    needs: Sequence[str] = (),
    intends: tuple[Intention, ...] = (),
    answers: Mapping[str, str] | None = None,
    never: str = "",
    disposal: str = "Everything is collected apart.",
    air: str = "",
) -> Recipe:
    """A recipe of these mixtures; a text alone is a mixture `m`."""
    return Recipe(
        slug=slug, title=slug, code="TE-01", summary="", process="test", edition="public", revision=1,
        revised=date(2026, 1, 1), mixtures=tuple(mix(m) if isinstance(m, str) else m for m in mixtures),
        hazards=Hazards(never=(never,), disposal=(disposal,), air=(air,), at=HERE), needs=tuple(needs), intends=intends,
        answers=tuple(Answer(pair=pair, reason=why, at=HERE) for pair, why in (answers or {}).items()),
        stages=tuple(stages), at=HERE,
    )  # fmt: skip


def archive(*recipes: Recipe) -> Archive:
    """These recipes with all built-in cards."""
    settings = Settings(title="test", processes=(Process(id="test", name="Test"),))
    return Archive(settings=settings, recipes=recipes, substances=CARDS)


def found(made: Recipe, *others: Recipe) -> dict[str, Finding]:
    """What is found in the first recipe, by rule."""
    return {one.id: one for one in findings(made, archive(made, *others))}


def severities(made: Recipe, *others: Recipe) -> dict[str, str]:
    """How bad each rule is in the first recipe."""
    return {id_: one.severity for id_, one in found(made, *others).items()}


def said(*recipes: Recipe) -> tuple[Problem, ...]:
    """What the check says."""
    problems = Problems()
    check_pairs(archive(*recipes), problems)
    return problems.in_order()


def codes(*recipes: Recipe) -> list[tuple[str, str]]:
    """Code and level of everything the check says."""
    return [(problem.code, problem.level) for problem in said(*recipes)]
