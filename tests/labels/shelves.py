"""Archives to label: a recipe's mixtures as text, on the shipped cards and whatever cards a test brings."""

import re
from collections.abc import Mapping
from textwrap import indent

from sitegen.check import check_archive
from sitegen.compute.whole import Computed, compute
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards

SETTINGS = """
title: Bench book
studio: The bench
address: https://bench.example/
processes: {iron-blue: {name: Iron-blue prints}}
measuring: {balance: 0.1 g, vessels: [1000 ml in 10 ml], drops per ml: 20}
"""
HEAD = """
title: Iron-blue sensitiser
code: IB-07
summary: Two solutions.
process: iron-blue
revision: 3
revised: 2026-03-02
credits: own
hazards: {wear: Gloves., air: No dust., never: Never., first aid: Rinse., disposal: Collect it., note: Read the sheet.}
mixtures:
"""


def recipe(mixtures: str) -> str:
    """A recipe's text; only its mixtures are given."""
    return HEAD + indent(mixtures.strip("\n"), "  ")


def texts(mixtures: str, cards: Mapping[str, str] | None = None) -> dict[str, str]:
    """Every file of the archive; `cards` by substance id. Of the shipped cards only those that are named."""
    own = {f"substances/{id_}.yaml": text for id_, text in (cards or {}).items()}
    base = {file: text for file, text in base_cards().items() if file[len("base/") : -len(".yaml")] in mixtures}
    alone = {
        file: re.sub(r"^look-alikes:.*\n(?:  - .*\n)*", "", text, flags=re.MULTILINE) for file, text in base.items()
    }
    return alone | own | {"archive.yaml": SETTINGS, "recipes/blue.yaml": recipe(mixtures)}


def computed(mixtures: str, cards: Mapping[str, str] | None = None) -> Computed:
    """The archive, checked and computed, without an error."""
    problems = Problems()
    found = check_archive(compose_sources(texts(mixtures, cards), problems), problems)
    assert found
    whole = compute(found, problems)
    assert not problems.failed, problems.in_order()
    return whole
