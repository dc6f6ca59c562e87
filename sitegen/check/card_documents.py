"""Card documents: which fields a substance card has. The format, as models."""

from fractions import Fraction

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.document import Document
from sitegen.model.card_figures import Inhaled, Route
from sitegen.model.substance import HazardBasis, State


class FormDoc(Document):
    """One form a substance is sold in; what is left out is as the substance has it."""

    name: t.Text | None = Field(None, description="As on the jar.")
    formula: t.FormulaText | None = Field(None, description="Formula, with a full stop: Na2CO3.10H2O.")
    cas: t.Cas | None = Field(None, description="CAS number.")
    names: t.Texts = Field((), description="Other names of just this form.")
    assay: t.Assay | None = Field(None, description="How much of it is the substance: 28 % w/w.")
    density: t.Density | None = Field(None, description="Density at 20 °C, of liquids: 1.05 g/ml.")
    state: State | None = Field(None, description="solid, liquid, gas or plant.")
    content: dict[t.Key, t.Content] = Field(default_factory=dict, description="Percent by mass of a useful part.")
    note: t.Text | None = Field(None, description="Anything else.")
    supplies: dict[t.Key, t.Number] = Field(default_factory=dict, description="Moles of a part per formula unit.")


class SolubilityDoc(Document):
    """How much dissolves in 100 ml of water."""

    at: t.Temperature = Field(description="At which temperature: 20 °C.")
    limit: t.Mass = Field(description="Grams in 100 ml of water.")
    form: t.Text | None = Field(None, description="Of which form.")
    source: t.Text = Field(description="Where the figure was read.")


class LimitDoc(Document):
    """A specific concentration limit, in percent by weight."""

    class_: t.Text = Field(alias="class", description="Such as `Skin Corr. 1B`.")
    from_: t.Number = Field(alias="from", description="Percent from which it holds, this included.")
    below: t.Number | None = Field(None, description="Percent below which it holds.")
    source: t.Text = Field(description="Where the limit was read.")


class AcuteDoc(Document):
    """An acute toxicity estimate."""

    route: Route = Field(description="oral, dermal or inhalation.")
    value: t.Number = Field(description="mg/kg; breathed mg/l, gases ppm.")
    as_: Inhaled = Field("dust-mist", alias="as", description="How it is breathed: gas, vapour or dust-mist.")
    source: t.Text = Field(description="Where the figure was read.")


class FactorsDoc(Document):
    """M-factors of the aquatic classes; none given is unknown, never 1."""

    acute: t.Number | None = Field(None, description="Of Aquatic Acute 1.")
    chronic: t.Number | None = Field(None, description="Of Aquatic Chronic 1.")
    source: t.Text = Field(description="Where they were read.")


class SupplementDoc(Document):
    """A supplemental statement."""

    code: t.Text = Field(description="Such as EUH031.")
    from_: t.Number = Field(Fraction(1), alias="from", description="Percent from which it is printed; 1 if unsaid.")
    source: t.Text = Field(description="Where it was read.")


class FiguresDoc(Document):
    """What mixtures are classified by, beside the classes."""

    limits: tuple[LimitDoc, ...] = Field((), description="Specific concentration limits.")
    ate: tuple[AcuteDoc, ...] = Field((), description="Acute toxicity estimates.")
    m: FactorsDoc | None = Field(None, description="M-factors.")
    euh: tuple[SupplementDoc, ...] = Field((), description="Supplemental statements.")


class CardHazardsDoc(Document):
    """Hazard classes, and on what authority."""

    classes: t.Texts = Field((), description="Such as `Eye Irrit. 2`.")
    basis: HazardBasis = Field(description="On what authority.")
    source: t.Text = Field(description="Where the classes were read.")
    groups: tuple[t.Text, ...] = Field((), description="Reactive groups.")
    never: t.Texts = Field((), description="What it must not meet.")
    figures: FiguresDoc | None = Field(None, description="Limits and estimates that mixtures are classified by.")


class CardDoc(Document):
    """A substance card."""

    name: t.Text = Field(description="The plain name.")
    state: State = Field(description="solid, liquid, gas or plant.")
    formula: t.FormulaText | None = Field(None, description="Formula, with a full stop: Na2CO3.10H2O.")
    cas: t.Cas | None = Field(None, description="CAS number.")
    other_names: t.Texts = Field((), description="Names that do not tell the form.")
    assay: t.Assay | None = Field(None, description="How much of it is the substance: 28 % w/w.")
    density: t.Density | None = Field(None, description="Density at 20 °C, of liquids: 1.05 g/ml.")
    supplies: dict[t.Key, t.Number] = Field(default_factory=dict, description="Moles of a part per formula unit.")
    content: dict[t.Key, t.Content] = Field(default_factory=dict, description="Percent by mass of a useful part.")
    forms: dict[t.Key, FormDoc] = Field(default_factory=dict, description="The forms it is sold in.")
    look_alikes: tuple[t.Text, ...] = Field(
        (), alias="look-alikes", description="Substances that are easily taken for it."
    )
    solubility: tuple[SolubilityDoc, ...] = Field((), description="How much dissolves, at which temperature.")
    hazards: CardHazardsDoc = Field(description="Hazard classes and their source.")
    store: t.Text | None = Field(None, description="How to keep it.")
    dispose: t.Text | None = Field(None, description="Where it goes; local rules decide.")
    note: t.Text | None = Field(None, description="Anything else.")
    unverified: t.Texts = Field((), description="Fields that come from memory.")
