"""The check of labels: every class, limit and code on a card can be used, and every mixture can be classified.

It comes after `compute`: a mixture's label needs its strengths. Problems stand at the line that is wrong.
"""

import re

from sitegen.compute.whole import Computed
from sitegen.labels.archive import labels_of
from sitegen.labels.classes import parse_class
from sitegen.labels.limits import check_order
from sitegen.labels.own_entries import limit_of
from sitegen.labels.statements import Statements
from sitegen.labels.tables import tables
from sitegen.model.substance import Substance
from sitegen.problems import Problems, Refusal


def check_labels(computed: Computed, problems: Problems) -> None:
    """Add every class, limit and statement code that cannot be used, then every mixture without a label."""
    before = len(problems.found)
    for card in computed.archive.substances:
        if card.own:
            _classes(card, problems)
            _limits(card, problems)
            _codes(card, problems)
    if len(problems.found) > before:
        return  # what is mixed from such a card has no label
    find = labels_of(computed)
    for id_ in computed.strengths:
        with problems.at(computed.archive.mixtures[id_].at):
            find(id_)


def _classes(card: Substance, problems: Problems) -> None:
    for text, at in zip(card.hazards.classes, card.hazards.classes_at, strict=True):
        with problems.at(at):
            read_class(text, tables().statements)


def read_class(text: str, statements: Statements) -> None:
    """Nothing for a class; `Refusal` for anything else, which names the classes of a statement."""
    code = re.match(r"(?:EU)?H\d{3}[A-Za-z]*", text)
    if code is None:
        parse_class(text)
        return
    statements.text(code[0])
    classes = sorted(name for name, row in statements.rows.items() if row.code == code[0])
    listed = " or ".join(f"`{name}`" for name in classes[:6])
    elsewhere = "write it under `figures`: `euh: [{code: " + code[0] + "}]`"
    raise Refusal(
        "class-not-read",
        f"`{text}` is a statement, and a hazard class is wanted",
        f"write {listed}" if listed else elsewhere,
    )


def _limits(card: Substance, problems: Problems) -> None:
    found = []
    for written in card.hazards.figures.limits:
        with problems.at(written.at):
            found.append(limit_of(written))
            check_order(found)


def _codes(card: Substance, problems: Problems) -> None:
    for one in card.hazards.figures.statements:
        with problems.at(one.at):
            tables().statements.text(one.code)
            if not one.code.startswith("EUH"):
                raise Refusal(
                    "statement-code",
                    f"`{one.code}` is not a supplemental statement",
                    "give its class under `classes`; here stand codes such as `EUH031`",
                )
