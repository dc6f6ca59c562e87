"""What a page hands to its scripts: plain numbers and words, so that the browser parses no chemistry.

Numbers are exact fractions written as text (`7/2`); the scripts keep them exact. The shape is the
contract with `themes/*/assets/calc.js` and `swapping.js`.
"""

from collections.abc import Mapping
from dataclasses import asdict
from fractions import Fraction
from typing import Any

from sitegen.compute.molar import molar_mass
from sitegen.compute.notes import DROPS_PER_ML, WORDS
from sitegen.compute.plan import PlanLine, PlanMixture, Target, Total
from sitegen.compute.rounding import ladders
from sitegen.compute.strength import Strength
from sitegen.model.archive import Archive, Settings
from sitegen.model.sizes import PAPER_SIZES
from sitegen.model.substance import Form, Substance
from sitegen.model.units import UNITS, per_unit

Json = dict[str, Any]


def plan_json(
    recipe: str,
    targets: tuple[Target, ...],
    strengths: Mapping[str, tuple[Strength, ...]],
    archive: Archive,
    others: tuple[Target, ...] = (),
) -> Json:
    """The data block of a recipe page: its targets, how to round, and the words of the notes.

    `others` are the targets of foreign mixtures on the page: what they are as written in their own recipe.
    `things` says of each ingredient how it is added up.
    """
    of = dict.fromkeys(line.of for target in targets for mixture in target.mixtures for line in mixture.lines)
    return {
        "recipe": recipe,
        **common_json(archive.settings),
        "targets": [_target(t) for t in targets],
        "things": {id_: _thing(archive.forms[id_]) for id_ in of if id_ in archive.forms},
        "others": [_target(t) for t in others],
        "strengths": {m: [_strength(s) for s in found] for m, found in strengths.items()},
    }


def bench_json(archive: Archive) -> Json:
    """The data block of the bench: the measures, and every form that can stand in a jar."""
    return {
        **common_json(archive.settings),
        "forms": [_form(form, card) for card in archive.substances for form in card.forms],
    }


def common_json(settings: Settings) -> Json:
    """What every calculator needs, the loose ones too: the measures, the units and the paper sizes."""
    measuring = settings.measuring
    return {
        "balance": ratio(measuring.balance),
        "dropsPerMl": ratio(measuring.drops_per_ml or DROPS_PER_ML),
        "allowance": ratio(settings.allowance),
        "words": dict(WORDS),
        "papers": {name.upper(): [str(long), str(short)] for name, (short, long) in PAPER_SIZES.items()},
        "ladders": {
            system: {kind: [_rung(asdict(r)) for r in ladder] for kind, ladder in kinds.items()}
            for system, kinds in ladders(measuring).items()
        },
        "units": [
            {"symbol": u.symbol, "dimension": u.dimension, "per": ratio(per_unit(u.symbol))}
            for u in UNITS
            if u.dimension in ("mass", "volume", "length", "coverage")
        ],
    }


def ratio(value: Fraction) -> str:
    """An exact number as text: `7/2`, `40`."""
    return str(value)


def _optional(value: Fraction | None) -> str | None:
    return None if value is None else ratio(value)


def _pair(value: tuple[Fraction, Fraction] | None) -> list[str] | None:
    return None if value is None else [ratio(v) for v in value]


def _rung(rung: Json) -> Json:
    return {
        "upto": _optional(rung["upto"]),
        "unit": rung["unit"],
        "per": ratio(rung["per"]),
        "step": ratio(rung["step"]),
    }


def _target(target: Target) -> Json:
    return {
        "id": target.id,
        "local": target.local,
        "name": target.name,
        "size": target.size,
        "base": target.base,
        "makes": ratio(target.makes),
        "nominal": target.nominal,
        "density": _optional(target.density),
        "coverage": _pair(target.coverage),
        "perPerson": _optional(target.per_person),
        "mixtures": [_mixture(m) for m in target.mixtures],
        "totals": [_total(t) for t in target.totals],
        "again": target.again,
    }


def _mixture(mixture: PlanMixture) -> Json:
    return {
        "id": mixture.id,
        "name": mixture.name,
        "size": mixture.size,
        "base": mixture.base,
        "makes": ratio(mixture.makes),
        "estimate": mixture.estimate,
        "lines": [_line(line) for line in mixture.lines],
    }


def _line(line: PlanLine) -> Json:
    return {
        "key": line.key,
        "of": line.of,
        "name": line.name,
        "kind": line.kind,
        "low": ratio(line.low),
        "high": ratio(line.high),
        "fill": line.fill,
        "optional": line.optional,
        "stock": _optional(line.stock),
        "written": line.written,
    }


def _total(total: Total) -> Json:
    return {
        "of": total.of,
        "name": total.name,
        "kind": total.kind,
        "amount": ratio(total.amount),
        "density": _optional(total.density),
    }


def _thing(form: Form) -> Json:
    return {"liquid": form.state == "liquid", "density": _pair(form.density.base() if form.density else None)}


def _form(form: Form, card: Substance) -> Json:
    """`called` are words to offer, `codes` are understood as well; both may name several forms."""
    return {
        "id": form.id,
        "name": form.name,
        "card": card.id,
        "state": form.state,
        "called": list(dict.fromkeys((form.name, *form.names, card.name, *card.other_names))),
        "codes": [word for word in (card.id, form.id, form.formula, form.cas) if word],
        "molarMass": ratio(molar_mass(form.formula)) if form.formula else None,
        "density": _optional(form.density.base()[0] if form.density else None),
        "assay": {"low": ratio(form.assay.low), "basis": form.assay.basis} if form.assay else None,
        "supplies": {part: ratio(moles) for part, moles in form.supplies},
        "content": {part: _pair((share.low, share.high)) for part, share in form.content},
        "note": form.note,
    }


def _strength(strength: Strength) -> Json:
    return {
        "of": strength.of,
        "name": strength.name,
        "gPerL": _pair(strength.g_per_l),
        "vv": _pair(strength.percent_vv),
        "molPerL": _pair(strength.mol_per_l),
    }
