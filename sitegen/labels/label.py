"""The label of a mixture: what the rules found, and what of it is printed."""

from dataclasses import dataclass
from typing import Final

from sitegen.labels.precedence import Hidden, Pictogram
from sitegen.labels.reason import Answer, Classified, Finding, Lack, Reason
from sitegen.labels.statements import Signal
from sitegen.labels.supplement import Supplemental

NOTICE: Final = (
    "Derived from the cards of this archive by calculation, not tested and not a supplier's classification: "
    "safety data sheets, local rules and licensed practice come first."
)
NOT_SAFE: Final = "Not classified does not mean safe."


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A statement ready to print."""

    code: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Everything that is known of a mixture's hazards, and how."""

    mixture: str
    findings: tuple[Finding, ...]
    signal: Signal
    pictograms: tuple[Pictogram, ...]
    hidden: tuple[Hidden, ...]
    h: tuple[Text, ...]
    euh: tuple[Text, ...]
    supplements: tuple[Supplemental, ...]
    p: tuple[Text, ...]
    estimate: bool
    """Whether the shares rest on an estimated density."""
    notice: str = NOTICE

    @property
    def classifications(self) -> tuple[Classified, ...]:
        """Every class, those that are not printed too."""
        return tuple(c for f in self.findings for c in f.classified)

    @property
    def if_sprayed(self) -> tuple[Classified, ...]:
        """Classes that hold only when a mist of it is breathed: data, not on the label."""
        return tuple(c for c in self.classifications if c.when == "sprayed")

    @property
    def unknown(self) -> tuple[Lack, ...]:
        """Which ingredient lacks what."""
        return tuple(lack for f in self.findings for lack in f.lacks)

    @property
    def reasons(self) -> tuple[Reason, ...]:
        """Every rule applied, with its sum and threshold."""
        return tuple(r for f in self.findings for r in f.reasons)

    @property
    def readings(self) -> tuple[str, ...]:
        """Other readings of the rules, and what should be measured."""
        return tuple(dict.fromkeys(r for f in self.findings for r in f.readings))

    @property
    def answer(self) -> Answer:
        """Of the whole: classified by what is printed, else open where anything is, else not classified."""
        if any(not c.when for c in self.classifications):
            return "classified"
        return "not enough data" if self.unknown else "not classified"

    def finding(self, family: str) -> Finding:
        """The finding of one family; `KeyError` for a family that has none."""
        for found in self.findings:
            if found.family == family:
                return found
        raise KeyError(family)
