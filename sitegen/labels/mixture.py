"""A mixture's label, derived: every family of rules in turn, then what of it is printed.

The order of work: each substance once (`ingredient.joined`), each family alone, missing data added to every
family it leaves open, then statements, signal word, pictograms and precautions. The order of the ingredients
makes no difference. Only calculation from ingredients: test data of the whole mixture would come first
(CLP Article 9), and no program has them.
"""

from dataclasses import replace

from sitegen.labels.acute import acute
from sitegen.labels.aquatic import aquatic
from sitegen.labels.aspiration import aspiration
from sitegen.labels.classes import HEALTH_AND_WATER, Family, HazardClass
from sitegen.labels.cmr import cmr
from sitegen.labels.corrosion import skin
from sitegen.labels.eye import eye
from sitegen.labels.ingredient import Mixture, joined
from sitegen.labels.label import Label, Text
from sitegen.labels.limits import CUT_OFF
from sitegen.labels.p_statements import choose, filled
from sitegen.labels.physical import physical
from sitegen.labels.precedence import Printed, needless, pictograms, printed_rows, signal_word
from sitegen.labels.reason import Finding, Lack
from sitegen.labels.sensitisation import sensitisation
from sitegen.labels.statements import Statements
from sitegen.labels.stot import stot
from sitegen.labels.supplement import ALLERGY, Supplemental, supplemental


def classify(mixture: Mixture, statements: Statements) -> Label:
    """The label. `Refusal` for shares over 100 %, or one substance given twice with different data."""
    whole = joined(mixture)
    findings = findings_of(whole)
    classified = tuple(c for f in findings for c in f.classified)
    printed = printed_rows(classified, statements)
    shown, hidden = pictograms(printed)
    codes, needed_not = needless(tuple(row.code for _, row in printed))
    extra = supplemental(whole, findings)
    return Label(
        mixture=whole.name,
        findings=findings,
        signal=signal_word(printed),
        pictograms=shown,
        hidden=(*hidden, *needed_not),
        h=_hazard_texts(codes, printed, statements),
        euh=tuple(_supplemental_text(one, statements) for one in extra),
        supplements=extra,
        p=tuple(Text(code=c, text=filled(c, printed, statements, state=whole.state)) for c in choose(printed)),
        estimate=whole.estimate,
    )


def findings_of(mixture: Mixture) -> tuple[Finding, ...]:
    """What each family of rules says of a mixture whose ingredients are joined."""
    on_skin = skin(mixture)
    found = (
        *acute(mixture),
        on_skin,
        eye(mixture, on_skin),
        *sensitisation(mixture),
        *cmr(mixture),
        *stot(mixture),
        aspiration(mixture),
        *aquatic(mixture),
        *physical(mixture),
    )
    return tuple(_with_lacks(one, mixture) for one in found)


def _with_lacks(finding: Finding, mixture: Mixture) -> Finding:
    """The finding with what unjudged ingredients and unknown shares leave open."""
    lacks = dict.fromkeys(finding.lacks)
    named = {lack.ingredient for lack in lacks}
    for part in mixture.ingredients:
        if part.percent is None and _concerns(finding.family, part.classes, lacking=part.lacks(finding.family)):
            lacks[Lack(family=finding.family, ingredient=part.name, what="share by weight not known")] = None
        elif (
            finding.family in CUT_OFF
            and part.name not in named
            and part.lacks(finding.family)
            and not any(c.family == finding.family for c in part.classes)
            and part.high >= CUT_OFF[finding.family]
        ):
            lacks[Lack(family=finding.family, ingredient=part.name, what="no hazard data")] = None
    return replace(finding, lacks=tuple(lacks))


def _concerns(family: Family, classes: tuple[HazardClass, ...], *, lacking: bool) -> bool:
    """Whether an ingredient of unknown share could matter for a family."""
    families = {c.family for c in classes}
    return family in families or (lacking and family in HEALTH_AND_WATER)


def _hazard_texts(codes: tuple[str, ...], printed: tuple[Printed, ...], statements: Statements) -> tuple[Text, ...]:
    details = {row.code: one.hazard.detail for one, row in printed if one.hazard.name.startswith("STOT")}
    return tuple(Text(code=code, text=statements.hazard_text(code, detail=details.get(code, ""))) for code in codes)


def _supplemental_text(one: Supplemental, statements: Statements) -> Text:
    text = statements.text(one.code)
    if one.code == ALLERGY:
        text = text.replace("<name of sensitising substance>", ", ".join(one.causes))
    return Text(code=one.code, text=text if text.endswith(".") else f"{text}.")
