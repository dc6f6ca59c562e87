"""Wording: what is said of a finding, and what to write about it."""

from typing import Final

from sitegen.check.pairs.finding import Finding, Where
from sitegen.check.pairs.findings import Standing
from sitegen.check.pairs.table import Rule, table

CODES: Final[dict[Where, str]] = {
    "mixture": "dangerous-pair",
    "metal": "pair-with-metal",
    "text": "pair-in-use",
    "baths": "baths-unwashed",
    "waste": "pair-in-waste",
}
WARMED: Final = "pair-warmed"

_REMEDY: Final[dict[Where, str]] = {
    "mixture": "keep them in two mixtures, or take one out",
    "metal": "name a vessel of glass or plastic in `needs`, or take the substance out",
    "text": "change the step, the storage or the vessel that says so",
    "baths": "put a step between them that washes in plain water, such as `do: Rinse in plain water.`",
    "waste": "say in `disposal` that they are collected apart, each in its own can",
}


def code_of(finding: Finding) -> str:
    """The problem's code: by where the two meet."""
    return WARMED if finding.cause == "warmed" else CODES[finding.where]


def message(finding: Finding) -> str:
    """What meets where, and what comes of it."""
    one, other = finding.names
    here = [f"`{id_.partition('/')[2]}`" for id_ in finding.mixtures]
    what = finding.rule.makes
    match finding.where:
        case "mixture" if finding.cause == "warmed":
            return f"`{one}` and `{other}` are warmed together in {here[0]}: {what}"
        case "mixture":
            return f"`{one}` and `{other}` are mixed in {here[0]}: {what}"
        case "metal":
            return f"`{other}` in {here[0]} meets the `{one}` of `needs`: {what}"
        case "text":
            return f"`{one}` in {here[0]} and `{other}`: {what}"
        case "baths":
            warm = "warm, " if finding.cause == "warmed" else ""
            names = f"`{one}` of {here[0]} goes {warm}into {here[1]} with `{other}`"
            return f"{names}, and no wash is between: {what}"
        case "waste":
            return f"`{one}` of {here[0]} and `{other}` of {here[1]} may meet in the waste: {what}"


def remedy(standing: Standing) -> str:
    """What to write: apart, or declared, or answered."""
    finding = standing.finding
    helped = _helped(finding)
    if standing.severity == "warning":
        return f"{helped}; or answer it, and the reason is printed:\n{answer_lines(finding.id)}"
    if finding.intention:
        return f"{helped}; if this is the process, declare it:\nintends: [{finding.intention}]"
    return helped


def _helped(finding: Finding) -> str:
    if finding.cause == "warmed" and finding.where == "mixture":
        return f"leave it cold; or {_REMEDY['mixture']}"
    condition = table().conditions[finding.rule.said] if finding.rule.said else None
    if condition and condition.unless_said:
        words = " or ".join(f"`{word}`" for word in condition.unless_said)
        return f"say in the hazard block how it is kept safe; {words} is looked for"
    return _REMEDY[finding.where]


def answer_lines(rule: str) -> str:
    """Lines to paste into the recipe."""
    return f"answers:\n  - pair: {rule}\n    reason: Why it is safe here, in a sentence."


def notes(id_: str, rule: Rule) -> tuple[str, ...]:
    """When it happens, and how it is known."""
    return (*((f"when: {rule.when}",) if rule.when else ()), f"rule {id_}, {told_by(rule)}")


def told_by(rule: Rule) -> str:
    """The source of a rule, in words; general knowledge is called so."""
    if rule.flag.startswith("MEMORY"):
        source = "" if rule.source == "general" else f" ({rule.source})"
        return f"general chemical knowledge{source}, not read in a source"
    return rule.source


def known_rules() -> tuple[str, ...]:
    """The ids of all rules."""
    return tuple(table().rules)
