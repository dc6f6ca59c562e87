"""Cards: substance cards to substances, and what holds among all of them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sitegen.check.card_documents import CardDoc, FormDoc
from sitegen.check.card_figures import figures_of
from sitegen.check.faults import read_document
from sitegen.check.names import check_file_name
from sitegen.check.places import Places
from sitegen.model.substance import Form, Solubility, Substance, SubstanceHazards
from sitegen.problems import Problem, Problems, Span, did_you_mean
from sitegen.read.nodes import MapNode
from sitegen.read.sources import Sources


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """All cards: the sound ones, and the ids of those with problems, which stay unjudged."""

    substances: tuple[Substance, ...]
    broken: frozenset[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Draft:
    id: str
    doc: CardDoc
    places: Places
    own: bool


def check_cards(sources: Sources, problems: Problems) -> Shelf:
    """Read every card; a card of the archive takes the place of the built-in one of its id."""
    nodes = {**_labelled(sources, "base"), **_labelled(sources, "substances")}
    drafts: list[_Draft] = []
    broken: set[str] = set()
    for id_, (folder, node) in sorted(nodes.items()):
        named = check_file_name(f"{folder}/{id_}.yaml", problems)
        doc = read_document(CardDoc, node, problems) if node else None
        if node and doc and named:
            drafts.append(_Draft(id=id_, doc=doc, places=Places(root=node), own=folder == "substances"))
        else:
            broken.add(id_)
    for draft in drafts:
        for rule in _RULES:
            rule(draft, problems)
        _look_alikes_known(draft, nodes.keys(), problems)
    _ids_unique(drafts, problems)
    _names_unique(drafts, problems)
    return Shelf(substances=tuple(_substance(draft) for draft in drafts), broken=frozenset(broken))


def _labelled(sources: Sources, folder: str) -> Mapping[str, tuple[str, MapNode | None]]:
    return {id_: (folder, node) for id_, node in sources.below(folder).items()}


def _substance(draft: _Draft) -> Substance:
    doc = draft.doc
    return Substance(
        id=draft.id,
        name=doc.name,
        state=doc.state,
        forms=tuple(_form(draft, key, form) for key, form in doc.forms.items()) or (_only_form(draft),),
        other_names=doc.other_names,
        look_alikes=doc.look_alikes,
        solubility=tuple(
            Solubility(at=row.at, limit=row.limit, form=_form_id(draft, row.form), source=row.source)
            for row in doc.solubility
        ),
        hazards=SubstanceHazards(
            classes=doc.hazards.classes,
            basis=doc.hazards.basis,
            source=doc.hazards.source,
            groups=doc.hazards.groups,
            never=doc.hazards.never,
            figures=figures_of(doc.hazards.figures, draft.places),
            classes_at=tuple(draft.places.value("hazards", "classes", n) for n in range(len(doc.hazards.classes))),
        ),
        store=doc.store or "",
        dispose=doc.dispose or "",
        note=doc.note or "",
        unverified=doc.unverified,
        own=draft.own,
        at=draft.places.value("name"),
    )


def _only_form(draft: _Draft) -> Form:
    doc = draft.doc
    return Form(
        id=draft.id,
        name=doc.name,
        state=doc.state,
        formula=doc.formula or "",
        cas=doc.cas or "",
        assay=doc.assay,
        density=doc.density,
        supplies=tuple(doc.supplies.items()),
        content=tuple(doc.content.items()),
    )


def _form(draft: _Draft, key: str, form: FormDoc) -> Form:
    doc = draft.doc
    return Form(
        id=f"{draft.id}-{key}",
        name=form.name or f"{doc.name}, {key}",
        state=form.state or doc.state,
        formula=form.formula or doc.formula or "",
        cas=form.cas or doc.cas or "",
        names=form.names,
        assay=form.assay or doc.assay,
        density=form.density or doc.density,
        supplies=tuple((form.supplies or doc.supplies).items()),
        content=tuple((form.content or doc.content).items()),
        note=form.note or "",
    )


def _form_id(draft: _Draft, key: str | None) -> str:
    """The form's id; the substance's own where no form is named, which is right for one without forms."""
    keys = draft.doc.forms
    if key is None:
        return f"{draft.id}-{next(iter(keys))}" if len(keys) == 1 else draft.id
    return key if key.startswith(f"{draft.id}-") or key == draft.id else f"{draft.id}-{key}"


def _solubility_names_a_form(draft: _Draft, problems: Problems) -> None:
    """Where a substance has several forms, grams of which one dissolve must be said."""
    ids = {f"{draft.id}-{key}" for key in draft.doc.forms} or {draft.id}
    for n, row in enumerate(draft.doc.solubility):
        if _form_id(draft, row.form) not in ids:
            listed = " or ".join(f"`form: {key}`" for key in draft.doc.forms)
            at = draft.places.value("solubility", n, "form") if row.form else draft.places.key("solubility", n)
            message = f"there is no form `{row.form}` of {draft.id}" if row.form else "this does not say of which form"
            problems.add(
                Problem(
                    code="unknown-form" if row.form else "form-missing",
                    at=at,
                    message=message,
                    help=f"write {listed}" if listed else "delete the field `form`: this substance has no forms",
                )
            )


def _density_of_liquids(draft: _Draft, problems: Problems) -> None:
    """A density turns measured volumes into mass: of a powder it would be a guess."""
    doc, places = draft.doc, draft.places
    rows = [(doc.state, doc.density, places.key("density"))]
    rows += [(f.state or doc.state, f.density, places.key("forms", k, "density")) for k, f in doc.forms.items()]
    for state, density, at in rows:
        if density and state in ("solid", "plant"):
            problems.add(
                Problem(
                    code="density-of-solid",
                    at=at,
                    message=f"a density stands here, but this is a {state}",
                    help="delete it: powders are weighed; or write `state: liquid`",
                )
            )


_RULES = (_solubility_names_a_form, _density_of_liquids)


def _look_alikes_known(draft: _Draft, known: Iterable[str], problems: Problems) -> None:
    for n, other in enumerate(draft.doc.look_alikes):
        if other not in known:
            problems.add(
                Problem(
                    code="unknown-look-alike",
                    at=draft.places.value("look-alikes", n),
                    message=f"there is no substance `{other}`",
                    help=did_you_mean(other, known) or "write the file name of a card, without `.yaml`",
                )
            )


def _ids_unique(drafts: Iterable[_Draft], problems: Problems) -> None:
    """`potassium` with a form `bromide` would be `potassium-bromide` once more."""
    cards = {draft.id: draft for draft in drafts}
    taken: dict[str, str] = {}
    for draft in cards.values():
        for key in draft.doc.forms:
            id_ = f"{draft.id}-{key}"
            other = taken.setdefault(id_, draft.id)
            if id_ in cards or other != draft.id:
                where = f"the card {id_}" if id_ in cards else f"a form of {other}"
                problems.add(
                    Problem(
                        code="duplicate-form",
                        at=draft.places.key("forms", key),
                        message=f"`{id_}` names this form and {where}",
                        help="give this form another key, or make one of the two a form of the other",
                    )
                )


def _names_unique(drafts: Iterable[_Draft], problems: Problems) -> None:
    """A name of a form belongs to one substance; of its forms it may name several (`washing soda`)."""
    seen: dict[str, tuple[str, Span]] = {}
    for draft in drafts:
        for key, form in draft.doc.forms.items():
            spots = [(name, draft.places.value("forms", key, "names", n)) for n, name in enumerate(form.names)]
            if form.name:
                spots.insert(0, (form.name, draft.places.value("forms", key, "name")))
            for name, at in spots:
                other, first = seen.setdefault(name.casefold(), (draft.id, at))
                if other != draft.id:
                    problems.add(
                        Problem(
                            code="duplicate-name",
                            at=at,
                            message=f"`{name}` names a form of `{draft.id}` and one of `{other}`",
                            help="keep it with one of them, or move it to `other names` of the substance",
                            notes=(f"the other is in {first.file}, line {first.line + 1}",),
                        )
                    )
