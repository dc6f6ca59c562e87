"""Card documents: which fields a substance card has. The format, as models."""

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.documents import Document
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


class CardHazardsDoc(Document):
    """Hazard classes, and on what authority."""

    classes: t.Texts = Field((), description="Such as `Eye Irrit. 2`.")
    basis: HazardBasis = Field(description="On what authority.")
    source: t.Text = Field(description="Where the classes were read.")
    groups: tuple[t.Text, ...] = Field((), description="Reactive groups.")
    never: t.Texts = Field((), description="What it must not meet.")


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
