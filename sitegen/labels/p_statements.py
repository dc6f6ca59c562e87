"""Precautionary statements: a short choice, most important first, with every blank filled.

Which codes a class has is data (`statements`); CLP Article 28 asks for six at most unless more are needed.
Here: P102, because the bottle stands in a home, up to six by rank, and one for disposal. A text with a blank
left, or alternatives not chosen, is refused, never printed.
"""

import re
from typing import Final

from sitegen.labels.precedence import Printed
from sitegen.labels.statements import Statements
from sitegen.problems import Refusal

MOST: Final = 6
MORE: Final = 8
"""Where burns meet cancer, damage to the unborn or asthma: Article 28 allows more where severity needs it."""
CHILDREN: Final = "P102"
DISPOSAL: Final = "P501"
# In which order do they matter beside a tray? First aid for the worst first, then what to wear and to avoid.
_RANK: Final = (
    "P301+P330+P331", "P303+P361+P353", "P305+P351+P338", "P301+P310", "P331", "P310", "P280", "P308+P313",
    "P308+P311", "P201", "P210", "P260", "P342+P311", "P304+P340", "P302+P352", "P333+P313", "P263", "P262", "P284",
    "P261", "P273", "P220", "P301+P312", "P311", "P312", "P337+P313", "P332+P313", "P314", "P270", "P264", "P391",
    "P390", "P403+P233", "P403+P235", "P405", "P234", "P271", "P370+P378", "P235", "P420",
)  # fmt: skip
# What does a code already say? The second is then left out.
_COVERS: Final[dict[str, tuple[str, ...]]] = {
    "P260": ("P261", "P271"),
    "P303+P361+P353": ("P302+P352", "P332+P313", "P361+P364", "P362+P364"),
    "P301+P330+P331": ("P331", "P330", "P301+P312"),
    "P301+P310": ("P301+P312", "P310", "P330"),
    "P310": ("P311", "P312", "P314", "P332+P313", "P337+P313"),
    "P308+P311": ("P308+P313", "P311", "P312", "P314"),
    "P342+P311": ("P311", "P312"),
    "P302+P352": ("P332+P313",),
    "P280": ("P262",),
    "P201": ("P202",),
}
_LUNGS: Final = {"liquid": "vapours or spray", "solid": "dust"}
_GEAR: Final[tuple[tuple[str, tuple[str, ...]], ...]] = (
    ("protective gloves", ("Skin Corr.", "Skin Irrit.", "Skin Sens.", "Muta.", "Carc.", "Repr.", "Ox. Liq.", "Ox. Sol.",
                           "Flam. Liq.", "Flam. Sol.", "Self-heat.", "Acute Tox.")),
    ("protective clothing", ("Skin Corr.", "Muta.", "Carc.", "Repr.")),
    ("eye protection", ("Skin Corr.", "Eye Dam.", "Eye Irrit.", "Muta.", "Carc.", "Repr.", "Flam. Liq.", "Ox. Liq.")),
    ("face protection", ("Skin Corr.",)),
)  # fmt: skip
# What fills the blanks and picks the alternatives? Beside these, texts are the official ones.
_FILLS: Final[tuple[tuple[str, str], ...]] = (
    ("Wash … thoroughly", "Wash hands thoroughly"),
    ("POISON CENTER/doctor/…", "POISON CENTER or doctor"),
    ("POISON CENTRE/doctor/…", "POISON CENTER or doctor"),
    ("medical advice/attention", "medical advice"),
    ("water/…", "water"),
    ("[or shower]", "or shower"),
    ("[In case of inadequate ventilation] wear", "In case of inadequate ventilation wear"),
    ("a corrosion-resistant/… container", "a corrosion-resistant container"),
    ("Use… to", "Use water spray, dry powder or carbon dioxide to"),
    (
        "contents/container to …",
        "contents and container to an authorised collection point in accordance with local, regional, national "
        "and international regulations.",
    ),
)
# Official texts whose slash is no choice.
_FIXED: Final = ("50 °C/122°F",)


def choose(printed: tuple[Printed, ...]) -> tuple[str, ...]:
    """The codes for a label: none for a mixture without a class."""
    if not printed:
        return ()
    found = dict.fromkeys(code for _, row in printed for code in row.p_codes)
    covered = {weak for strong, weaker in _COVERS.items() if strong in found for weak in weaker}
    ranked = [code for code in _RANK if code in found and code not in covered]
    rest = (DISPOSAL,) if DISPOSAL in found else ()
    grave = "P303+P361+P353" in found and bool({"P308+P313", "P308+P311", "P342+P311"} & set(found))
    return (CHILDREN, *ranked[: MORE if grave else MOST], *rest)


def filled(code: str, printed: tuple[Printed, ...], statements: Statements, *, state: str = "liquid") -> str:
    """The text of a code with its blanks filled for this mixture; `Refusal` (`statement-gap`) where one stays."""
    text = statements.text(code)
    text = text.replace("dust/fume/gas/mist/vapours/spray", _LUNGS[state])
    text = text.replace("protective gloves/protective clothing/eye protection/face protection", _gear(printed))
    for blank, words in _FILLS:
        text = text.replace(blank, words)
    text = text if text.endswith((".", ":")) else f"{text}."
    check_filled(code, text)
    return text


def check_filled(code: str, text: str) -> None:
    """`Refusal` (`statement-gap`) for a text with a blank, a bracket or an unpicked alternative in it."""
    plain = text
    for fixed in _FIXED:
        plain = plain.replace(fixed, "")
    if re.search(r"…|\.\.\.|[\[\]<>]|\w/\w", plain):
        raise Refusal(
            "statement-gap",
            f"`{code}` has a blank that nobody filled: {text}",
            "leave the statement out, or fill what stands open in it",
        )


def _gear(printed: tuple[Printed, ...]) -> str:
    """What to wear, as far as the classes ask for it; gloves where none names a part of the body."""
    names = {one.hazard.name for one, _ in printed}
    worn = [gear for gear, classes in _GEAR if names & set(classes)] or ["protective gloves"]
    return worn[0] if len(worn) == 1 else f"{', '.join(worn[:-1])} and {worn[-1]}"
