"""Passphrases as they are given: one a line, for one edition or for every sealed one; and where one must not stand."""

import re
from collections.abc import Mapping, Sequence
from typing import Final

from sitegen.model.archive import Settings
from sitegen.model.edition import Audience
from sitegen.problems import Problem, Refusal, Span
from sitegen.sealing.passphrase import LEAST_BITS, check_strength, normal, strength

Given = Mapping[str, tuple[str, ...]]
"""Passphrases by edition."""

_FOR_ONE: Final = re.compile(r"(?P<edition>[^\s:]+):\s+(?P<words>.+)")
HINT: Final = "one a line, or `supporters: seven words of your own` for one edition alone; `#` begins a remark"


def read_given(text: str, settings: Settings, words: Sequence[str]) -> Given:
    """The passphrases of a text by sealed edition. `Refusal` for an unknown edition, a weak one, or none at all."""
    sealed = tuple(a for a in settings.audiences if a.sealed)
    found: dict[str, list[str]] = {a.id: [] for a in sealed}
    for line in (line.strip() for line in text.splitlines()):
        if not line or line.startswith("#"):
            continue
        match = _FOR_ONE.fullmatch(line)
        passphrase = match["words"] if match else line
        check_strength(passphrase, words)
        for edition in (_sealed(match["edition"], sealed),) if match else tuple(found):
            found[edition].append(passphrase)
    for edition, passphrases in found.items():
        if not passphrases:
            raise missing(edition)
    return {edition: tuple(passphrases) for edition, passphrases in found.items()}


def _sealed(name: str, sealed: Sequence[Audience]) -> str:
    if name in (a.id for a in sealed):
        return name
    listed = " or ".join(f"`{a.id}`" for a in sealed)
    raise Refusal(
        "passphrase-of-unknown-edition",
        f"a passphrase is given for `{name}`, which is no sealed edition",
        f"write {listed}" if listed else "write `sealed: yes` for the edition in archive.yaml",
    )


def missing(edition: str) -> Refusal:
    """The refusal of a sealed edition without a passphrase."""
    return Refusal(
        "passphrase-missing",
        f"the edition `{edition}` is sealed, but no passphrase is given for it",
        "make one with `trayside passphrase`, keep it in a file outside the archive, and name that file with "
        "`--passphrases FILE`, or put its lines into the environment as TRAYSIDE_PASSPHRASES",
        (HINT,),
    )


def standing_in(file: str, text: str, given: Given) -> Problem | None:
    """The problem of a file that holds a passphrase. Neither the passphrase nor its line is repeated."""
    for passphrases in given.values():
        for passphrase in passphrases:
            wanted = f" {normal(passphrase)} "
            if wanted in f" {_bare(text)} ":
                return Problem(
                    code="passphrase-in-archive",
                    at=_at(file, _line_with(text, wanted)),
                    message="a passphrase of a sealed edition stands in this file",
                    help="delete it here and take a new one: `trayside passphrase`; copies and old versions keep it",
                    notes=("the archive's folder is what is copied, shared and kept under version control",),
                )
    return None


def looking_like_one(file: str, text: str, words: Sequence[str]) -> Problem | None:
    """A warning for a line that is nothing but words of the list, enough of them for a passphrase."""
    listed = frozenset(words)
    for n, line in enumerate(text.splitlines()):
        said = _bare(line.partition(": ")[2] or line).split(" ")
        if len(said) >= 2 and listed.issuperset(said) and strength(" ".join(said), words) >= LEAST_BITS:
            return Problem(
                code="passphrase-perhaps",
                at=_at(file, n),
                message="this line looks like a passphrase",
                help="if it is one, keep it outside the archive and take a new one: `trayside passphrase`",
                level="warning",
            )
    return None


def _bare(text: str) -> str:
    """The text in normal form, without the signs that quote and list."""
    return normal(re.sub(r"[\"'`,;#*\[\]{}]+", " ", text))


def _line_with(text: str, wanted: str) -> int:
    lines = text.splitlines()
    return next((n for n, line in enumerate(lines) if wanted in f" {_bare(line)} "), 0)


def _at(file: str, line: int) -> Span:
    # Named by its path from the folder, which no source text goes by: a report shows the place, not the words.
    return Span(file=f"./{file}", line=line)
